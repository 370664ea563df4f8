#include "diagnosis/signature.h"

#include <algorithm>
#include <initializer_list>
#include <string_view>

#include "instruments/starter_bench.h"
#include "rig/rig.h"
#include "rig/settable.h"
#include "rig/wiring.h"

namespace voltfall {
namespace {

using enum TestPoint;

constexpr std::array<OhmPair, ohm_pair_count> pairs{{
    {s_terminal, relay_case},
    {relay_battery_stud, fusible_link_out},
    {fusible_link_out, ignition_feed},
    {ignition_start_output, neutral_switch_output},
    {neutral_switch_output, s_wire_end},
    {s_wire_end, s_terminal},
    {relay_case, body},
    {body, engine_block},
}};

bool has_volts(Condition condition) {
  return condition != Condition::power_off && condition != Condition::load_test && condition != Condition::bench;
}

/// Every plain resistance is the same in both, and nothing is hung on: the same circuit.
bool same_circuit(Condition one, Condition other, const RigParameters& parameters) {
  if (hung_in(one) || hung_in(other)) return false;
  const Controls first = controls_in(one, parameters), second = controls_in(other, parameters);
  for (std::size_t i = 0; i < resistor_count; ++i) {
    const auto resistor = static_cast<Resistor>(i);
    const double first_ohm = resistor_ohm(resistor, parameters, first, true, parameters.ambient_C);
    if (first_ohm != resistor_ohm(resistor, parameters, second, true, parameters.ambient_C)) return false;
  }
  return true;
}

/// Nothing is changed below these groups of values.
bool same_below(std::initializer_list<std::string_view> groups, const RigParameters& one, const RigParameters& other) {
  const auto settables = all_settables();
  return std::all_of(settables.begin(), settables.end(), [&](const Settable& settable) {
    const bool inside = std::any_of(groups.begin(), groups.end(),
                                    [&](std::string_view group) { return settable.path.starts_with(group); });
    return !inside || settable.value_in(one) == settable.value_in(other);
  });
}

bool same_control_side(const RigParameters& one, const RigParameters& other) {
  return same_below({"control.", "relay.", "body.", "joints.body_strap.", "cables.body_strap."}, one, other);
}

constexpr double still_rpm = 5.0;  // slower, and nobody calls it turning

/// The relay's coil is fed or grounded by another way.
bool is_bypass(Condition condition) {
  return condition == Condition::remote_start || condition == Condition::case_jumped;
}

/// The pinion never got into the ring: the engine's drag is not felt.
bool engine_left_alone(const Cranked& cranking) {
  const CrankState state = cranking.watch.state();
  const bool turns_alone = state == CrankState::free_spin || state == CrankState::not_engaged;
  return turns_alone && cranking.state.meshing != Meshing::seated &&
         std::abs(cranking.watch.last_crank()->crank_rpm) < still_rpm;
}

/// The condition changes nothing for this vehicle that cranking did not show already.
bool same_as_cranking(Condition condition, const Cranked& cranking, const RigParameters& faulty,
                      const RigParameters& healthy) {
  const auto& seen = cranking.watch.last_crank();
  const bool relay_asked = seen && seen->relay_closings > 0;
  // A relay that chatters behind a sound control side does so for want of volts, whatever feeds its coil.
  const bool chatters = cranking.watch.state() == CrankState::chattering;
  if (is_bypass(condition) && chatters && same_control_side(faulty, healthy)) return true;
  if (!same_circuit(Condition::cranking, condition, faulty)) return false;
  if (condition == Condition::plugs_out)
    return !relay_asked || engine_left_alone(cranking) || (chatters && seen->crank_rpm < still_rpm);
  if (condition == Condition::belt_off)
    return !relay_asked || engine_left_alone(cranking) || faulty.engine.accessory_drag_Nm <= 0.0;
  return true;
}

/// A starter that turns the engine goes on turning while lamps are switched on or a lead is clipped on, and a chatter
/// mostly goes on too; a starter that a sound control side feeds goes on with what it does while that feed is taken
/// over.
bool goes_on(Condition condition, const Cranked& cranking, const RigParameters& faulty, const RigParameters& healthy) {
  const CrankState state = cranking.watch.state();
  const bool changes_lightly = hung_in(condition).has_value() || condition == Condition::cranking_lamps;
  if (changes_lightly && (state == CrankState::cranking || state == CrankState::chattering)) return true;
  const bool fed = state == CrankState::stalled || state == CrankState::not_engaged || state == CrankState::free_spin;
  return is_bypass(condition) && fed && same_control_side(faulty, healthy);
}

Snapshot shown_in(Condition condition, const Cranked& cranking, const RigParameters& faulty,
                  const RigParameters& healthy, const RestingPlace& rest) {
  if (condition == Condition::cranking) return cranking.shot;
  if (!is_cranking(condition)) return not_cranked(condition, faulty, rest);
  if (same_as_cranking(condition, cranking, faulty, healthy)) return cranking.shot;
  if (goes_on(condition, cranking, faulty, healthy)) {
    if (const auto shot = cranked_on(cranking, condition, faulty)) return *shot;
  }
  return cranked(condition, faulty, rest).shot;
}

BenchFigures bench_figures(const RigParameters& parameters) {
  constexpr double open_ohm = 1.0e9;
  const BenchResult no_load = bench_result(BenchTest::no_load, parameters, foretelling_step_s);
  const BenchResult hold_in = bench_result(BenchTest::hold_in, parameters);
  const bool open = hold_in.shown.kind == MeterDisplay::Kind::overload;
  return {static_cast<float>(no_load.shown.value), static_cast<float>(no_load.also_shown.value),
          static_cast<float>(open ? open_ohm : hold_in.shown.value),
          static_cast<float>(bench_result(BenchTest::clutch_torque, parameters).shown.value),
          static_cast<float>(bench_result(BenchTest::brush_length, parameters).shown.value)};
}

std::array<float, ohm_pair_count> measured_ohms(const RigParameters& parameters, const RestingPlace& rest) {
  std::array<float, ohm_pair_count> ohms{};
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    ohms[i] = static_cast<float>(simulated_ohms(pairs[i].red, pairs[i].black, parameters, rest));
  }
  return ohms;
}

void add_battery_figures(Signature& signature, const RigParameters& faulty, const Scenario& scenario) {
  const Rig rig(faulty, scenario.typical_rest);
  const BatteryState& state = rig.state().battery;
  signature.cold_amps_share =
      static_cast<float>(inferred_CCA_A(faulty.battery, state) / scenario.typical.battery.rated_CCA_A);
  for (int cell = 1; cell <= battery_cells; ++cell) {
    signature.gravity[static_cast<std::size_t>(cell - 1)] =
        static_cast<float>(cell_gravity(faulty.battery, state, cell, scenario.typical_rest));
  }
}

}  // namespace

std::span<const OhmPair> ohm_pairs() {
  return pairs;
}

Signature signature_of(const RigParameters& faulty, const Scenario& scenario, const Signature* healthy) {
  Signature signature;
  const Cranked cranking = cranked(Condition::cranking, faulty, scenario.typical_rest);
  for (const Condition condition : all_conditions()) {
    if (!has_volts(condition) || !exists_on(condition, faulty)) continue;
    signature.in[static_cast<std::size_t>(condition)] =
        shown_in(condition, cranking, faulty, scenario.typical, scenario.typical_rest);
  }
  share_sounds_of_a_near_thing(signature.in[static_cast<std::size_t>(Condition::cranking)],
                               signature.in[static_cast<std::size_t>(Condition::cranking_lamps)]);
  signature.rise_K = cranking.rise_K;
  add_battery_figures(signature, faulty, scenario);
  const auto as_healthy = [&](std::initializer_list<std::string_view> groups) {
    return healthy != nullptr && same_below(groups, faulty, scenario.typical);
  };
  const double half_rating_A = 0.5 * scenario.typical.battery.rated_CCA_A;
  signature.load_test_V = as_healthy({"battery.", "body.", "control."})
                              ? healthy->load_test_V
                              : static_cast<float>(simulated_load_V(half_rating_A, faulty, scenario.typical_rest));
  signature.bench = as_healthy({"starter.", "shoe.", "drive."}) ? healthy->bench : bench_figures(faulty);
  const bool sound_control = healthy != nullptr && same_control_side(faulty, scenario.typical);
  signature.ohms = sound_control ? healthy->ohms : measured_ohms(faulty, scenario.typical_rest);
  return signature;
}

}  // namespace voltfall
