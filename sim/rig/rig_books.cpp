#include <algorithm>
#include <cmath>
#include <numbers>

#include "electrical/conductor.h"
#include "electrical/lamp.h"
#include "rig/damage.h"
#include "rig/rig_parts.h"

namespace voltfall {
namespace {

constexpr double rpm_per_rad_per_s = 30.0 / std::numbers::pi;

}  // namespace

double EnergyLedger::closure_error_J() const {
  const double out_J = resistive_heat_J + brush_heat_J + arc_heat_J + eddy_heat_J + clutch_heat_J + tooth_heat_J +
                       shoe_and_plunger_heat_J + starter_friction_J + engine_friction_J + gas_work_J + load_work_J;
  return battery_out_J + instruments_in_J + alternator_in_J - out_J - (stored_J() - stored_at_start_J);
}

void Rig::Parts::warm_parts() {
  state.temperatures = temperatures_after(parameters, state.temperatures, heat, heat_span_s);
  heat = {};
  state.relay_wear.warm_J *= face_heat_kept(heat_span_s);
  state.grounding_wear.warm_J *= face_heat_kept(heat_span_s);
  state.battery.temperature_C = state.temperatures.battery_C;
  for (const RigEventKind harm : damage_after(parameters, state.temperatures, heat_span_s)) tell(harm);
  battery = battery_figures(parameters.battery, state.battery.charge, state.battery.temperature_C);
  wiring_stale = true;
}

Rig::Parts::CircuitHeat Rig::Parts::heat_parts(bool relay_arcs, bool grounding_arcs) {
  const Network& network = wiring.network;
  const StarterParameters& starter = parameters.starter;
  const PartTemperatures& warm = state.temperatures;
  const LiveCurrents& i = state.currents;
  CircuitHeat made{};
  // Wiring adds the resistors one after another.
  made.resistors_J = network.book_fixed(wiring.resistors.front(), resistor_count, h_s, heat.resistor_J.data());
  made.drive_J = h_s * (i.drive_A * i.drive_A * starter.drive_coil_ohm * copper_factor(warm.drive_C) +
                        i.hold_in_A * i.hold_in_A * starter.hold_in_ohm * copper_factor(warm.drive_C));
  made.field_J = h_s * starter.field_coil_ohm * copper_factor(warm.field_C) *
                 (i.field_2_A * i.field_2_A + 2.0 * i.field_34_A * i.field_34_A);
  made.armature_J =
      h_s * i.armature_A * i.armature_A *
      (starter.armature_ohm * copper_factor(warm.armature_C) + brush_path_ohm(starter, state.drive_train.armature_rad));
  made.relay_coil_J =
      h_s * i.relay_coil_A * i.relay_coil_A * parameters.relay.coil_ohm * copper_factor(warm.relay_coil_C);
  made.brush_J = h_s * i.armature_A * starter.brush_drop_V * std::tanh(i.armature_A / starter.brush_knee_A);
  made.relay_contact_J = network.watts(wiring.relay_contact) * h_s;
  made.grounding_contacts_J = network.watts(wiring.grounding_contacts) * h_s;
  heat.drive_J += made.drive_J;
  heat.field_J += made.field_J;
  heat.armature_J += made.armature_J;
  heat.brush_J += made.brush_J;
  heat.relay_coil_J += made.relay_coil_J;
  heat.relay_contact_J += made.relay_contact_J;
  heat.grounding_contacts_J += made.grounding_contacts_J;
  burn_contacts(relay_arcs, grounding_arcs, made.relay_contact_J, made.grounding_contacts_J);
  if (load.supply_V <= 0.0) heat.battery_J += i.battery_A * (battery.open_circuit_V - battery_posts_V()) * h_s;
  return made;
}

void Rig::Parts::book_circuit(const CircuitHeat& made, bool relay_arcs, bool grounding_arcs) {
  const Network& network = wiring.network;
  const auto absorbed_J = [&](Network::Branch branch) { return network.watts(branch) * h_s; };
  double resistive_J = made.resistors_J;
  if (alternator_charges) {
    const double source_J =
        -network.volts_across(wiring.branch_of(Resistor::leak_alternator)) * wiring.alternator_source_A * h_s;
    ledger.alternator_in_J += source_J;
    resistive_J += source_J;
  }
  (relay_arcs ? ledger.arc_heat_J : resistive_J) += made.relay_contact_J;
  (grounding_arcs ? ledger.arc_heat_J : resistive_J) += made.grounding_contacts_J;
  resistive_J += absorbed_J(wiring.headlamps) + made.drive_J + made.field_J + made.armature_J + made.relay_coil_J;
  for (std::size_t hung = 0; hung < controls.attached.size(); ++hung) {
    const auto branch = wiring.first_attached + static_cast<Network::Branch>(hung);
    const double source_J = network.volts_across(branch) * controls.attached[hung].source_A * h_s;
    ledger.instruments_in_J += source_J;
    resistive_J += absorbed_J(branch) + source_J;
  }
  ledger.resistive_heat_J += resistive_J;
  ledger.brush_heat_J += made.brush_J;
  // The spark at a switch takes what a coil held whose current it cut: 1/2 L (change)^2.
  if (switched) ledger.arc_heat_J += h_s * h_s * leakage_J(parameters, state.currents_per_s);
  ledger.eddy_heat_J += eddy_heat_W(parameters, state) * h_s;
  ledger.battery_out_J -= absorbed_J(wiring.battery);
  if (wiring.supply >= 0) ledger.battery_out_J -= absorbed_J(wiring.supply);
}

void Rig::Parts::book_stores() {
  ledger.stored_magnetic_J = stored_magnetic_J(parameters, state);
  ledger.stored_kinetic_J = stored_kinetic_J();
  ledger.stored_spring_J = stored_spring_J();
}

double Rig::Parts::stored_kinetic_J() const {
  const DriveTrainState& wheels = state.drive_train;
  const double crank = state.engine.crank_rad_per_s;
  return 0.5 * (parameters.starter.armature_inertia_kg_m2 * wheels.armature_rad_per_s * wheels.armature_rad_per_s +
                parameters.drive.pinion_inertia_kg_m2 * wheels.pinion_rad_per_s * wheels.pinion_rad_per_s +
                parameters.engine.inertia_kg_m2 * crank * crank +
                moving_mass_kg() * state.shoe.m_per_s * state.shoe.m_per_s) +
         relay_kinetic_J(parameters.relay, state.relay);
}

double Rig::Parts::stored_spring_J() const {
  return drive_train_spring_J(parameters.drive, state.drive_train, state.meshing == Meshing::seated && !over_gap) +
         shoe_spring_J(parameters.shoe, state.shoe.travel_m) + relay_spring_J(parameters.relay, state.relay);
}

void Rig::Parts::read() {
  const Network& network = wiring.network;
  // Nodes follow the test points but for battery -, the reference: see Wiring::node_of.
  constexpr auto negative_post = static_cast<std::size_t>(TestPoint::negative_post);
  const double* const volts = network.all_volts().data();
  std::copy(volts + 1, volts + 1 + negative_post, readings.node_V.begin());
  readings.node_V[negative_post] = 0.0;
  std::copy(volts + negative_post + 1, volts + test_point_count, readings.node_V.begin() + negative_post + 1);
  const auto amps_in = [&](Resistor resistor) { return network.amps(wiring.branch_of(resistor)); };
  readings.cable_A = {amps_in(Resistor::positive_cable), amps_in(Resistor::starter_cable),
                      amps_in(Resistor::negative_cable), amps_in(Resistor::body_strap_cable)};
  readings.loop_A = state.currents.battery_A;
  readings.relay_closed = state.relay_contact == ContactState::closed;
  readings.grounding_contacts_closed = state.grounding_contacts == ContactState::closed;
  readings.lamp_V = network.volts_across(wiring.headlamps);
  readings.lamp_light = state.filament_V > 0.1 ? lamp_light(state.filament_V) : 0.0;
  readings.winding_C = hottest_winding_C(state.temperatures);
  readings.hottest_joint_C = hottest_joint_C(state.temperatures);
  read_motion();
}

void Rig::Parts::read_motion() {
  readings.time_s = now_s();
  readings.crank_rpm = state.engine.crank_rad_per_s * rpm_per_rad_per_s;
  readings.motor_rpm = state.drive_train.armature_rad_per_s * rpm_per_rad_per_s;
  readings.shaft_Nm = shaft_Nm;
  readings.shoe_travel_m = state.shoe.travel_m;
  readings.pinion_travel_m = pinion_travel_m();
  readings.shoe_seated = shoe_home;
  readings.meshed = state.meshing == Meshing::seated;
  readings.crank_angle_deg = state.engine.crank_angle_rad * 180.0 / std::numbers::pi;
}

}  // namespace voltfall
