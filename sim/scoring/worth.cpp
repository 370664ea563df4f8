#include <algorithm>
#include <array>
#include <cmath>

#include "scoring/score_job.h"

// Could this reading have answered its question? Common practice: a drop needs current; an ohmmeter sees neither a
// milliohm nor past volts.

namespace voltfall {
namespace {

using enum TestPoint;

bool is_on_ground_side(TestPoint point) {
  constexpr std::array ground{starter_case, engine_block, block_lug,      negative_clamp,  negative_post,
                              relay_case,   body,         strap_body_lug, strap_block_lug, headlamp_ground};
  return std::find(ground.begin(), ground.end(), point) != ground.end();
}

bool is_on_power_path(TestPoint point) {
  return number_of(point) <= number_of(negative_post);
}

bool is_always_live(TestPoint point) {
  constexpr std::array live{battery_positive_post, positive_clamp, relay_battery_lug, relay_battery_stud,
                            fusible_link_out,      ignition_feed,  alternator_output};
  return std::find(live.begin(), live.end(), point) != live.end();
}

TestWorth worth_of_ohms(const Finding& finding) {
  if (finding.state != ElectricalState::at_rest) return {false, "an ohm reading with the key on"};
  if (finding.battery_connected && (is_always_live(*finding.red) || is_always_live(*finding.black))) {
    return {false, "an ohm reading on a live point"};
  }
  if (is_on_power_path(*finding.red) && is_on_power_path(*finding.black)) {
    return {false, "an ohmmeter on the power path, which can't see milliohms"};
  }
  return {};
}

double least_load_A(const Scenario& scenario) {
  double least_A = 80.0;
  for (const auto& [key, limit] : scenario.limits) {
    if (limit.from_A > 0.0) least_A = std::min(least_A, limit.from_A);
  }
  return least_A;
}

TestWorth worth_of_volts(const Finding& finding, const Scenario& scenario) {
  constexpr double telling_V = 0.5;  // a drop this large speaks at any current
  if (is_on_ground_side(*finding.red) != is_on_ground_side(*finding.black)) return {};
  const bool telling =
      finding.shown.kind == MeterDisplay::Kind::value && std::abs(finding.shown.base_value()) > telling_V;
  if (telling) return {};
  if (finding.state != ElectricalState::cranking) return {false, "a drop with no load on it"};
  const bool heavy = is_on_power_path(*finding.red) && is_on_power_path(*finding.black);
  if (heavy && std::abs(finding.loop_A) < least_load_A(scenario)) return {false, "a drop at too little current"};
  return {};
}

}  // namespace

TestWorth worth_of(const Finding& finding, const Scenario& scenario) {
  switch (finding.kind) {
    case Finding::Kind::ohms:
      return worth_of_ohms(finding);
    case Finding::Kind::volts:
      return worth_of_volts(finding, scenario);
    default:
      return {};
  }
}

}  // namespace voltfall
