#include "desktop/bench/threshold_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <vector>

#include "desktop/style/draw.h"
#include "desktop/style/scale_key.h"
#include "wording/filled.h"

namespace voltfall {
namespace {

constexpr int sweep_cranks = 100, map_columns = 24, map_rows = 16;

/// One lane of the sweep: a figure of each crank against the knob.
struct Lane {
  std::string_view id, unit;
  int decimals;
  std::optional<double> (*of)(const SweepCrank&);
};
constexpr std::array lanes{
    Lane{"rpm", "rpm", 0, [](const SweepCrank& crank) -> std::optional<double> { return crank.crank_rpm; }},
    Lane{"volts", "V", 1, [](const SweepCrank& crank) -> std::optional<double> { return crank.starter_V; }},
    Lane{"amps", "A", 0, [](const SweepCrank& crank) -> std::optional<double> { return crank.loop_A; }},
    Lane{"home", "ms", 0,
         [](const SweepCrank& crank) -> std::optional<double> {
           if (!crank.engaged_at_s) return std::nullopt;
           return 1000.0 * *crank.engaged_at_s;
         }},
};

std::string_view knob_words(const BenchScene& scene, const BenchKnob& knob) {
  return scene.words.text(fmt::format("open_bench.knob.{}", knob.id));
}

double highest_in(const std::vector<SweepCrank>& swept, const Lane& lane) {
  double highest = 1.0e-9;
  for (const SweepCrank& crank : swept)
    highest = std::max(highest, crank.refused.empty() ? lane.of(crank).value_or(0.0) : 0.0);
  return highest;
}

/// Along a knob, in its own trade unit.
struct KnobScale {
  const BenchKnob& knob;
  double from, to;
  Rect area;
  float x_at(double value) const { return area.x + area.w * static_cast<float>((value - from) / (to - from)); }
};

void draw_lane(const Lane& lane, const std::vector<SweepCrank>& swept, const KnobScale& scale, const Rect& area,
               std::string_view name) {
  const double top = 1.1 * highest_in(swept, lane);
  rule_across(area.x, area.right(), area.bottom(), ink::edge);
  rule_across(area.x, area.right(), area.y + area.h * (1.0F - 1.0F / 1.1F), ink::hairline);
  text_in({area.x - 116, area.y, 110, 16}, Type::small, ink::ink, name, Align::right);
  text_in({area.x - 116, area.y + 16, 110, 16}, Type::figures_small, ink::ink_soft,
          fmt::format("{:.{}f} {}", top / 1.1, lane.decimals, lane.unit), Align::right);
  std::optional<ImVec2> last;
  for (const SweepCrank& crank : swept) {
    const auto value = crank.refused.empty() ? lane.of(crank) : std::nullopt;
    if (!value) {
      last.reset();
      continue;
    }
    const ImVec2 here{scale.x_at(crank.value / scale.knob.per_unit),
                      area.bottom() - area.h * static_cast<float>(*value / top)};
    if (last) sheet().AddLine(*last, here, ink::ink, 2.0F);
    sheet().AddCircleFilled(here, crank.engaged ? 2.5F : 1.5F, crank.engaged ? ink::copper : ink::ink_soft);
    last = here;
  }
}

void draw_knob_axis(const KnobScale& scale, float y) {
  constexpr int ticks = 5;
  for (int i = 0; i <= ticks; ++i) {
    const double value = scale.from + (scale.to - scale.from) * i / ticks;
    const float x = scale.x_at(value);
    rule_down(x, y, y + 5);
    text_in({x - 45, y + 5, 90, 16}, Type::figures_small, ink::ink_soft, scale.knob.text(value), Align::centre);
  }
}

/// Where the vehicle on the bench stands.
void draw_here(const BenchScene& scene, const KnobScale& scale, float from_y, float to_y) {
  const float x = scale.x_at(scene.bench.vehicle().value(scale.knob));
  if (x < scale.area.x - 1 || x > scale.area.right() + 1) return;
  for (float y = from_y; y < to_y; y += 8) rule_down(x, y, std::min(y + 4, to_y), ink::focus, 1.5F);
}

/// Fill and mark of a cell: engaged, engaged but too slow, not. Told by a mark as well as by shade.
void draw_cell(const SweepCrank& crank, const Rect& cell) {
  const bool turns = crank.engaged && crank.state == CrankState::cranking;
  const ImU32 fill = !crank.refused.empty() ? ink::paper
                     : turns                ? ink::copper_light
                     : crank.engaged        ? ink::casting_dark
                                            : ink::paper;
  sheet().AddRectFilled(cell.min(), cell.max(), fill);
  sheet().AddRect(cell.min(), cell.max(), ink::hairline);
  const ImVec2 c = cell.centre();
  if (!crank.refused.empty()) return;
  if (turns) return;
  if (crank.engaged) {
    sheet().AddLine({c.x - 3, c.y}, {c.x + 3, c.y}, ink::ink, 1.5F);
  } else {
    sheet().AddLine({c.x - 3, c.y - 3}, {c.x + 3, c.y + 3}, ink::ink_soft, 1.2F);
    sheet().AddLine({c.x - 3, c.y + 3}, {c.x + 3, c.y - 3}, ink::ink_soft, 1.2F);
  }
}

}  // namespace

Knob ThresholdView::Axis::turned() const {
  return {&knob->settable(), knob->at_share(from_share) * knob->per_unit, knob->at_share(to_share) * knob->per_unit};
}

void ThresholdView::forget() {
  work_.reset();
}

void ThresholdView::aim(const WalkSweep& sweep) {
  const BenchKnob& knob = *sweep.knob;
  work_.reset();
  map_wanted_ = false;
  across_ = Axis{&knob, knob.share_of(std::min(sweep.from, sweep.to) / knob.per_unit),
                 knob.share_of(std::max(sweep.from, sweep.to) / knob.per_unit)};
}

std::string ThresholdView::answer(const Wording& words) const {
  if (result() == nullptr) return {};
  if (!result()->map.cells.empty()) return std::string(words.text("open_bench.answer.map"));
  // What was cancelled says nothing of the rest of the way.
  const std::vector<SweepCrank>& swept = result()->swept;
  if (work_->cancelled() || swept.size() < 2) return {};
  const BenchKnob& knob = *worked_across_.knob;
  const auto told = [&](std::string_view path, double value) {
    return filled(words, path, fmt::arg("knob", words.text(fmt::format("open_bench.knob.{}", knob.id))),
                  fmt::arg("value", knob.text(value)));
  };
  const auto& thresholds = result()->thresholds;
  if (!thresholds.empty()) return told("open_bench.answer.swept", thresholds.front().engages_at / knob.per_unit);
  const auto engaged = std::count_if(swept.begin(), swept.end(), [](const SweepCrank& one) { return one.engaged; });
  if (engaged == 0) return told("open_bench.answer.swept_none", 0.0);
  const bool all = engaged == static_cast<std::ptrdiff_t>(swept.size());
  return told(all ? "open_bench.answer.swept_all" : "open_bench.answer.swept_part", 0.0);
}

void ThresholdView::begin(const BenchScene& scene) {
  SweepWork::Order order;
  order.subject = {scene.bench.vehicle().parameters(), scene.bench.resting_place(), scene.bench.headlamps()};
  order.across = across_.turned();
  order.columns = map_wanted_ ? map_columns : sweep_cranks;
  if (map_wanted_) order.up = up_.turned();
  order.rows = map_rows;
  worked_across_ = across_;
  worked_up_ = up_;
  work_ = std::make_unique<SweepWork>(order);
}

void ThresholdView::draw_axis_choice(const BenchScene& scene, std::string_view id, Axis& axis, Rect place) {
  const auto knobs = all_bench_knobs();
  const auto turn_to = [&](std::ptrdiff_t by) {
    const auto count = static_cast<std::ptrdiff_t>(knobs.size());
    const std::ptrdiff_t at = (axis.knob - knobs.data() + by + count) % count;
    axis = Axis{&knobs[static_cast<std::size_t>(at)]};
  };
  Rect row = place.cut_top(28);
  if (push_key(scene.sheet.hands, fmt::format("{}/before", id), row.cut_left(32), "\u2190")) turn_to(-1);
  if (push_key(scene.sheet.hands, fmt::format("{}/after", id), row.cut_right(32), "\u2192")) turn_to(1);
  const bool is_up = &axis == &up_;
  const KeyLook look{.selected = map_wanted_ && is_up == up_in_hand_};
  if (push_key(scene.sheet.hands, fmt::format("{}/take", id), row.inset(gap_4, 0), knob_words(scene, *axis.knob),
               look)) {
    up_in_hand_ = is_up;
  }
  place.cut_top(gap_4);
  const auto end = [&](std::string_view which, double& share) {
    Rect line = place.cut_top(22);
    text_in(line.cut_left(38), Type::small, ink::ink_soft, scene.words.text(fmt::format("open_bench.sweep.{}", which)));
    text_in(line.cut_right(76), Type::figures_small, ink::ink, axis.knob->text(axis.knob->at_share(share)),
            Align::right);
    const double step = axis.knob->step / (axis.knob->to - axis.knob->from);
    if (const auto moved =
            scale_key(scene.sheet.hands, fmt::format("{}/{}", id, which), line, {share, {}, step, false})) {
      share = std::round(*moved / step) * step;
    }
  };
  end("from", axis.from_share);
  end("to", axis.to_share);
  if (axis.to_share - axis.from_share < 0.02) axis.to_share = std::min(1.0, axis.from_share + 0.02);
  if (axis.to_share - axis.from_share < 0.02) axis.from_share = axis.to_share - 0.02;
}

void ThresholdView::draw_work(const BenchScene& scene, const Rect& row) {
  if (!at_work()) {
    const std::string_view words = scene.words.text(map_wanted_ ? "open_bench.sweep.map" : "open_bench.sweep.run");
    if (push_key(scene.sheet.hands, "bench/sweep", row, words, {.strong = true})) begin(scene);
    return;
  }
  Rect bar = row;
  if (push_key(scene.sheet.hands, "bench/sweep/cancel", bar.cut_right(76),
               scene.words.text("open_bench.sweep.cancel"))) {
    work_->cancel();
  }
  bar.cut_right(gap_8);
  const float share = static_cast<float>(work_->cranks_done()) / static_cast<float>(work_->cranks());
  sheet().AddRectFilled(bar.min(), {bar.x + bar.w * std::min(1.0F, share), bar.bottom()}, ink::copper_light);
  sheet().AddRect(bar.min(), bar.max(), ink::ink);
  text_in(bar, Type::small, ink::ink, fmt::format("{} / {}", work_->cranks_done(), work_->cranks()), Align::centre);
}

void ThresholdView::draw_orders(const BenchScene& scene, Rect place) {
  const std::array kinds{scene.words.text("open_bench.sweep.one"), scene.words.text("open_bench.sweep.two")};
  Rect last = place.cut_right(220);
  map_wanted_ = choice_keys(scene.sheet.hands, "bench/sweep/kind", last.cut_top(30), kinds, map_wanted_ ? 1 : 0,
                            {.type = Type::small}) == 1;
  last.cut_top(gap_8);
  draw_work(scene, last.cut_top(34));
  place.cut_right(gap_24);
  draw_axis_choice(scene, "bench/across", across_, cell_of(place, 0, 2, gap_24));
  if (map_wanted_) draw_axis_choice(scene, "bench/up", up_, cell_of(place, 1, 2, gap_24));
}

void ThresholdView::draw_sweep(const BenchScene& scene, const SweepWork::Result& result, const Rect& place) const {
  Rect area = place;
  area.cut_left(120);
  area.cut_right(gap_24);
  const Rect axis = area.cut_bottom(24);
  const Rect told = area.cut_top(24);
  const BenchKnob& knob = *worked_across_.knob;
  const KnobScale scale{knob, knob.at_share(worked_across_.from_share), knob.at_share(worked_across_.to_share), area};
  const float lane_height = area.h / static_cast<float>(lanes.size());
  for (std::size_t i = 0; i < lanes.size(); ++i) {
    const Rect lane{area.x, area.y + lane_height * static_cast<float>(i) + 6, area.w, lane_height - 12};
    draw_lane(lanes.at(i), result.swept, scale, lane,
              scene.words.text(fmt::format("open_bench.sweep.lane.{}", lanes.at(i).id)));
  }
  draw_knob_axis(scale, axis.y);
  draw_here(scene, scale, area.y, area.bottom());
  for (const Threshold& threshold : result.thresholds) {
    const double at = 0.5 * (threshold.engages_at + threshold.fails_at) / knob.per_unit;
    const float x = scale.x_at(at);
    rule_down(x, told.y + 20, area.bottom(), ink::danger, 2.0F);
    const std::string words = filled(scene.words, "open_bench.sweep.lost_at",
                                     fmt::arg("value", knob.text(threshold.engages_at / knob.per_unit)));
    const float width = text_width(Type::small_bold, words) + gap_8;
    const float left = std::clamp(x - width / 2, area.x, area.right() - width);
    text_in({left, told.y, width, 18}, Type::small_bold, ink::danger, words, Align::centre);
  }
}

void ThresholdView::draw_map(const BenchScene& scene, const EngagementMap& map, const Rect& place) const {
  Rect area = place;
  area.cut_left(120);
  area.cut_right(gap_24);
  Rect axis = area.cut_bottom(44);
  const BenchKnob &across = *worked_across_.knob, &up = *worked_up_.knob;
  const float width = area.w / static_cast<float>(map.columns), height = area.h / static_cast<float>(map.rows);
  // A cell stands for the value at its middle.
  const KnobScale scale{across, across.at_share(worked_across_.from_share), across.at_share(worked_across_.to_share),
                        area.inset(width / 2, 0)};
  for (int row = 0; row < map.rows; ++row) {
    for (int column = 0; column < map.columns; ++column) {
      draw_cell(map.at(column, row), {area.x + width * static_cast<float>(column),
                                      area.bottom() - height * static_cast<float>(row + 1), width, height});
    }
    if (row % 5 != 0 && row != map.rows - 1) continue;
    const double share = worked_up_.from_share + (worked_up_.to_share - worked_up_.from_share) * row / (map.rows - 1);
    text_in({area.x - 96, area.bottom() - height * (static_cast<float>(row) + 0.5F) - 8, 90, 16}, Type::figures_small,
            ink::ink_soft, up.text(up.at_share(share)), Align::right);
  }
  text_in({place.x, area.y - 20, 220, 18}, Type::small, ink::ink, knob_words(scene, up));
  draw_knob_axis(scale, axis.y);
  axis.cut_top(24);
  text_in(axis, Type::small, ink::ink, scene.words.text("open_bench.sweep.map_key"), Align::centre);
}

void ThresholdView::draw(const BenchScene& scene, const Rect& zone) {
  ruled_border(zone);
  Rect place = zone.inset(gap_16, gap_8);
  if (const BenchKnob* taken = std::exchange(scene.sheet.taken, nullptr)) {
    (map_wanted_ && up_in_hand_ ? up_ : across_) = Axis{taken};
  }
  draw_orders(scene, place.cut_top(84));
  rule_across(place.x, place.right(), place.y, ink::hairline);
  place.cut_top(gap_24);
  // What was cancelled may have nothing to show.
  const SweepWork::Result* done = result();
  if (done != nullptr && !done->map.cells.empty()) return draw_map(scene, done->map, place);
  if (done != nullptr && done->swept.size() > 1) return draw_sweep(scene, *done, place);
  text_in(place, Type::body, ink::ink_soft,
          scene.words.text(at_work() ? "open_bench.sweep.at_work" : "open_bench.sweep.nothing_yet"), Align::centre);
}

}  // namespace voltfall
