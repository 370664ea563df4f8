#include "desktop/fall_line/fall_line_model.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace voltfall {

namespace {

using P = TestPoint;

constexpr std::array power_legs{
    FallLeg{P::battery_positive_post, P::positive_clamp, "post_to_clamp"},
    FallLeg{P::positive_clamp, P::relay_battery_lug, "cable"},
    FallLeg{P::relay_battery_lug, P::relay_battery_stud, "joint"},
    FallLeg{P::relay_battery_stud, P::relay_motor_stud, "relay_contact"},
    FallLeg{P::relay_motor_stud, P::relay_motor_lug, "joint"},
    FallLeg{P::relay_motor_lug, P::starter_lug, "cable"},
    FallLeg{P::starter_lug, P::starter_terminal, "joint"},
    FallLeg{P::starter_terminal, P::starter_case, "", true},
    FallLeg{P::starter_case, P::engine_block, "mounting_face"},
    FallLeg{P::engine_block, P::block_lug, "block_lug"},
    FallLeg{P::block_lug, P::negative_clamp, "cable"},
    FallLeg{P::negative_clamp, P::negative_post, "post_to_clamp"},
};

constexpr std::array control_legs{
    FallLeg{P::battery_positive_post, P::relay_battery_stud, "positive_side"},
    FallLeg{P::relay_battery_stud, P::fusible_link_out, "control_leg"},
    FallLeg{P::fusible_link_out, P::ignition_feed, "control_leg"},
    FallLeg{P::ignition_feed, P::ignition_start_output, "control_leg"},
    FallLeg{P::ignition_start_output, P::neutral_switch_output, "control_leg"},
    FallLeg{P::neutral_switch_output, P::s_wire_end, "control_leg"},
    FallLeg{P::s_wire_end, P::s_terminal, "control_leg"},
    FallLeg{P::s_terminal, P::relay_case, "", true},
    FallLeg{P::relay_case, P::body, "coil_ground"},
    FallLeg{P::body, P::strap_body_lug, "strap"},
    FallLeg{P::strap_body_lug, P::strap_block_lug, "strap"},
    FallLeg{P::strap_block_lug, P::engine_block, "strap"},
    FallLeg{P::engine_block, P::negative_post, ""},
};

// Longer stretches that a manual gives a limit of their own.
constexpr std::array named_stretches{
    FallLeg{P::battery_positive_post, P::relay_battery_stud, "positive_side"},
    FallLeg{P::battery_positive_post, P::starter_terminal, "insulated_side"},
    FallLeg{P::starter_case, P::negative_post, "ground_side"},
    FallLeg{P::battery_positive_post, P::s_terminal, "control_side"},
    FallLeg{P::body, P::engine_block, "strap"},
};

constexpr double chain_share = 0.10;
constexpr double clamp_step_A = 0.1;
// A stretch that holds nearly all the volts while less than lamps, ignition and coil together flow is an open circuit.
constexpr double open_share = 0.8;
constexpr double open_below_A = 20.0;
constexpr double display_step_V = 0.005;

bool is_volts(const Finding& finding) {
  return finding.kind == Finding::Kind::volts && finding.red && finding.black && finding.red != finding.black &&
         finding.shown.kind == MeterDisplay::Kind::value;
}

bool same_current(double a_A, double b_A) {
  // Half a step of slack, so that two displayed values exactly one step apart pass whatever their binary rounding.
  const double allowed_A = std::max(chain_share * std::max(std::abs(a_A), std::abs(b_A)), 1.5 * clamp_step_A);
  return std::abs(a_A - b_A) <= allowed_A;
}

bool belongs(const FallSet& set, const Finding& finding) {
  return set.state == finding.state && set.headlamps == finding.headlamps && set.after_repair == finding.after_repair &&
         set.hold == finding.hold && same_current(set.lowest_A, finding.loop_A) &&
         same_current(set.highest_A, finding.loop_A);
}

/// Points joined by readings: within one group every level is known against every other.
class Levels {
 public:
  Levels() { std::iota(group_.begin(), group_.end(), 0); }

  /// `first` stands `volts` above `second`. A reading that only repeats what is known changes nothing.
  void join(TestPoint first, TestPoint second, double volts) {
    const int kept = group_[at(second)];
    const int moved = group_[at(first)];
    if (kept == moved) return;
    const double shift_V = above_V_[at(second)] + volts - above_V_[at(first)];
    for (std::size_t i = 0; i < test_point_count; ++i) {
      if (group_[i] != moved) continue;
      group_[i] = kept;
      above_V_[i] += shift_V;
    }
  }

  std::optional<double> between_V(TestPoint first, TestPoint second) const {
    if (group_[at(first)] != group_[at(second)]) return std::nullopt;
    return above_V_[at(first)] - above_V_[at(second)];
  }

 private:
  static std::size_t at(TestPoint point) { return static_cast<std::size_t>(point); }

  std::array<int, test_point_count> group_{};
  std::array<double, test_point_count> above_V_{};
};

int width_of(const Finding& finding) {
  return std::abs(number_of(*finding.red) - number_of(*finding.black));
}

/// The set's readings, the narrowest and then the latest first: a small reading is finer than a difference of two
/// large.
std::vector<const Finding*> in_order_of_trust(const FallSet& set, std::span<const Finding> findings) {
  std::vector<const Finding*> ordered;
  for (const std::size_t member : set.members) ordered.push_back(&findings[member]);
  std::reverse(ordered.begin(), ordered.end());
  std::stable_sort(ordered.begin(), ordered.end(),
                   [](const Finding* a, const Finding* b) { return width_of(*a) < width_of(*b); });
  return ordered;
}

std::optional<Limit> limit_between(TestPoint from, TestPoint to, std::span<const FallLeg> legs,
                                   const std::map<std::string, Limit>& limits) {
  const auto same_ends = [&](const FallLeg& leg) { return leg.from == from && leg.to == to; };
  const auto leg = std::find_if(legs.begin(), legs.end(), same_ends);
  const auto stretch = std::find_if(named_stretches.begin(), named_stretches.end(), same_ends);
  if (leg == legs.end() && stretch == named_stretches.end()) return std::nullopt;
  const auto found = limits.find(std::string(leg != legs.end() ? leg->limit : stretch->limit));
  if (found == limits.end() || found->second.highest <= 0.0) return std::nullopt;
  return found->second;
}

bool in_range(const Limit& limit, double loop_A) {
  return loop_A >= limit.from_A && (limit.to_A <= 0.0 || loop_A <= limit.to_A);
}

/// A tenth of a millivolt tells nobody anything on this sheet.
int volts_decimals(const MeterDisplay& shown) {
  return std::min(3, shown.decimals + (shown.unit == "mV" ? 3 : 0));
}

/// Builds one bar; `direct` is the reading taken across just this stretch, if there is one.
FallBar bar_over(std::span<const FallLeg> legs, std::size_t first, std::size_t last, double drop_V, const FallSet& set,
                 const std::vector<const Finding*>& readings, const std::map<std::string, Limit>& limits) {
  const TestPoint from = legs[first].from;
  const TestPoint to = legs[last].to;
  FallBar bar;
  bar.first = first;
  bar.last = last;
  bar.drop_V = drop_V;
  bar.loop_A = set.middle_A();
  const auto direct = std::find_if(readings.begin(), readings.end(),
                                   [&](const Finding* reading) { return reading->is_between(from, to); });
  if (direct != readings.end()) {
    bar.loop_A = (*direct)->loop_A;
    bar.decimals = volts_decimals((*direct)->shown);
  }
  for (std::size_t leg = first; leg <= last; ++leg) bar.load = bar.load || legs[leg].load;
  if (!bar.load) bar.limit = limit_between(from, to, legs, limits);
  bar.limit_applies = bar.limit && in_range(*bar.limit, bar.loop_A);
  return bar;
}

/// Marks the legs beyond the first stretch that holds (nearly) all the volts. Up to the block nothing can flow in them;
/// past the block other loads come home too, so that a leg measured there is left as read.
std::vector<bool> beyond_an_open(std::span<const FallLeg> legs, const FallLine& line, const FallSet& set) {
  std::vector<bool> dead(legs.size(), false);
  const bool can_be_open = line.path == FallPath::control || set.middle_A() < open_below_A;
  if (!line.total_V || !can_be_open) return dead;
  const auto open = std::find_if(line.bars.begin(), line.bars.end(), [&](const FallBar& bar) {
    return !bar.load && bar.drop_V >= open_share * *line.total_V;
  });
  if (open == line.bars.end() || *line.total_V <= 0.0) return dead;
  bool home = legs[open->last].to == TestPoint::engine_block;
  for (std::size_t leg = open->last + 1; leg < legs.size(); ++leg) {
    const bool measured = std::any_of(line.bars.begin(), line.bars.end(), [&](const FallBar& bar) {
      return bar.first <= leg && leg <= bar.last && !bar.load && !dead[bar.first];
    });
    dead[leg] = !home || !measured;
    home = home || legs[leg].to == TestPoint::engine_block;
  }
  return dead;
}

/// All stretches whose drop is known, the shortest first; later ones that overlap are dropped.
std::vector<FallBar> bars_from(std::span<const FallLeg> legs, const Levels& levels, const FallSet& set,
                               const std::vector<const Finding*>& readings,
                               const std::map<std::string, Limit>& limits) {
  std::vector<FallBar> bars;
  std::vector<bool> taken(legs.size(), false);
  for (std::size_t width = 1; width <= legs.size(); ++width) {
    for (std::size_t first = 0; first + width <= legs.size(); ++first) {
      const std::size_t last = first + width - 1;
      const auto drop_V = levels.between_V(legs[first].from, legs[last].to);
      const auto begin = taken.begin() + static_cast<std::ptrdiff_t>(first);
      const bool free = std::none_of(begin, begin + static_cast<std::ptrdiff_t>(width), [](bool t) { return t; });
      if (!drop_V || !free) continue;
      std::fill_n(begin, width, true);
      bars.push_back(bar_over(legs, first, last, *drop_V, set, readings, limits));
    }
  }
  std::sort(bars.begin(), bars.end(), [](const FallBar& a, const FallBar& b) { return a.first < b.first; });
  return bars;
}

/// As read across the posts if it was: the sum of many small readings carries many small errors.
std::optional<double> total_V(const std::vector<const Finding*>& readings, const Levels& levels) {
  for (const Finding* reading : readings)
    if (reading->is_between(P::battery_positive_post, P::negative_post))
      return volts_from(*reading, P::battery_positive_post);
  return levels.between_V(P::battery_positive_post, P::negative_post);
}

/// Whether anything hangs above battery -; alone it is no level but the zero they are counted from.
bool any_but_last(const std::vector<std::optional<double>>& level_V) {
  return std::any_of(level_V.begin(), level_V.end() - 1, [](const auto& level) { return level.has_value(); });
}

bool separates(const FallBar& bar) {
  return !bar.load || bar.first == bar.last;
}

}  // namespace

std::span<const FallLeg> legs_of(FallPath path) {
  if (path == FallPath::power) return power_legs;
  return control_legs;
}

std::vector<TestPoint> points_of(FallPath path) {
  std::vector<TestPoint> points{legs_of(path).front().from};
  for (const FallLeg& leg : legs_of(path)) points.push_back(leg.to);
  return points;
}

std::vector<FallSet> fall_sets(std::span<const Finding> findings) {
  std::vector<FallSet> sets;
  for (std::size_t i = 0; i < findings.size(); ++i) {
    const Finding& finding = findings[i];
    if (!is_volts(finding)) continue;
    auto set = std::find_if(sets.begin(), sets.end(), [&](const FallSet& s) { return belongs(s, finding); });
    if (set == sets.end()) {
      sets.push_back(
          {finding.state, finding.headlamps, finding.after_repair, finding.hold, {}, finding.loop_A, finding.loop_A});
      set = sets.end() - 1;
    }
    set->members.push_back(i);
    set->lowest_A = std::min(set->lowest_A, finding.loop_A);
    set->highest_A = std::max(set->highest_A, finding.loop_A);
  }
  return sets;
}

FallLine fall_line(FallPath path, const FallSet& set, std::span<const Finding> findings,
                   const std::map<std::string, Limit>& limits) {
  const auto legs = legs_of(path);
  const auto readings = in_order_of_trust(set, findings);
  Levels levels;
  for (const Finding* reading : readings) levels.join(*reading->red, *reading->black, reading->shown.base_value());

  FallLine line;
  line.path = path;
  for (const TestPoint point : points_of(path)) line.level_V.push_back(levels.between_V(point, P::negative_post));
  line.total_V = total_V(readings, levels);
  if (!any_but_last(line.level_V)) line.level_V.back().reset();
  line.bars = bars_from(legs, levels, set, readings, limits);
  line.no_current = beyond_an_open(legs, line, set);
  std::erase_if(line.bars, [&](const FallBar& bar) { return line.no_current[bar.first]; });
  for (const FallBar& bar : line.bars)
    if (separates(bar)) line.accounted_V += bar.drop_V;
  return line;
}

FallLine live_fall_line(FallPath path, std::span<const float, test_point_count> node_V, double loop_A,
                        const std::map<std::string, Limit>& limits) {
  const auto legs = legs_of(path);
  const auto level_V = [&](TestPoint point) { return static_cast<double>(node_V[static_cast<std::size_t>(point)]); };
  FallLine line;
  line.path = path;
  for (const TestPoint point : points_of(path)) line.level_V.emplace_back(level_V(point));
  line.no_current.assign(legs.size(), false);
  line.total_V = level_V(legs.front().from) - level_V(legs.back().to);
  for (std::size_t leg = 0; leg < legs.size(); ++leg) {
    FallBar bar;
    bar.first = bar.last = leg;
    const double drop_V = level_V(legs[leg].from) - level_V(legs[leg].to);
    bar.drop_V = std::abs(drop_V) < display_step_V ? 0.0 : drop_V;
    bar.loop_A = loop_A;
    bar.load = legs[leg].load;
    if (!bar.load) bar.limit = limit_between(legs[leg].from, legs[leg].to, legs, limits);
    bar.limit_applies = bar.limit && in_range(*bar.limit, loop_A);
    line.accounted_V += bar.drop_V;
    line.bars.push_back(bar);
  }
  return line;
}

std::string foot_text(const FallLine& line) {
  if (!line.total_V) return "to add up: note 1 to 13 in this state";
  const double missing_V = std::abs(line.missing_V()) < display_step_V ? 0.0 : line.missing_V();
  return fmt::format("{:.2f} of {:.2f} V accounted for, {:.2f} V not yet measured", line.accounted_V, *line.total_V,
                     missing_V);
}

std::string out_of_range_text(double loop_A) {
  return fmt::format("limit does not apply at {:.0f} A", loop_A);
}

}  // namespace voltfall
