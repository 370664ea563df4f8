#include "desktop/fall_line/fall_lanes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "desktop/style/draw.h"

namespace voltfall {

namespace {

constexpr float axis_words_width = 44;
constexpr float cell_margin = 5;
constexpr float bar_height = 8;
constexpr double limits_shown = 4.0;

/// Between two known levels nobody has split: we know what is lost, not where.
void draw_dashes(ImVec2 from, ImVec2 to) {
  const float length = std::hypot(to.x - from.x, to.y - from.y);
  constexpr float dash = 5, period = 9;
  for (float at = 6; at + dash < length - 4; at += period) {
    const float a = at / length, b = (at + dash) / length;
    sheet().AddLine({from.x + (to.x - from.x) * a, from.y + (to.y - from.y) * a},
                    {from.x + (to.x - from.x) * b, from.y + (to.y - from.y) * b}, ink::ink_soft, 1.5F);
  }
}

void draw_tread(const FallScale& scale, const FallLine& line, std::size_t from, std::size_t to) {
  const ImVec2 a{scale.x_at(from), scale.y_at(*line.level_V[from])};
  const ImVec2 b{scale.x_at(to), scale.y_at(*line.level_V[to])};
  if (to > from + 1) return draw_dashes(a, b);
  if (std::abs(a.y - b.y) < 1.0F) return sheet().AddLine(a, b, ink::ink, 2.0F);
  const float middle = (a.x + b.x) / 2;
  const ImVec2 steps[] = {a, {middle, a.y}, {middle, b.y}, b};
  sheet().AddPolyline(steps, 4, ink::ink, ImDrawFlags_None, 2.0F);
}

/// Upper lane: levels that are known, joined where current flows between them.
void draw_stairs(const FallLine& line, const FallScale& scale) {
  std::optional<std::size_t> last;
  for (std::size_t i = 0; i < line.level_V.size(); ++i) {
    if (!line.level_V[i]) continue;
    if (last && !line.no_current[i - 1] && !line.no_current[*last]) draw_tread(scale, line, *last, i);
    last = i;
  }
  for (std::size_t i = 0; i < line.level_V.size(); ++i) {
    if (!line.level_V[i]) continue;
    const ImVec2 here{scale.x_at(i), scale.y_at(*line.level_V[i])};
    sheet().AddCircleFilled(here, 4.0F, ink::paper);
    sheet().AddCircle(here, 4.0F, ink::ink, 0, 2.0F);
  }
}

/// A staircase that is only there to be held against: a faint double line, no points.
void draw_ghost(const FallLine& ghost, const FallScale& scale) {
  std::optional<ImVec2> last;
  const auto stroke = [](ImVec2 from, ImVec2 to) {
    sheet().AddLine(from, to, ink::copper, 5.0F);
    sheet().AddLine(from, to, ink::paper, 2.5F);
  };
  for (std::size_t i = 0; i < ghost.level_V.size(); ++i) {
    if (!ghost.level_V[i]) continue;
    const ImVec2 here{scale.x_at(i), scale.y_at(*ghost.level_V[i])};
    if (last) {
      const float middle = (last->x + here.x) / 2;
      stroke(*last, {middle, last->y});
      if (std::abs(last->y - here.y) > 1.0F) stroke({middle, last->y}, {middle, here.y});
      stroke({middle, here.y}, here);
    }
    last = here;
  }
}

/// The load's own step has no bar; its volts stand beside it.
void draw_load_words(const FallLine& line, const FallScale& scale) {
  for (const FallBar& bar : line.bars) {
    if (!bar.load || bar.first != bar.last) continue;
    const std::string words = fmt::format("{:.2f} V", bar.drop_V);
    const float middle = scale.x_at(bar.first) + scale.leg_width / 2;
    const Rect place{middle + gap_4, scale.lane.y + scale.lane.h / 2 - 8, text_width(Type::small, words) + 1, 16};
    sheet().AddRectFilled(place.inset(-2, 0).min(), place.inset(-2, 0).max(), ink::paper);
    text_in(place, Type::small, ink::ink, words);
  }
}

Rect cell_between(const FallScale& scale, std::size_t first, std::size_t last, float y, float height) {
  const float from = scale.x_at(first) + cell_margin;
  return {from, y, scale.x_at(last + 1) - cell_margin - from, height};
}

void draw_bar(const Rect& cell, const FallBar& bar) {
  if (!bar.limit) {  // no figure to scale it by: a bracket says how far the reading reaches
    const ImVec2 bracket[] = {
        {cell.x, cell.y}, {cell.x, cell.centre().y}, {cell.right(), cell.centre().y}, {cell.right(), cell.y}};
    sheet().AddPolyline(bracket, 4, ink::ink, ImDrawFlags_None, 1.0F);
    return;
  }
  const double of_limit = std::max(0.0, bar.drop_V / bar.limit->highest);
  const float width = std::max(2.0F, cell.w * static_cast<float>(std::min(1.0, of_limit / limits_shown)));
  const Rect filled{cell.x, cell.y, width, cell.h};
  if (bar.limit_applies) sheet().AddRectFilled(filled.min(), filled.max(), ink::copper);
  sheet().AddRect(filled.min(), filled.max(), ink::ink);
  if (of_limit > limits_shown) {  // goes on beyond the scale
    const float x = cell.right();
    sheet().AddTriangleFilled({x + 1, cell.y}, {x + 5, cell.centre().y}, {x + 1, cell.bottom()}, ink::ink);
  }
}

void draw_tick(const Rect& cell, bool measured) {
  const float x = std::floor(cell.x + cell.w / static_cast<float>(limits_shown));
  rule_across(cell.x, cell.right(), cell.bottom(), ink::edge);
  const ImU32 colour = measured ? ink::ink : ink::edge;
  sheet().AddRectFilled({x, cell.y - 3}, {x + (measured ? 2.0F : 1.0F), cell.bottom() + 3}, colour);
}

std::string volts_text(const FallBar& bar) {
  return fmt::format("{:.{}f} V", bar.drop_V, bar.decimals);
}

/// "limit does not apply" under a run of hollow bars, as far as blank neighbours leave room; else the current alone.
void draw_currents(const FallLine& line, const FallScale& scale, float y) {
  const std::size_t legs = line.no_current.size();
  std::vector<const FallBar*> over(legs, nullptr);
  for (const FallBar& bar : line.bars)
    if (!bar.load) std::fill_n(over.begin() + static_cast<std::ptrdiff_t>(bar.first), bar.last - bar.first + 1, &bar);
  const auto hollow = [&](std::size_t leg) { return over[leg] && over[leg]->limit && !over[leg]->limit_applies; };
  for (std::size_t leg = 0; leg < legs;) {
    if (!over[leg]) {
      ++leg;
      continue;
    }
    std::size_t last = over[leg]->last;
    if (hollow(leg)) {
      std::size_t end = last + 1;
      while (end < legs && (hollow(end) || !over[end])) ++end;
      const std::string words = out_of_range_text(over[leg]->loop_A);
      const Rect run = cell_between(scale, leg, end - 1, y, 16);
      if (text_width(Type::small, words) <= run.w) {
        text_in(run, Type::small, ink::ink_soft, words);
        leg = end;
        continue;
      }
    }
    text_in(cell_between(scale, leg, last, y, 16), Type::small, ink::ink_soft,
            fmt::format("{:.0f} A", over[leg]->loop_A));
    leg = last + 1;
  }
}

void draw_bars(const FallLine& line, const std::map<std::string, Limit>& limits, const FallScale& scale,
               const Rect& lane) {
  const auto legs = legs_of(line.path);
  const float bar_y = lane.y + 17;
  std::vector<bool> measured(legs.size(), false);
  for (const FallBar& bar : line.bars) {
    if (bar.load) continue;
    std::fill_n(measured.begin() + static_cast<std::ptrdiff_t>(bar.first), bar.last - bar.first + 1, true);
    const Rect cell = cell_between(scale, bar.first, bar.last, bar_y, bar_height);
    draw_bar(cell, bar);
    if (bar.limit) draw_tick(cell, true);
    text_in({cell.x, lane.y, cell.w, 16}, Type::small, ink::ink, volts_text(bar));
  }
  for (std::size_t leg = 0; leg < legs.size(); ++leg) {
    const Rect cell = cell_between(scale, leg, leg, bar_y, bar_height);
    const std::string key(legs[leg].limit);
    if (legs[leg].load)
      text_in(cell, Type::small, ink::ink_soft, line.path == FallPath::power ? "motor" : "coil", Align::centre);
    else if (!measured[leg] && limits.contains(key))
      draw_tick(cell, false);
  }
  draw_currents(line, scale, bar_y + bar_height + 3);
}

void draw_not_tested(const FallLine& line, const FallScale& scale) {
  const auto begin = line.no_current.begin();
  for (auto at = begin; at != line.no_current.end();) {
    const auto from = std::find(at, line.no_current.end(), true);
    at = std::find(from, line.no_current.end(), false);
    if (from == line.no_current.end()) return;
    const Rect run = cell_between(scale, static_cast<std::size_t>(from - begin),
                                  static_cast<std::size_t>(at - begin) - 1, scale.lane.y, scale.lane.h);
    text_in(run, Type::small, ink::ink_soft, "no current: not tested", Align::centre);
  }
}

}  // namespace

FallScale::FallScale(FallPath path, const Rect& where, double top) : lane(where), top_V(std::max(13.0, top)) {
  left = lane.x + axis_words_width;
  leg_width = (lane.w - axis_words_width - gap_16) / static_cast<float>(legs_of(path).size());
}

float FallScale::y_at(double volts) const {
  const double share = std::clamp(volts / top_V, -0.1, 1.0);
  return lane.bottom() - 5 - static_cast<float>(share) * (lane.h - 10);
}

void draw_fall_axis(FallPath path, const FallScale& scale, const Rect& numbers) {
  const auto points = points_of(path);
  for (const double volts : {12.0, 0.0}) {
    const float y = scale.y_at(volts);
    rule_across(scale.left, scale.x_at(points.size() - 1), y, ink::hairline);
    text_in({scale.lane.x, y - 8, axis_words_width - gap_8, 16}, Type::small, ink::ink_soft,
            fmt::format("{:.0f} V", volts), Align::right);
  }
  for (std::size_t i = 0; i < points.size(); ++i) {
    const float x = scale.x_at(i);
    text_in({x - 14, numbers.y, 28, numbers.h}, Type::callout, ink::ink, std::to_string(number_of(points[i])),
            Align::centre);
  }
}

void draw_fall_lanes(const FallLine& line, const std::map<std::string, Limit>& limits, const Rect& place,
                     const FallLine* ghost) {
  Rect rest = place;
  const Rect numbers = rest.cut_bottom(16);
  const Rect lower = rest.cut_bottom(45);
  double top_V = 0.0;
  for (const auto& level_V : line.level_V) top_V = std::max(top_V, level_V.value_or(0.0));
  const FallScale scale(line.path, rest, top_V);
  draw_fall_axis(line.path, scale, numbers);
  if (ghost != nullptr) draw_ghost(*ghost, scale);
  draw_not_tested(line, scale);
  draw_stairs(line, scale);
  draw_load_words(line, scale);
  const float tick_y = lower.y + 21;
  text_in({place.x, tick_y - 8, axis_words_width - gap_8, 16}, Type::small, ink::ink_soft, "limit", Align::right);
  draw_bars(line, limits, scale, lower);
}

}  // namespace voltfall
