#include "desktop/bench/volts_view.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "desktop/fall_line/fall_lanes.h"
#include "desktop/style/draw.h"

namespace voltfall {
namespace {

PointVolts volts_shown(const OpenBench& bench) {
  PointVolts volts{};
  for (const TestPoint point : all_test_points()) {
    volts[static_cast<std::size_t>(point)] = bench.signal(tape_signal_of(point));
  }
  return volts;
}

/// A lamp as bright as the model's: a disc that fills, with its share in figures.
void draw_lamp(const BenchScene& scene, Rect place) {
  const float light = scene.bench.signal(*tape_signal_named("lamp_light"));
  const ImVec2 middle{place.x + 12, place.centre().y};
  sheet().AddCircleFilled(middle, 10, ink::blend(ink::paper, ink::lamp_lit, light));
  sheet().AddCircle(middle, 10, ink::ink, 0, 1.5F);
  place.cut_left(28);
  text_in(place, Type::small, ink::ink,
          fmt::format("{} {:.0f} %", scene.words.text("open_bench.volts.lamps"), 100.0F * light));
}

}  // namespace

FallLine VoltsView::ghost(const BenchScene& scene) const {
  const BenchRun* run = scene.bench.run_shown();
  const bool cranking = run != nullptr && scene.bench.shown_s() < run->from_s + run->seen.held_s;
  const PointVolts& volts = cranking ? healthy_->after_key(scene.bench.shown_s() - run->from_s) : healthy_->at_rest();
  return live_fall_line(path_, volts, 0.0, scene.limits);
}

void VoltsView::draw_fall(const BenchScene& scene, Rect place) {
  Rect head = place.cut_top(30);
  text_in(head.cut_left(76), Type::body_bold, ink::ink, scene.words.text("open_bench.volts.title"));
  const std::array paths{scene.words.text("open_bench.volts.power"), scene.words.text("open_bench.volts.control")};
  path_ = static_cast<FallPath>(choice_keys(scene.sheet.hands, "volts/path", head.cut_left(180), paths,
                                            static_cast<int>(path_), {.type = Type::small}));
  head.cut_left(gap_16);
  const float loop_A = scene.bench.signal(*tape_signal_named("loop"));
  Rect clamp = head.cut_right(200);
  sheet().AddRectFilled(clamp.min(), clamp.max(), ink::instrument);
  text_in(clamp.inset(gap_8, 0), Type::small, ink::on_dark_soft, scene.words.text("open_bench.volts.loop"));
  text_in(clamp.inset(gap_8, 0), Type::figures, ink::amber,
          fmt::format("{:.{}f} A", loop_A, std::abs(loop_A) < 20.0F ? 1 : 0), Align::right);
  head.cut_right(gap_16);
  draw_lamp(scene, head.cut_right(140));
  text_in(head, Type::small, ink::ink_soft, scene.words.text("open_bench.volts.ghost"));
  place.cut_top(gap_8);
  const FallLine line = live_fall_line(path_, volts_shown(scene.bench), loop_A, scene.limits);
  const FallLine healthy = ghost(scene);
  draw_fall_lanes(line, scene.limits, place, &healthy);
}

void VoltsView::draw(const BenchScene& scene, const Rect& zone) {
  if (!healthy_ || healthy_with_lamps_ != scene.bench.headlamps()) {
    healthy_with_lamps_ = scene.bench.headlamps();
    healthy_.emplace(scene.bench.vehicle().healthy(), scene.bench.resting_place(), healthy_with_lamps_);
  }
  ruled_border(zone);
  Rect place = zone.inset(gap_16, gap_8);
  draw_fall(scene, place.cut_top(place.h * 0.46F));
  place.cut_top(gap_8);
  rule_across(zone.x, zone.right(), place.y, ink::hairline);
  place.cut_top(gap_8);
  tape_.draw(scene, place);
}

}  // namespace voltfall
