#include "diagnosis/signature.h"

#include <algorithm>

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

/// The condition changes nothing for this vehicle that cranking did not show already.
bool same_as_cranking(Condition condition, const Cranked& cranking, const RigParameters& parameters) {
  if (!same_circuit(Condition::cranking, condition, parameters)) return false;
  const bool engine_asked = cranking.watch.last_crank() && cranking.watch.last_crank()->relay_closings > 0;
  if (condition == Condition::plugs_out) return !engine_asked;
  if (condition == Condition::belt_off) return !engine_asked || parameters.engine.accessory_drag_Nm <= 0.0;
  return true;
}

/// A starter that turns the engine goes on turning while a lead is clipped on; the sounds of a start stay as heard.
bool goes_on(Condition condition, const Cranked& cranking) {
  return hung_in(condition) && cranking.watch.state() == CrankState::cranking;
}

/// Nothing is changed that the bench could show.
bool same_starter(const RigParameters& one, const RigParameters& other) {
  const auto settables = all_settables();
  return std::all_of(settables.begin(), settables.end(), [&](const Settable& settable) {
    const bool on_bench = settable.path.starts_with("starter.") || settable.path.starts_with("shoe.") ||
                          settable.path.starts_with("drive.");
    return !on_bench || settable.value_in(one) == settable.value_in(other);
  });
}

void add_battery_figures(Signature& signature, const RigParameters& faulty, const Scenario& scenario) {
  const Rig rig(faulty, scenario.rest);
  const BatteryState& state = rig.state().battery;
  signature.cold_amps_share =
      static_cast<float>(inferred_CCA_A(faulty.battery, state) / scenario.healthy.battery.rated_CCA_A);
  for (int cell = 1; cell <= battery_cells; ++cell) {
    signature.gravity[static_cast<std::size_t>(cell - 1)] =
        static_cast<float>(cell_gravity(faulty.battery, state, cell, scenario.rest));
  }
}

Snapshot shown_in(Condition condition, const Cranked& cranking, const RigParameters& faulty, const RestingPlace& rest) {
  if (condition == Condition::cranking) return cranking.shot;
  if (!is_cranking(condition)) return not_cranked(condition, faulty, rest);
  if (same_as_cranking(condition, cranking, faulty)) return cranking.shot;
  return goes_on(condition, cranking) ? cranked_on(cranking, condition, faulty) : cranked(condition, faulty, rest).shot;
}

}  // namespace

std::span<const OhmPair> ohm_pairs() {
  return pairs;
}

BenchFigures bench_figures(const RigParameters& parameters) {
  constexpr double open_ohm = 1.0e9;
  const BenchResult no_load = bench_result(BenchTest::no_load, parameters);
  const BenchResult hold_in = bench_result(BenchTest::hold_in, parameters);
  const bool open = hold_in.shown.kind == MeterDisplay::Kind::overload;
  return {static_cast<float>(no_load.shown.value), static_cast<float>(no_load.also_shown.value),
          static_cast<float>(open ? open_ohm : hold_in.shown.value),
          static_cast<float>(bench_result(BenchTest::clutch_torque, parameters).shown.value),
          static_cast<float>(bench_result(BenchTest::brush_length, parameters).shown.value)};
}

Signature signature_of(const RigParameters& faulty, const Scenario& scenario, const BenchFigures& healthy_bench) {
  Signature signature;
  const Cranked cranking = cranked(Condition::cranking, faulty, scenario.rest);
  for (const Condition condition : all_conditions()) {
    if (!has_volts(condition) || !exists_on(condition, faulty)) continue;
    signature.in[static_cast<std::size_t>(condition)] = shown_in(condition, cranking, faulty, scenario.rest);
  }
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    signature.ohms[i] = static_cast<float>(simulated_ohms(pairs[i].red, pairs[i].black, faulty, scenario.rest));
  }
  const double half_rating_A = 0.5 * scenario.healthy.battery.rated_CCA_A;
  signature.load_test_V = static_cast<float>(simulated_load_V(half_rating_A, faulty, scenario.rest));
  add_battery_figures(signature, faulty, scenario);
  signature.bench = same_starter(faulty, scenario.healthy) ? healthy_bench : bench_figures(faulty);
  return signature;
}

}  // namespace voltfall
