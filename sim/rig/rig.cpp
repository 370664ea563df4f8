#include "rig/rig.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "electrical/conductor.h"
#include "electrical/lamp.h"
#include "mechanical/pinion_mesh.h"
#include "rig/circuit.h"
#include "rig/heat.h"
#include "rig/relay.h"
#include "rig/state.h"
#include "rig/wiring.h"

namespace voltfall {
namespace {

constexpr double rpm_per_rad_per_s = 30.0 / std::numbers::pi;
constexpr double heat_span_s = 0.1;  // resistances follow temperature in steps of this
constexpr double still_crank_rad_per_s =
    0.05;  // below this, dry friction is taken as a slope: about half a turn a minute
constexpr double still_motor_rad_per_s = 1.0;
constexpr double clear_of_ring_m = 2.0e-4;  // pinion travel short of the ring within which the contact world runs
constexpr double seated_share = 0.97, unseated_share = 0.94;  // of shoe travel

double wrapped_m(double place_m, double pitch_m) {
  return place_m - pitch_m * std::round(place_m / pitch_m);
}

// Dry friction as a slope against speed, so that an implicit step can carry it through standstill.
double dry_slope(double torque_Nm, double rad_per_s, double still_rad_per_s) {
  return torque_Nm / std::max(std::abs(rad_per_s), still_rad_per_s);
}

// An arc goes out as its current passes through zero; it does not strike again the other way.
void carry_contact(ContactState& contact, double& current_A, double solved_A) {
  const bool passed_zero = solved_A * current_A <= 0.0;
  if (contact == ContactState::arcing && passed_zero) contact = ContactState::open;
  current_A = solved_A;
}

}  // namespace

double EnergyLedger::closure_error_J() const {
  const double out_J = resistive_heat_J + brush_heat_J + arc_heat_J + eddy_heat_J + clutch_heat_J + tooth_heat_J +
                       shoe_and_plunger_heat_J + starter_friction_J + engine_friction_J + gas_work_J + load_work_J;
  return battery_out_J + instruments_in_J - out_J - stored_magnetic_J - stored_kinetic_J - stored_spring_J;
}

struct Rig::Parts {
  Parts(const RigParameters& fixed, const RestingPlace& rest, const LoadParameters& on_pinion, double step_s);

  void step(const Controls& asked);
  int pieces_now() const;
  void advance();
  void rest(double wait_s);
  void refit(const RigParameters& fitted);
  void solve_at_rest();
  void follow_controls(const Controls& asked);
  void warm_parts();
  void move_contacts();
  DriveTrainLoads drive_train_loads() const;
  void take_circuit(const CircuitResult& result);
  void warm_filament();
  void set_lamp();
  void book_circuit(bool relay_arcs, bool grounding_arcs);
  void move_wheels(const DriveTrainStep& open, double motor_Nm);
  void move_shoe_freely();
  void move_teeth(const DriveTrainMove& wheels);
  void choose_meshing();
  void enter_contact_world();
  void turn_crank(double moved_rad);
  void move_relay();
  void read();
  void tell(RigEventKind kind) { events.push_back({now_s(), kind}); }
  double now_s() const { return static_cast<double>(state.steps) * dt_s + within_step_s; }
  bool on_stand() const { return load.kind != Load::engine; }
  double pinion_travel_m() const { return state.shoe.travel_m * parameters.drive.lever_ratio; }
  double meet_m() const {
    return parameters.drive.teeth_meet_at * parameters.shoe.travel_m * parameters.drive.lever_ratio;
  }
  double moving_mass_kg() const;
  double stored_kinetic_J() const;
  double stored_spring_J() const;
  void book_stores();
  double engine_effort() const { return friction_effort(parameters.ambient_C) * parameters.engine.oil_effort; }

  RigParameters parameters;
  LoadParameters load;
  double dt_s;                 ///< the step as seen from outside
  double h_s;                  ///< the piece of it being taken
  double within_step_s = 0.0;  ///< pieces already taken
  double last_contact_change_s = -1.0;
  Wiring wiring;
  CylinderVolume cylinder;
  PinionMesh mesh;
  RigState state;
  BatteryFigures battery;
  Controls controls;
  PartHeat heat;
  EnergyLedger ledger;
  Readings readings;
  std::vector<RigEvent> events;
  double store_at_start_magnetic_J = 0.0, store_at_start_kinetic_J = 0.0, store_at_start_spring_J = 0.0;
  double shaft_Nm = 0.0;
  double filament_in_network_V = 0.0;
  double last_top_rad = 0.0;
  bool crank_turning = false, pinion_abutted = false, shoe_home = false;
  long steps_per_heat_span;
  bool wiring_stale = true;
};

Rig::Parts::Parts(const RigParameters& fixed, const RestingPlace& rest, const LoadParameters& on_pinion, double step_s)
    : parameters(fixed),
      load(on_pinion),
      dt_s(step_s),
      h_s(step_s),
      wiring(on_pinion.kind != Load::engine && on_pinion.supply_V > 0.0),
      cylinder(fixed.engine),
      mesh(fixed.drive, fixed.shoe, fixed.engine.inertia_kg_m2),
      steps_per_heat_span(std::lround(heat_span_s / step_s)) {
  state.battery = rested_battery(parameters.battery, parameters.ambient_C);
  state.engine = rested_engine(parameters.engine, cylinder, rest.crank_angle_deg);
  state.tooth_position_m =
      wrapped_m(rest.tooth_phase * parameters.drive.circular_pitch_m, parameters.drive.circular_pitch_m);
  state.temperatures = PartTemperatures(parameters.ambient_C);
  battery = battery_figures(parameters.battery, state.battery.charge, state.battery.temperature_C);
  last_top_rad = state.engine.crank_angle_rad;
  set_lamp();
  solve_at_rest();
}

// The potentials before the first step, so that a meter put on at once has something to read.
void Rig::Parts::solve_at_rest() {
  wiring.set_resistances(parameters, controls, state.relay_contact != ContactState::open, state.temperatures);
  const DriveTrainStep open =
      begin_drive_train_step(parameters.drive, state.drive_train, drive_train_loads(), 0.0, dt_s);
  solve_circuit(wiring, state, {parameters, battery, load, open, dt_s});
  wiring.network.complete();
  read();
}

void Rig::Parts::rest(double wait_s) {
  // Everything that turns has stopped and every trapped charge has leaked away; parts cool, the battery recovers.
  state.temperatures = temperatures_after(parameters, state.temperatures, heat, wait_s);
  heat = {};
  state.currents = {};
  state.fluxes = {};
  state.relay_contact_A = state.grounding_contacts_A = 0.0;
  state.plunger = state.shoe = {};
  state.drive_train = {};
  state.meshing = Meshing::apart;
  state.filament_V = 0.0;
  set_lamp();
  state.engine = rested_engine(parameters.engine, cylinder, state.engine.crank_angle_rad * 180.0 / std::numbers::pi);
  const double charge = std::max(state.battery.charge - parameters.body.drain_A * wait_s / battery.capacity_As, 0.0);
  state.battery = rested_battery(parameters.battery, state.battery.temperature_C);
  state.battery.charge = state.battery.near_plate_acid = charge;
  battery = battery_figures(parameters.battery, state.battery.charge, state.battery.temperature_C);
  controls.key = KeyPosition::off;
  wiring_stale = true;
  solve_at_rest();
}

void Rig::Parts::refit(const RigParameters& fitted) {
  const bool other_battery = !(fitted.battery == parameters.battery);
  parameters = fitted;
  cylinder = CylinderVolume(parameters.engine);
  mesh = PinionMesh(parameters.drive, parameters.shoe, parameters.engine.inertia_kg_m2);
  if (state.meshing == Meshing::in_contact_world) enter_contact_world();
  if (other_battery) state.battery = rested_battery(parameters.battery, parameters.ambient_C);
  battery = battery_figures(parameters.battery, state.battery.charge, state.battery.temperature_C);
  wiring_stale = true;
}

// One step as seen from outside. While contacts make or break, the shoe flies or teeth meet, it is made of shorter
// ones: backward Euler turns the energy of a fast change of current into an error that goes with the step.
void Rig::Parts::step(const Controls& asked) {
  follow_controls(asked);
  if (state.steps % steps_per_heat_span == 0 && state.steps > 0) warm_parts();
  move_contacts();
  const int pieces = pieces_now();
  h_s = dt_s / pieces;
  for (int piece = 0; piece < pieces; ++piece) {
    if (piece > 0) move_contacts();
    advance();
    within_step_s += h_s;
  }
  ++state.steps;
  within_step_s = 0.0;
  book_stores();
  read();
}

int Rig::Parts::pieces_now() const {
  constexpr double leakage_settles_s = 1.0e-3, iron_settles_s = 3.0e-3;
  constexpr int pieces_when_leakage_settles = 32, pieces_when_fast = 16;
  const double since_s = now_s() - last_contact_change_s;
  const bool arcing = state.relay_contact == ContactState::arcing || state.grounding_contacts == ContactState::arcing;
  if (arcing || since_s < leakage_settles_s) return pieces_when_leakage_settles;
  const bool fast = since_s < iron_settles_s || state.meshing == Meshing::in_contact_world || state.shoe.m_per_s != 0.0;
  return fast ? pieces_when_fast : 1;
}

// The recipe: the circuit at one instant; then everything that moves.
void Rig::Parts::advance() {
  if (wiring_stale) {
    wiring.set_resistances(parameters, controls, state.relay_contact != ContactState::open, state.temperatures);
    wiring_stale = false;
  }
  const double motor_Nm_before = torque_per_A(parameters.starter, state.fluxes) * state.currents.armature_A;
  const DriveTrainStep open =
      begin_drive_train_step(parameters.drive, state.drive_train, drive_train_loads(), motor_Nm_before, h_s);
  const CircuitResult result = solve_circuit(wiring, state, {parameters, battery, load, open, h_s});
  wiring.network.complete();
  const bool relay_arcs = state.relay_contact == ContactState::arcing;
  const bool grounding_arcs = state.grounding_contacts == ContactState::arcing;
  take_circuit(result);
  book_circuit(relay_arcs, grounding_arcs);
  move_wheels(open, result.torque_per_A * result.currents.armature_A);
  choose_meshing();
  move_relay();
}

void Rig::Parts::follow_controls(const Controls& asked) {
  if (asked == controls && !wiring_stale) return;
  controls = asked;
  wiring_stale = true;
}

void Rig::Parts::warm_parts() {
  state.temperatures = temperatures_after(parameters, state.temperatures, heat, heat_span_s);
  heat = {};
  battery = battery_figures(parameters.battery, state.battery.charge, state.battery.temperature_C);
  wiring_stale = true;
}

void Rig::Parts::move_contacts() {
  const bool relay_touches = relay_contacts_touch(parameters.relay, state.plunger.travel_m);
  const ContactState relay = contact_next(state.relay_contact, relay_touches, state.relay_contact_A);
  if (relay != state.relay_contact) {
    if (relay == ContactState::closed) tell(RigEventKind::relay_closed);
    if (relay == ContactState::arcing) tell(RigEventKind::relay_arc);
    if (state.relay_contact == ContactState::closed) tell(RigEventKind::relay_opened);
    last_contact_change_s = now_s();
    state.relay_contact = relay;
    wiring_stale = true;
  }
  const StarterParameters& starter = parameters.starter;
  const bool home = state.shoe.travel_m >= parameters.shoe.contacts_open_at * parameters.shoe.travel_m;
  const bool tips_touch = starter.grounding_contacts_stuck > 0.5 || (starter.grounding_contacts_stuck > -0.5 && !home);
  const ContactState grounding = contact_next(state.grounding_contacts, tips_touch, state.grounding_contacts_A);
  if (grounding != state.grounding_contacts) {
    if (grounding == ContactState::closed) tell(RigEventKind::grounding_contacts_closed);
    if (state.grounding_contacts == ContactState::closed) tell(RigEventKind::grounding_contacts_opened);
    last_contact_change_s = now_s();
    state.grounding_contacts = grounding;
  }
}

DriveTrainLoads Rig::Parts::drive_train_loads() const {
  const StarterParameters& starter = parameters.starter;
  const EngineParameters& engine = parameters.engine;
  const DriveTrainState& wheels = state.drive_train;
  const double crank = state.engine.crank_rad_per_s;
  DriveTrainLoads loads{};
  loads.armature_inertia_kg_m2 = starter.armature_inertia_kg_m2;
  loads.armature_friction_Nm_s = starter.friction_Nm_s + dry_slope(starter.friction_Nm + starter.drag_added_Nm,
                                                                   wheels.armature_rad_per_s, still_motor_rad_per_s);
  if (load.kind == Load::torque)
    loads.pinion_friction_Nm_s = dry_slope(load.torque_Nm, wheels.pinion_rad_per_s, still_motor_rad_per_s);
  loads.pinion_held = load.kind == Load::locked && state.shoe.travel_m >= seated_share * parameters.shoe.travel_m;
  loads.ring_meshed = state.meshing == Meshing::seated;
  loads.pinion_in_contact_world = state.meshing == Meshing::in_contact_world;
  loads.crank_rad_per_s = crank;
  loads.crank_inertia_kg_m2 = engine.inertia_kg_m2;
  loads.crank_friction_Nm_s =
      engine_effort() * engine.friction_Nm_s +
      dry_slope(engine_effort() * engine.friction_Nm + engine.drag_added_Nm, crank, still_crank_rad_per_s);
  loads.crank_torque_Nm = gas_torque_Nm(engine, cylinder, state.engine, 0.5 * h_s * crank);
  return loads;
}

void Rig::Parts::take_circuit(const CircuitResult& result) {
  const Network& network = wiring.network;
  state.currents = result.currents;
  state.fluxes = result.fluxes;
  carry_contact(state.relay_contact, state.relay_contact_A, network.amps(wiring.relay_contact));
  carry_contact(state.grounding_contacts, state.grounding_contacts_A, network.amps(wiring.grounding_contacts));
  if (load.supply_V <= 0.0) state.battery = battery_after(battery, state.battery, result.currents.battery_A, h_s);
  if (controls.headlamps || state.filament_V > 1.0e-3) warm_filament();
}

// The lamp's resistance is passed on to the network once it has moved by a hundredth.
void Rig::Parts::warm_filament() {
  state.filament_V = filament_after_V(state.filament_V, wiring.network.volts_across(wiring.headlamps), h_s);
  if (std::abs(state.filament_V - filament_in_network_V) > 0.02 * (filament_in_network_V + 0.1)) set_lamp();
}

void Rig::Parts::set_lamp() {
  filament_in_network_V = state.filament_V;
  wiring.network.set(wiring.headlamps, 1.0 / lamp_ohm(parameters.body.headlamp_W, filament_in_network_V));
}

void Rig::Parts::book_circuit(bool relay_arcs, bool grounding_arcs) {
  const Network& network = wiring.network;
  const auto absorbed_J = [&](Network::Branch branch) { return network.watts(branch) * h_s; };
  double resistive_J = 0.0;
  for (std::size_t i = 0; i < resistor_count; ++i) {
    const double part_J = absorbed_J(wiring.resistors[i]);
    heat.resistor_J[i] += part_J;
    resistive_J += part_J;
  }
  const StarterParameters& starter = parameters.starter;
  const PartTemperatures& warm = state.temperatures;
  const LiveCurrents& i = state.currents;
  const double drive_J = h_s * (i.drive_A * i.drive_A * starter.drive_coil_ohm * copper_factor(warm.drive_C) +
                                i.hold_in_A * i.hold_in_A * starter.hold_in_ohm * copper_factor(warm.drive_C));
  const double field_J = h_s * starter.field_coil_ohm * copper_factor(warm.field_C) *
                         (i.field_2_A * i.field_2_A + 2.0 * i.field_34_A * i.field_34_A);
  const double armature_J = h_s * i.armature_A * i.armature_A *
                            (starter.armature_ohm * copper_factor(warm.armature_C) + starter.brush_added_ohm);
  const double coil_J =
      h_s * i.relay_coil_A * i.relay_coil_A * parameters.relay.coil_ohm * copper_factor(warm.relay_coil_C);
  const double brush_J = h_s * i.armature_A * starter.brush_drop_V * std::tanh(i.armature_A / starter.brush_knee_A);
  heat.drive_J += drive_J;
  heat.field_J += field_J;
  heat.armature_J += armature_J + brush_J;
  heat.relay_coil_J += coil_J;

  const double relay_J = absorbed_J(wiring.relay_contact);
  const double grounding_J = absorbed_J(wiring.grounding_contacts);
  (relay_arcs ? ledger.arc_heat_J : resistive_J) += relay_J;
  (grounding_arcs ? ledger.arc_heat_J : resistive_J) += grounding_J;
  resistive_J += absorbed_J(wiring.headlamps) + drive_J + field_J + armature_J + coil_J;
  for (std::size_t hung = 0; hung < controls.attached.size(); ++hung) {
    const auto branch = wiring.first_attached + static_cast<Network::Branch>(hung);
    const double source_J = network.volts_across(branch) * controls.attached[hung].source_A * h_s;
    ledger.instruments_in_J += source_J;
    resistive_J += absorbed_J(branch) + source_J;
  }
  ledger.resistive_heat_J += resistive_J;
  ledger.brush_heat_J += brush_J;
  ledger.eddy_heat_J += eddy_heat_W(parameters, state) * h_s;
  ledger.battery_out_J -= absorbed_J(wiring.battery);
  if (wiring.supply >= 0) ledger.battery_out_J -= absorbed_J(wiring.supply);
}

void Rig::Parts::move_wheels(const DriveTrainStep& open, double motor_Nm) {
  const DriveTrainLoads loads = drive_train_loads();
  const DriveTrainMove move = finish_drive_train_step(parameters.drive, state.drive_train, loads, open, motor_Nm, h_s);
  const double pitch_m = parameters.drive.circular_pitch_m;
  const DriveTrainState before = state.drive_train;
  state.drive_train = move.after;
  ledger.clutch_heat_J += move.clutch_heat_J;
  ledger.tooth_heat_J += move.tooth_heat_J;
  ledger.load_work_J += move.load_work_J;
  ledger.starter_friction_J += move.armature_friction_J;
  shaft_Nm = move.clutch_Nm;
  if (open.clutch_slips) tell(RigEventKind::clutch_slipped);
  if (state.meshing == Meshing::in_contact_world) {
    state.drive_train.pinion_rad_per_s = before.pinion_rad_per_s;
    move_teeth(move);
    return;
  }
  ledger.engine_friction_J += move.crank_friction_J;
  state.engine.crank_rad_per_s = move.crank_rad_per_s;
  const double closing_m = h_s * (pinion_radius_m(parameters.drive) * move.pinion_mean_rad_per_s -
                                  ring_radius_m(parameters.drive) * move.crank_mean_rad_per_s);
  state.tooth_position_m = wrapped_m(state.tooth_position_m + closing_m, pitch_m);
  turn_crank(h_s * move.crank_mean_rad_per_s);
  move_shoe_freely();
}

void Rig::Parts::move_shoe_freely() {
  const double pull = pull_N(starter_pole(parameters.starter), state.fluxes.movable_Wb);
  const ShoeMove move = move_shoe(parameters.shoe, state.shoe, pull, moving_mass_kg(), h_s);
  state.shoe = move.after;
  ledger.shoe_and_plunger_heat_J += move.heat_J;
}

void Rig::Parts::move_teeth(const DriveTrainMove& wheels) {
  const DriveParameters& drive = parameters.drive;
  const ShoeParameters& shoe = parameters.shoe;
  const double ratio = drive.lever_ratio;
  const double ring_m = ring_radius_m(drive);
  const EngineParameters& engine = parameters.engine;
  const double crank = state.engine.crank_rad_per_s;
  const double shoe_push_N = pull_N(starter_pole(parameters.starter), state.fluxes.movable_Wb) -
                             shoe_spring_N(shoe, state.shoe.travel_m) - shoe.damping_Ns_per_m * state.shoe.m_per_s;
  const double damping_J = shoe.damping_Ns_per_m * state.shoe.m_per_s;
  const DriveTrainLoads loads = drive_train_loads();
  const double viscous_Nm = engine_effort() * engine.friction_Nm_s * crank;
  const MeshForces forces{.axial_N = shoe_push_N / ratio,
                          .axial_friction_N = shoe.hinge_friction_N / ratio,
                          .pinion_N = wheels.clutch_Nm / pinion_radius_m(drive),
                          .ring_N = (loads.crank_torque_Nm - viscous_Nm) / ring_m,
                          .ring_friction_N = (engine_effort() * engine.friction_Nm + engine.drag_added_Nm) / ring_m};
  const MeshMove move = mesh.step(forces, h_s);
  const double moved_m = move.after.pinion_travel_m / ratio - state.shoe.travel_m;
  state.shoe = {move.after.pinion_travel_m / ratio, move.after.pinion_axial_m_per_s / ratio};
  state.drive_train.pinion_rad_per_s = move.after.pinion_m_per_s / pinion_radius_m(drive);
  state.tooth_position_m = move.after.tooth_position_m;
  state.engine.crank_rad_per_s = move.after.ring_m_per_s / ring_m;
  ledger.tooth_heat_J += move.tooth_heat_J;
  ledger.shoe_and_plunger_heat_J += move.axial_heat_J + damping_J * moved_m;
  ledger.engine_friction_J += move.ring_friction_J + viscous_Nm * move.ring_moved_m / ring_m;
  turn_crank(move.ring_moved_m / ring_m);
  const bool on_the_face = move.touching && std::abs(pinion_travel_m() - meet_m()) < clear_of_ring_m;
  if (on_the_face && !pinion_abutted) tell(RigEventKind::teeth_abutted);
  pinion_abutted = on_the_face;
}

void Rig::Parts::choose_meshing() {
  const double full_m = parameters.shoe.travel_m;
  const bool was_home = shoe_home;
  const bool home = state.shoe.travel_m >= seated_share * full_m;
  if (home && !was_home) tell(RigEventKind::shoe_seated);
  if (was_home && state.shoe.travel_m < unseated_share * full_m) tell(RigEventKind::shoe_dropped);
  shoe_home = state.shoe.travel_m >= (was_home ? unseated_share : seated_share) * full_m;
  if (on_stand()) return;
  const double depth_m = pinion_travel_m() - meet_m();
  switch (state.meshing) {
    case Meshing::apart:
      if (depth_m > -clear_of_ring_m) enter_contact_world();
      break;
    case Meshing::in_contact_world:
      if (home) {
        state.meshing = Meshing::seated;
        const double pitch_m = parameters.drive.circular_pitch_m;
        state.drive_train.tooth_offset_m = wrapped_m(state.tooth_position_m - 0.5 * pitch_m, pitch_m);
        tell(RigEventKind::teeth_met);
      } else if (depth_m < -2.0 * clear_of_ring_m) {
        state.meshing = Meshing::apart;
        pinion_abutted = false;
      }
      break;
    case Meshing::seated:
      if (state.shoe.travel_m < unseated_share * full_m) {
        const double pitch_m = parameters.drive.circular_pitch_m;
        const double half_lash_m = 0.5 * parameters.drive.backlash_m;
        const double offset_m = std::clamp(state.drive_train.tooth_offset_m, -half_lash_m, half_lash_m);
        state.tooth_position_m = wrapped_m(offset_m + 0.5 * pitch_m, pitch_m);
        enter_contact_world();
      }
      break;
  }
}

void Rig::Parts::enter_contact_world() {
  const DriveParameters& drive = parameters.drive;
  state.meshing = Meshing::in_contact_world;
  mesh.enter({.pinion_travel_m = pinion_travel_m(),
              .pinion_axial_m_per_s = state.shoe.m_per_s * drive.lever_ratio,
              .pinion_m_per_s = state.drive_train.pinion_rad_per_s * pinion_radius_m(drive),
              .ring_m_per_s = state.engine.crank_rad_per_s * ring_radius_m(drive),
              .tooth_position_m = state.tooth_position_m});
}

void Rig::Parts::turn_crank(double moved_rad) {
  ledger.gas_work_J +=
      turn_engine(parameters.engine, cylinder, state.engine, state.engine.crank_angle_rad + moved_rad, h_s);
  const bool turning = std::abs(state.engine.crank_rad_per_s) > 0.5;
  if (turning != crank_turning) tell(turning ? RigEventKind::crank_turned : RigEventKind::crank_stopped);
  crank_turning = turning;
  const double interval_rad = 4.0 * std::numbers::pi / cylinder_count(parameters.engine);
  if (std::floor(state.engine.crank_angle_rad / interval_rad) != std::floor(last_top_rad / interval_rad)) {
    tell(RigEventKind::top_centre);
  }
  last_top_rad = state.engine.crank_angle_rad;
}

void Rig::Parts::move_relay() {
  const PlungerMove move =
      move_plunger(parameters.relay, state.plunger, pull_N(relay_pole(parameters.relay), state.fluxes.relay_Wb), h_s);
  state.plunger = move.after;
  ledger.shoe_and_plunger_heat_J += move.heat_J;
}

double Rig::Parts::moving_mass_kg() const {
  const double ratio = parameters.drive.lever_ratio;
  return parameters.shoe.mass_kg + parameters.drive.pinion_mass_kg * ratio * ratio;
}

double Rig::Parts::stored_kinetic_J() const {
  const DriveTrainState& wheels = state.drive_train;
  const double crank = state.engine.crank_rad_per_s;
  return 0.5 *
         (parameters.starter.armature_inertia_kg_m2 * wheels.armature_rad_per_s * wheels.armature_rad_per_s +
          parameters.drive.pinion_inertia_kg_m2 * wheels.pinion_rad_per_s * wheels.pinion_rad_per_s +
          parameters.engine.inertia_kg_m2 * crank * crank + moving_mass_kg() * state.shoe.m_per_s * state.shoe.m_per_s +
          parameters.relay.plunger_mass_kg * state.plunger.m_per_s * state.plunger.m_per_s);
}

double Rig::Parts::stored_spring_J() const {
  return drive_train_spring_J(parameters.drive, state.drive_train, state.meshing == Meshing::seated) +
         shoe_spring_J(parameters.shoe, state.shoe.travel_m) +
         plunger_spring_J(parameters.relay, state.plunger.travel_m);
}

void Rig::Parts::book_stores() {
  ledger.stored_magnetic_J = stored_magnetic_J(parameters, state) - store_at_start_magnetic_J;
  ledger.stored_kinetic_J = stored_kinetic_J() - store_at_start_kinetic_J;
  ledger.stored_spring_J = stored_spring_J() - store_at_start_spring_J;
}

void Rig::Parts::read() {
  const Network& network = wiring.network;
  for (const TestPoint point : all_test_points()) {
    readings.node_V[static_cast<std::size_t>(point)] = network.volts(Wiring::node_of(point));
  }
  const auto amps_in = [&](Resistor resistor) { return network.amps(wiring.branch_of(resistor)); };
  readings.time_s = now_s();
  readings.cable_A = {amps_in(Resistor::positive_cable), amps_in(Resistor::starter_cable),
                      amps_in(Resistor::negative_cable), amps_in(Resistor::body_strap_cable)};
  readings.loop_A = state.currents.battery_A;
  readings.crank_rpm = state.engine.crank_rad_per_s * rpm_per_rad_per_s;
  readings.motor_rpm = state.drive_train.armature_rad_per_s * rpm_per_rad_per_s;
  readings.shaft_Nm = shaft_Nm;
  readings.shoe_travel_m = state.shoe.travel_m;
  readings.pinion_travel_m = pinion_travel_m();
  readings.shoe_seated = shoe_home;
  readings.meshed = state.meshing == Meshing::seated;
  readings.relay_closed = state.relay_contact == ContactState::closed;
  readings.grounding_contacts_closed = state.grounding_contacts == ContactState::closed;
  readings.lamp_V = network.volts_across(wiring.headlamps);
  readings.lamp_light = state.filament_V > 0.1 ? lamp_light(state.filament_V) : 0.0;
  readings.crank_angle_deg = state.engine.crank_angle_rad * 180.0 / std::numbers::pi;
  readings.winding_C = hottest_winding_C(state.temperatures);
  readings.hottest_joint_C = hottest_joint_C(state.temperatures);
}

Rig::Rig(const RigParameters& parameters, const RestingPlace& rest, const LoadParameters& load, double dt_s)
    : parts_(std::make_unique<Parts>(parameters, rest, load, dt_s)) {}
Rig::~Rig() = default;
Rig::Rig(Rig&&) noexcept = default;
Rig& Rig::operator=(Rig&&) noexcept = default;

void Rig::step(const Controls& controls) {
  parts_->step(controls);
}
const RigParameters& Rig::parameters() const {
  return parts_->parameters;
}
const Readings& Rig::readings() const {
  return parts_->readings;
}
const EnergyLedger& Rig::energy() const {
  return parts_->ledger;
}
double Rig::kirchhoff_residual_A() const {
  return parts_->wiring.network.residual_A();
}
double Rig::largest_branch_A() const {
  return parts_->wiring.network.largest_A();
}
std::vector<RigEvent> Rig::take_events() {
  return std::exchange(parts_->events, {});
}

}  // namespace voltfall
