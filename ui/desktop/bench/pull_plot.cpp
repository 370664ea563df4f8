#include "desktop/bench/pull_plot.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <vector>

#include "desktop/style/draw.h"
#include "rig/circuit.h"
#include "wording/filled.h"

namespace voltfall {
namespace {

constexpr int curve_points = 40;

struct PullScale {
  Rect area;
  double travel_m, top_N;

  ImVec2 at(double shoe_m, double force_N) const {
    const double y = std::min(force_N / top_N, 1.06);
    return {area.x + area.w * static_cast<float>(shoe_m / travel_m), area.bottom() - area.h * static_cast<float>(y)};
  }
};

enum class PlotLine { whole, dashed, dotted };

void draw_curve(const PullScale& scale, const std::function<double(double)>& force_N, ImU32 colour, PlotLine line) {
  std::vector<ImVec2> points;
  for (int i = 0; i <= curve_points; ++i) {
    const double shoe_m = scale.travel_m * i / curve_points;
    points.push_back(scale.at(shoe_m, force_N(shoe_m)));
  }
  if (line == PlotLine::whole) {
    sheet().AddPolyline(points.data(), static_cast<int>(points.size()), colour, ImDrawFlags_None, 2.0F);
    return;
  }
  for (std::size_t i = 0; i + 1 < points.size(); i += 2) {
    if (line == PlotLine::dashed) sheet().AddLine(points[i], points[i + 1], colour, 2.0F);
    if (line == PlotLine::dotted) sheet().AddCircleFilled(points[i], 1.7F, colour, 8);
  }
}

void draw_upright(const PullScale& scale, double share, std::string_view words, float words_y) {
  const float x = scale.at(share * scale.travel_m, 0.0).x;
  rule_down(x, scale.area.y, scale.area.bottom(), ink::edge);
  const float width = text_width(Type::small, words) + gap_4;
  const bool fits = x + width + gap_4 < scale.area.right();
  const Rect tag{fits ? x + gap_4 : x - gap_4 - width, words_y, width, 16};
  sheet().AddRectFilled(tag.min(), tag.max(), ink::paper);
  text_in(tag, Type::small, ink::ink_soft, words, fits ? Align::left : Align::right);
}

void draw_axes(const PullScale& scale) {
  const Rect& area = scale.area;
  const double step_N = scale.top_N > 900.0 ? 400.0 : scale.top_N > 450.0 ? 200.0 : 100.0;
  for (double force_N = 0.0; force_N <= scale.top_N; force_N += step_N) {
    const float y = scale.at(0.0, force_N).y;
    rule_across(area.x, area.right(), y, force_N == 0.0 ? ink::ink : ink::hairline);
    text_in({area.x - 52, y - 8, 46, 16}, Type::figures_small, ink::ink_soft, fmt::format("{:.0f} N", force_N),
            Align::right);
  }
  for (int mm = 0; mm <= static_cast<int>(std::lround(scale.travel_m * 1000.0)); mm += 2) {
    const float x = scale.at(0.001 * mm, 0.0).x;
    rule_down(x, area.bottom(), area.bottom() + 4);
    text_in({x - 24, area.bottom() + 4, 48, 16}, Type::figures_small, ink::ink_soft,
            mm == 0 ? "0" : fmt::format("{} mm", mm), Align::centre);
  }
}

void draw_uprights(const PullScale& scale, const BenchScene& scene) {
  const RigParameters& vehicle = scene.bench.vehicle().parameters();
  draw_upright(scale, vehicle.drive.teeth_meet_at, scene.words.text("open_bench.pull.teeth_meet"), scale.area.y + 2);
  draw_upright(scale, vehicle.shoe.contacts_open_at, scene.words.text("open_bench.pull.contacts_open"),
               scale.area.y + 18);
}

/// The way of the shoe in this run, as far as it is shown: force that the iron really gave, against travel.
void draw_path(const PullScale& scale, const BenchScene& scene, const Mechanism& now) {
  const BenchRun* run = scene.bench.run_shown();
  if (run == nullptr) return;
  const PoleParameters pole = starter_pole(scene.bench.vehicle().parameters().starter);
  const BenchStretch stretch = scene.bench.engagement_of(*run);
  const double to_s = std::min(scene.bench.shown_s(), stretch.to_s);
  constexpr int most_points = 160;
  const int count = std::clamp(static_cast<int>((to_s - stretch.from_s) / Rig::step_s), 0, most_points);
  std::vector<ImVec2> points;
  for (int i = 0; i < count; ++i) {
    const Mechanism then = scene.bench.mechanism_at(stretch.from_s + (to_s - stretch.from_s) * i / count);
    points.push_back(scale.at(then.shoe_travel_m, pull_N(pole, then.movable_Wb)));
  }
  const ImVec2 head = scale.at(now.shoe_travel_m, pull_N(pole, now.movable_Wb));
  if (scene.bench.shown_s() <= stretch.to_s) points.push_back(head);
  sheet().AddPolyline(points.data(), static_cast<int>(points.size()), ink::focus, ImDrawFlags_None, 2.5F);
  sheet().AddCircleFilled(head, 6.0F, ink::paper);
  sheet().AddCircle(head, 6.0F, ink::focus, 0, 3.0F);
}

/// Where the surge gives less than what is asked, the two are tied by a bar with the difference.
void draw_shortfall(const PullScale& scale, const BenchScene& scene) {
  if (scene.held.failed) return;
  const PullShortfall worst = worst_place(scene.bench.vehicle().parameters(), scene.held.surge_ampere_turns);
  if (worst.short_by_N() <= 0.0) return;
  const ImVec2 needed = scale.at(worst.shoe_travel_m, worst.needed_N),
               given = scale.at(worst.shoe_travel_m, worst.given_N);
  sheet().AddLine(needed, given, ink::danger, 4.0F);
  for (const ImVec2 end : {needed, given}) sheet().AddLine({end.x - 6, end.y}, {end.x + 6, end.y}, ink::danger, 2.0F);
  const std::string words = filled(scene.words, "open_bench.pull.short_by", fmt::arg("force", worst.short_by_N()));
  const float width = text_width(Type::small_bold, words) + gap_8;
  const bool fits = needed.x + width + 12 < scale.area.right();
  const Rect tag{fits ? needed.x + 10 : needed.x - 10 - width, (needed.y + given.y) / 2 - 9, width, 18};
  sheet().AddRectFilled(tag.min(), tag.max(), ink::paper);
  text_in(tag, Type::small_bold, ink::danger, words, Align::centre);
}

constexpr float key_row = 19, key_width = 680;

/// What each line is, in as many rows as it takes.
void draw_key(Rect place, const BenchScene& scene) {
  Rect row = place.cut_top(key_row);
  const auto entry = [&](std::string_view words, ImU32 colour, PlotLine line) {
    if (26 + text_width(Type::small, words) > row.w) row = place.cut_top(key_row);
    const float y = row.centre().y;
    if (line == PlotLine::whole) sheet().AddLine({row.x, y}, {row.x + 22, y}, colour, 2.0F);
    for (float x = 0; line != PlotLine::whole && x < 22; x += 8) {
      if (line == PlotLine::dashed) sheet().AddLine({row.x + x, y}, {row.x + x + 5, y}, colour, 2.0F);
      if (line == PlotLine::dotted) sheet().AddCircleFilled({row.x + x + 2, y}, 1.7F, colour, 8);
    }
    row.cut_left(26);
    text_in(row.cut_left(text_width(Type::small, words) + gap_16), Type::small, ink::ink, words);
  };
  entry(scene.words.text("open_bench.pull.asked"), ink::ink, PlotLine::whole);
  entry(scene.words.text("open_bench.pull.now"), ink::copper, PlotLine::whole);
  if (!scene.held.failed) {
    entry(filled(scene.words, "open_bench.pull.surge", fmt::arg("amps", scene.held.surge_A)), ink::copper,
          PlotLine::dashed);
    entry(filled(scene.words, "open_bench.pull.stalled", fmt::arg("amps", scene.held.stalled_A)), ink::copper,
          PlotLine::dotted);
  }
  entry(scene.words.text("open_bench.pull.way"), ink::focus, PlotLine::whole);
}

}  // namespace

void draw_pull_plot(const BenchScene& scene, const Mechanism& now, const Rect& place) {
  const RigParameters& vehicle = scene.bench.vehicle().parameters();
  Rect view = place;
  const Rect head = view.cut_top(22);
  view.cut_top(gap_8);
  text_in(head, Type::body_bold, ink::ink, scene.words.text("open_bench.pull.title"));
  draw_key(view.cut_bottom(view.w < key_width ? 2 * key_row : key_row), scene);
  view.cut_left(56);
  view.cut_bottom(22);
  view.cut_right(gap_16);
  const auto needed = [&](double shoe_m) { return pull_needed_N(vehicle.shoe, shoe_m); };
  const auto pull_with = [&](double turns) {
    return [&vehicle, turns](double shoe_m) { return standing_pull_N(vehicle, turns, shoe_m); };
  };
  const auto surge = pull_with(scene.held.failed ? 0.0 : scene.held.surge_ampere_turns);
  // High enough for the whole fight below the teeth; the last of the way, where any magnet pulls hard, may run out.
  const double meet_m = vehicle.drive.teeth_meet_at * vehicle.shoe.travel_m;
  const double top_N = std::max({300.0, 1.8 * needed(vehicle.shoe.travel_m), 1.25 * surge(meet_m)});
  const PullScale scale{view, vehicle.shoe.travel_m, top_N};
  draw_axes(scale);
  sheet().PushClipRect(view.min(), {view.right() + 8, view.bottom() + 1}, true);
  if (!scene.held.failed) {
    draw_curve(scale, surge, ink::copper, PlotLine::dashed);
    draw_curve(scale, pull_with(scene.held.stalled_ampere_turns), ink::copper, PlotLine::dotted);
  }
  draw_curve(scale, pull_with(movable_ampere_turns(vehicle.starter, now.drive_A, now.hold_in_A)), ink::copper,
             PlotLine::whole);
  draw_curve(scale, needed, ink::ink, PlotLine::whole);
  draw_uprights(scale, scene);
  draw_path(scale, scene, now);
  draw_shortfall(scale, scene);
  sheet().PopClipRect();
}

}  // namespace voltfall
