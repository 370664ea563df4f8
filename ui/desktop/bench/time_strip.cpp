#include <fmt/format.h>

#include <SFML/Window/Keyboard.hpp>
#include <algorithm>
#include <array>
#include <cmath>

#include "desktop/bench/bench_panels.h"
#include "desktop/style/draw.h"

namespace voltfall {
namespace {

struct BenchSpeed {
  double share;
  std::string_view words;
};
constexpr std::array speeds{BenchSpeed{1.0, "real time"}, BenchSpeed{0.2, "1/5"}, BenchSpeed{0.05, "1/20"},
                            BenchSpeed{0.01, "1/100"}, BenchSpeed{0.002, "1/500"}};

struct StripScale {
  Rect line;
  double from_s, to_s;
  float x_at(double time_s) const { return line.x + line.w * static_cast<float>((time_s - from_s) / (to_s - from_s)); }
  double time_at(float x) const { return from_s + (to_s - from_s) * static_cast<double>((x - line.x) / line.w); }
};

/// A whole number of five seconds that holds what has run, at least ten, at most the minute kept.
StripScale scale_over(const OpenBench& bench, const Rect& line) {
  const double newest_s = bench.newest_s();
  const double shown_s = std::clamp(5.0 * std::ceil((newest_s + 0.5) / 5.0), 10.0, OpenBench::kept_s);
  const double from_s = std::max(0.0, newest_s - shown_s);
  return {line, from_s, from_s + shown_s};
}

void draw_runs(const OpenBench& bench, const StripScale& scale) {
  int number = 0;
  for (const BenchRun& run : bench.runs()) {
    ++number;
    const float from = std::max(scale.line.x, scale.x_at(run.from_s));
    const float to = scale.x_at(std::min(run.to_s.value_or(bench.newest_s()), run.from_s + run.seen.held_s));
    if (to <= scale.line.x) continue;
    const Rect bar{from, scale.line.y, std::max(3.0F, to - from), scale.line.h};
    sheet().AddRectFilled(bar.min(), bar.max(), run.seated_s ? ink::copper_light : ink::paper_shade);
    sheet().AddRect(bar.min(), bar.max(), ink::ink);
    if (run.seated_s) rule_down(scale.x_at(run.from_s + *run.seated_s), bar.y, bar.bottom(), ink::ink, 2.0F);
    if (bar.w > 24) text_in(bar.inset(gap_8, 0), Type::small_bold, ink::ink, std::to_string(number), Align::centre);
  }
}

void draw_timeline(const BenchScene& scene, Rect place) {
  OpenBench& bench = scene.bench;
  const StripScale scale = scale_over(bench, {place.x, place.y, place.w, 22});
  scene.sheet.hands.offer("bench/scrub", scale.line);
  sheet().AddRectFilled(scale.line.min(), scale.line.max(), ink::paper);
  draw_runs(bench, scale);
  sheet().AddRect(scale.line.min(), scale.line.max(), ink::edge);
  const double every_s = scale.to_s - scale.from_s > 30.0 ? 10.0 : 2.0;
  for (double t_s = every_s * std::ceil(scale.from_s / every_s); t_s <= scale.to_s; t_s += every_s) {
    const float x = scale.x_at(t_s);
    rule_down(x, scale.line.bottom(), scale.line.bottom() + 4);
    const float left = std::clamp(x - 24, scale.line.x - 20, scale.line.right() - 38);
    text_in({left, scale.line.bottom() + 3, 48, 15}, Type::figures_small, ink::ink_soft, fmt::format("{:.0f} s", t_s),
            Align::centre);
  }
  if (const auto& loop = bench.looping()) {
    sheet().AddRect({scale.x_at(loop->from_s) - 2, scale.line.y - 3},
                    {scale.x_at(loop->to_s) + 2, scale.line.bottom() + 3}, ink::focus, 0, ImDrawFlags_None, 2.0F);
  }
  const float x = scale.x_at(bench.shown_s());
  sheet().AddRectFilled({x - 1.5F, scale.line.y - 4}, {x + 1.5F, scale.line.bottom() + 4}, ink::focus);
  sheet().AddTriangleFilled({x - 6, scale.line.y - 6}, {x + 6, scale.line.y - 6}, {x, scale.line.y + 2}, ink::focus);
  if (scene.sheet.hands.ring_on("bench/scrub")) focus_ring(scale.line);
  if (scene.sheet.hands.dragged("bench/scrub")) {
    bench.loop(std::nullopt);
    bench.pause(true);
    bench.show(scale.time_at(ImGui::GetIO().MousePos.x));
  }
}

void draw_step_keys(const BenchScene& scene, Rect& row) {
  OpenBench& bench = scene.bench;
  const auto key = [&](std::string_view id, float width, std::string_view label, KeyLook look = {}) {
    look.type = Type::small;
    const bool pressed = push_key(scene.sheet.hands, id, row.cut_left(width), label, look);
    row.cut_left(gap_4);
    return pressed;
  };
  if (key("bench/back", 34, "\u2190 ,")) bench.step_by(-1);
  if (key("bench/pause", 76, scene.words.text(bench.paused() ? "open_bench.go_on" : "open_bench.pause"),
          {.selected = bench.paused()}))
    bench.pause(!bench.paused());
  if (key("bench/forward", 34, ". \u2192")) bench.step_by(1);
  row.cut_left(gap_8);
  std::array<std::string_view, speeds.size()> words;
  int chosen = 0;
  for (std::size_t i = 0; i < speeds.size(); ++i) {
    words.at(i) = speeds.at(i).words;
    if (bench.speed() == speeds.at(i).share) chosen = static_cast<int>(i);
  }
  const int pressed =
      choice_keys(scene.sheet.hands, "bench/speed", row.cut_left(330), words, chosen, {.type = Type::small});
  if (pressed != chosen) bench.set_speed(speeds.at(static_cast<std::size_t>(pressed)).share);
  row.cut_left(gap_8);
}

/// Round and round over the engagement of the run shown, slowly; or no longer.
void turn_loop(OpenBench& bench) {
  if (bench.looping()) return bench.loop(std::nullopt);
  const BenchRun* run = bench.run_shown();
  if (run == nullptr) return;
  constexpr double slow = 0.05, slower = 0.01;
  bench.loop(bench.engagement_of(*run));
  if (bench.speed() > slow) bench.set_speed(slower);
}

void go_to_now(OpenBench& bench) {
  bench.loop(std::nullopt);
  bench.pause(false);
  bench.set_speed(1.0);
  bench.show(bench.newest_s());
}

void draw_loop_keys(const BenchScene& scene, Rect row) {
  OpenBench& bench = scene.bench;
  const BenchRun* run = bench.run_shown();
  const KeyLook loop{.selected = bench.looping().has_value(), .enabled = run != nullptr, .type = Type::small};
  if (push_key(scene.sheet.hands, "bench/loop", row.cut_left(170), scene.words.text("open_bench.loop"), loop)) {
    turn_loop(bench);
  }
  row.cut_left(gap_4);
  const KeyLook now{.enabled = !bench.at_newest() || bench.looping().has_value(), .type = Type::small};
  if (push_key(scene.sheet.hands, "bench/now", row.cut_left(60), scene.words.text("open_bench.now"), now)) {
    go_to_now(bench);
  }
  const BenchRun* shown = bench.run_shown();
  const std::string when = shown == nullptr ? fmt::format("{:.3f} s", bench.shown_s())
                                            : fmt::format("{:.1f} ms", 1000.0 * (bench.shown_s() - shown->from_s));
  text_in(row, Type::figures, ink::ink, when, Align::right);
}

void handle_time_keys(const BenchScene& scene) {
  if (scene.sheet.hands.typing()) return;
  OpenBench& bench = scene.bench;
  if (ImGui::IsKeyPressed(sf::Keyboard::Comma, true)) bench.step_by(-1);
  if (ImGui::IsKeyPressed(sf::Keyboard::Period, true)) bench.step_by(1);
  if (letter_pressed(scene.sheet.hands, 'P')) bench.pause(!bench.paused());
  if (letter_pressed(scene.sheet.hands, 'L')) turn_loop(bench);
  if (letter_pressed(scene.sheet.hands, 'N')) go_to_now(bench);
  for (std::size_t i = 0; i < speeds.size(); ++i) {
    if (ImGui::IsKeyPressed(sf::Keyboard::Num1 + static_cast<int>(i), false)) bench.set_speed(speeds.at(i).share);
  }
}

}  // namespace

void draw_time_strip(const BenchScene& scene, const Rect& zone) {
  ruled_border(zone);
  Rect place = zone.inset(gap_16, 10);
  handle_time_keys(scene);
  draw_timeline(scene, place.cut_top(42));
  Rect row = place.cut_bottom(30);
  draw_step_keys(scene, row);
  draw_loop_keys(scene, row);
}

}  // namespace voltfall
