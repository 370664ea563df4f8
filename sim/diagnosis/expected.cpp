#include "diagnosis/expected.h"

#include <algorithm>
#include <array>
#include <vector>

#include "limits/limits.h"

namespace voltfall {
namespace {

using enum TestPoint;

/// Every point hangs from the one before it on the way to its battery post. What opens the leg on a sound vehicle is
/// named beside it.
enum class Opens { never, relay, start_contact, run_contact, lamp_switch };
struct Leg {
  TestPoint point, towards;
  std::string_view limit;
  Opens opens = Opens::never;
};

constexpr std::array insulated_legs{
    Leg{positive_clamp, battery_positive_post, "post_to_clamp"},
    Leg{relay_battery_lug, positive_clamp, "cable"},
    Leg{relay_battery_stud, relay_battery_lug, "joint"},
    Leg{relay_motor_stud, relay_battery_stud, "relay_contact", Opens::relay},
    Leg{relay_motor_lug, relay_motor_stud, "joint"},
    Leg{starter_lug, relay_motor_lug, "cable"},
    Leg{starter_terminal, starter_lug, "joint"},
    Leg{fusible_link_out, relay_battery_stud, "control_leg"},
    Leg{ignition_feed, fusible_link_out, "control_leg"},
    Leg{ignition_start_output, ignition_feed, "control_leg", Opens::start_contact},
    Leg{neutral_switch_output, ignition_start_output, "control_leg"},
    Leg{s_wire_end, neutral_switch_output, "control_leg"},
    Leg{s_terminal, s_wire_end, "control_leg"},
    Leg{ignition_coil_feed, ignition_feed, "control_leg", Opens::run_contact},
    Leg{dash_feed, fusible_link_out, "control_leg"},
    Leg{lamp_switch_output, dash_feed, "control_leg", Opens::lamp_switch},
    Leg{headlamp_feed, lamp_switch_output, "control_leg"},
    Leg{alternator_output, fusible_link_out, "control_leg"},
};
constexpr std::array ground_legs{
    Leg{negative_clamp, negative_post, "post_to_clamp"},
    Leg{block_lug, negative_clamp, "cable"},
    Leg{engine_block, block_lug, "block_lug"},
    Leg{starter_case, engine_block, "mounting_face"},
    Leg{strap_block_lug, engine_block, "strap"},
    Leg{strap_body_lug, strap_block_lug, "strap"},
    Leg{body, strap_body_lug, "strap"},
    Leg{relay_case, body, "coil_ground"},
    Leg{headlamp_ground, body, "control_leg"},
};

/// A whole side with a limit of its own.
struct Stretch {
  TestPoint from, to;
  std::string_view limit;
};
constexpr std::array stretches{
    Stretch{battery_positive_post, relay_battery_stud, "positive_side"},
    Stretch{battery_positive_post, starter_terminal, "insulated_side"},
    Stretch{battery_positive_post, s_terminal, "control_side"},
    Stretch{negative_post, starter_case, "ground_side"},
    Stretch{engine_block, body, "strap"},
};

const Leg* leg_of(TestPoint point) {
  for (const auto& leg : insulated_legs) {
    if (leg.point == point) return &leg;
  }
  for (const auto& leg : ground_legs) {
    if (leg.point == point) return &leg;
  }
  return nullptr;
}

/// From the point to its post, the point itself left out of none.
std::vector<const Leg*> legs_to_post(TestPoint point) {
  std::vector<const Leg*> legs;
  for (const Leg* leg = leg_of(point); leg != nullptr; leg = leg_of(leg->towards)) legs.push_back(leg);
  return legs;
}

TestPoint post_of(TestPoint point) {
  const auto legs = legs_to_post(point);
  return legs.empty() ? point : legs.back()->towards;
}

/// The legs between two points of one side: those of one that the other has not.
std::vector<const Leg*> legs_between(TestPoint one, TestPoint other) {
  std::vector<const Leg*> first = legs_to_post(one);
  std::vector<const Leg*> second = legs_to_post(other);
  while (!first.empty() && !second.empty() && first.back() == second.back()) first.pop_back(), second.pop_back();
  first.insert(first.end(), second.begin(), second.end());
  return first;
}

bool is_open(const Leg& leg, const Controls& controls, bool cranking) {
  switch (leg.opens) {
    case Opens::never:
      return false;
    case Opens::relay:
      return !cranking;
    case Opens::start_contact:
      return controls.key != KeyPosition::start;
    case Opens::run_contact:
      return controls.key == KeyPosition::off;
    case Opens::lamp_switch:
      return !controls.headlamps;
  }
  return false;
}

bool any_open(const std::vector<const Leg*>& legs, Condition condition, const Scenario& scenario) {
  const Controls controls = controls_in(condition, scenario.typical);
  return std::any_of(legs.begin(), legs.end(),
                     [&](const Leg* leg) { return is_open(*leg, controls, is_cranking(condition)); });
}

bool all_within(const std::vector<const Leg*>& legs, const Stretch& stretch) {
  const auto inside = legs_between(stretch.from, stretch.to);
  return std::all_of(legs.begin(), legs.end(),
                     [&](const Leg* leg) { return std::find(inside.begin(), inside.end(), leg) != inside.end(); });
}

/// The sum of the legs' limits, capped by the tightest side that holds them all.
Expected drop_over(const std::vector<const Leg*>& legs, const Scenario& scenario) {
  Expected expected{Expected::Kind::drop};
  expected.to_A = limit_in_force("cable", scenario).figures.to_A;
  for (const Leg* leg : legs) {
    const LimitInForce limit = limit_in_force(leg->limit, scenario);
    expected.highest += limit.figures.highest;
    expected.near += limit.key->near;
    expected.from_A = std::max(expected.from_A, limit.figures.from_A);
  }
  for (const Stretch& stretch : stretches) {
    if (!all_within(legs, stretch)) continue;
    const LimitInForce limit = limit_in_force(stretch.limit, scenario);
    if (limit.figures.highest >= expected.highest) continue;
    expected.highest = limit.figures.highest;
    expected.near = limit.key->near;
    expected.from_A = limit.figures.from_A;
  }
  return expected;
}

/// What the battery still shows with this much switched on: trade practice for the rest, some tenths of a volt less
/// with the lamps or the ignition on (from memory).
Expected battery_floor(Condition condition, const Scenario& scenario) {
  constexpr double lamps_V = 0.4, ignition_V = 0.2;
  const LimitInForce limit = limit_in_force(is_cranking(condition) ? "battery_cranking" : "battery_rest", scenario);
  Expected floor{Expected::Kind::floor};
  floor.lowest = limit.figures.lowest;
  floor.near = limit.key->near;
  if (condition == Condition::rest_lamps) floor.lowest -= lamps_V, floor.near *= 2.0;
  if (condition == Condition::key_on) floor.lowest -= ignition_V, floor.near *= 2.0;
  floor.from_A = is_cranking(condition) ? limit.figures.from_A : 0.0;
  floor.to_A = limit.figures.to_A;
  if (!is_cranking(condition)) floor.to_A = limit_in_force("cable", scenario).figures.to_A;
  return floor;
}

bool is_starter_itself(TestPoint one, TestPoint other) {
  return (one == starter_terminal && other == starter_case) || (one == starter_case && other == starter_terminal);
}

/// From a live point to the ground side: what is left.
Expected left_between(TestPoint insulated, TestPoint grounded, Condition condition, const Scenario& scenario) {
  if (is_cranking(condition) && is_starter_itself(insulated, grounded)) {
    const LimitInForce limit = limit_in_force("starter_cranking", scenario);
    return {Expected::Kind::floor, limit.figures.lowest, 0.0,
            limit.key->near,       limit.figures.from_A, limit.figures.to_A};
  }
  Expected floor = battery_floor(condition, scenario);
  for (const TestPoint point : {insulated, grounded}) {
    const auto legs = legs_to_post(point);
    if (legs.empty()) continue;
    const Expected drop = drop_over(legs, scenario);
    const bool flows = is_cranking(condition) || drop.from_A <= 0.0;
    if (flows) floor.lowest -= drop.highest, floor.near += drop.near;
    // The control side has its volts at any current.
    if (point == insulated && drop.from_A <= 0.0) floor.from_A = 0.0;
  }
  return floor;
}

/// With its own switch open a point is held at ground by what it feeds.
Expected dead(const Scenario& scenario) {
  const LimitInForce limit = limit_in_force("released", scenario);
  return {Expected::Kind::drop, 0.0, limit.figures.highest, limit.key->near, 0.0, limit.figures.to_A};
}

}  // namespace

std::optional<Expected> expected_volts(TestPoint red, TestPoint black, Condition condition, const Scenario& scenario) {
  if (red == i_terminal || black == i_terminal) return std::nullopt;
  if (condition == Condition::power_off || condition == Condition::load_test || condition == Condition::bench) {
    return std::nullopt;
  }
  if (red == black) return std::nullopt;
  const bool red_insulated = post_of(red) == battery_positive_post;
  const bool black_insulated = post_of(black) == battery_positive_post;
  const auto live = [&](TestPoint point) { return !any_open(legs_to_post(point), condition, scenario); };
  if (red_insulated == black_insulated) {
    const auto between = legs_between(red, black);
    if (!red_insulated || !any_open(between, condition, scenario)) return drop_over(between, scenario);
    if (live(red) == live(black)) return dead(scenario);
    // A dead point stands at ground, through the starter or the relay's coil.
    return left_between(live(red) ? red : black, negative_post, condition, scenario);
  }
  const TestPoint insulated = red_insulated ? red : black;
  const TestPoint grounded = red_insulated ? black : red;
  return live(insulated) ? left_between(insulated, grounded, condition, scenario) : dead(scenario);
}

std::optional<Expected> expected_ohms(TestPoint red, TestPoint black, const Scenario& scenario) {
  const auto joins = [&](TestPoint one, TestPoint other) {
    return (red == one && black == other) || (red == other && black == one);
  };
  if (joins(s_terminal, relay_case)) return expected_by("relay_coil", scenario);
  if (red == black || post_of(red) != post_of(black)) return std::nullopt;
  const auto between = legs_between(red, black);
  if (any_open(between, Condition::power_off, scenario)) return std::nullopt;
  return expected_by("closed_path", scenario);
}

Expected expected_by(std::string_view limit, const Scenario& scenario) {
  const LimitInForce in_force = limit_in_force(limit, scenario);
  Expected expected{Expected::Kind::band, in_force.figures.lowest, in_force.figures.highest,
                    in_force.key->near,   in_force.figures.from_A, in_force.figures.to_A};
  if (limit == "battery_load_test") {
    expected.lowest = load_test_floor_V(expected.lowest, scenario.typical.ambient_C);
  }
  return expected;
}

}  // namespace voltfall
