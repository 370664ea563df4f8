#include "rig/rig.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "electrical/lamp.h"
#include "rig/rig_parts.h"
#include "rig/settable.h"

namespace voltfall {
namespace {

// Room kept, so that a step takes nothing from the heap.
constexpr std::size_t most_events_a_step = 8 * most_pieces, usual_attached = 16;

LiveCurrents rates(const LiveCurrents& before, const LiveCurrents& after, double dt_s) {
  return {.battery_A = (after.battery_A - before.battery_A) / dt_s,
          .relay_coil_A = (after.relay_coil_A - before.relay_coil_A) / dt_s,
          .drive_A = (after.drive_A - before.drive_A) / dt_s,
          .hold_in_A = (after.hold_in_A - before.hold_in_A) / dt_s,
          .field_2_A = (after.field_2_A - before.field_2_A) / dt_s,
          .field_34_A = (after.field_34_A - before.field_34_A) / dt_s,
          .armature_A = (after.armature_A - before.armature_A) / dt_s};
}

double oil_effort(const RigParameters& parameters) {
  const EngineParameters& engine = parameters.engine;
  return friction_effort(parameters.ambient_C) * oil_grade_effort(engine.oil_grade_W, parameters.ambient_C) *
         engine.oil_effort;
}

PoleFluxes rates(const PoleFluxes& before, const PoleFluxes& after, double dt_s) {
  return {.movable_Wb = (after.movable_Wb - before.movable_Wb) / dt_s,
          .second_Wb = (after.second_Wb - before.second_Wb) / dt_s,
          .third_and_fourth_Wb = (after.third_and_fourth_Wb - before.third_and_fourth_Wb) / dt_s,
          .relay_Wb = (after.relay_Wb - before.relay_Wb) / dt_s};
}

}  // namespace

Rig::Parts::Parts(const RigParameters& fixed, const RestingPlace& rest, const LoadParameters& on_pinion, double step_s,
                  Books energy_books)
    : parameters(fixed),
      load(on_pinion),
      dt_s(step_s),
      h_s(step_s),
      wiring(on_pinion.kind != Load::engine && on_pinion.supply_V > 0.0),
      cylinder(fixed.engine),
      mesh(fixed.drive, fixed.shoe, fixed.engine.inertia_kg_m2),
      engine(fixed.engine),
      books(energy_books),
      engine_effort(oil_effort(fixed)),
      steps_per_heat_span(std::lround(heat_span_s / step_s)),
      steps_per_stride(std::max(std::lround(stride_s / step_s), 1L)) {
  events.reserve(most_events_a_step);
  asked.attached.reserve(usual_attached);
  controls.attached.reserve(usual_attached);
  state.battery = rested_battery(parameters.battery, parameters.ambient_C);
  state.engine = rested_engine(engine, cylinder, rest.crank_angle_deg);
  // Where armature and pinion stopped is as much chance as where the engine did: told from the same angle.
  state.drive_train.pinion_rad = state.drive_train.armature_rad = std::fmod(
      state.engine.crank_angle_rad * fixed.drive.ring_teeth / fixed.drive.pinion_teeth, 2.0 * std::numbers::pi);
  state.tooth_position_m = (rest.tooth_phase - std::round(rest.tooth_phase)) * parameters.drive.circular_pitch_m;
  state.temperatures = PartTemperatures(parameters.ambient_C);
  battery = battery_figures(parameters.battery, state.battery.charge, state.battery.temperature_C);
  last_interval = intervals_gone();
  state.relay = rested_relay(parameters.relay);
  state.relay_constriction = {parameters.relay.constriction_ohm, parameters.relay.constriction_ohm};
  set_lamp();
  solve_at_rest();
}

// Goes on from where another rig was: only what follows from the state is worked out anew.
void Rig::Parts::go_on_from(const RigState& from) {
  state = from;
  last_turned_s = last_slid_s = now_s();
  battery = battery_figures(parameters.battery, state.battery.charge, state.battery.temperature_C);
  last_interval = intervals_gone();
  last_contact_change_s = now_s();  // unknown, so taken as just now: short pieces to begin with
  shoe_home = state.shoe.travel_m >= seated_share * parameters.shoe.travel_m;
  over_gap = state.meshing == Meshing::seated &&
             gap_at_pinion(parameters.drive, state.engine.crank_angle_rad, state.drive_train.pinion_rad);
  if (state.meshing == Meshing::in_contact_world) enter_contact_world();
  wiring_stale = refitted = true;
  set_lamp();
  book_stores();
  ledger.stored_at_start_J = ledger.stored_J();
  read();
}

void Rig::Parts::set_resistances() {
  wiring.set_resistances(parameters, controls, state.relay_contact != ContactState::open, state.temperatures);
  if (alternator_charges) wiring.connect_alternator(parameters.body.alternator_V);
}

// The potentials before the first step, so that a meter put on at once has something to read.
void Rig::Parts::solve_at_rest() {
  set_resistances();
  const DriveTrainStep open =
      begin_drive_train_step(parameters.drive, state.drive_train, drive_train_loads(), 0.0, dt_s);
  solve_circuit(wiring, state, {parameters, battery, load, open, dt_s});
  wiring.network.complete();
  read();
}

// One step as seen from outside. While contacts make or break, the shoe flies or teeth meet, it is made of shorter
// ones: backward Euler turns the energy of a fast change of current into an error that goes with the step. With the
// starter cut off and all settled only charge and heat creep, and one stride of the circuit does for many steps; where
// nothing turns either, one stride of everything.
void Rig::Parts::step(const Controls& now_asked) {
  const bool other = !(now_asked == asked);
  if (other) end_stride();
  if (other || refitted) follow_controls(now_asked);
  if (state.steps % steps_per_heat_span == 0 && state.steps > 0) warm_parts();
  if (idles()) {
    idle_a_step();
  } else {
    step_in_pieces();
  }
}

// The recipe: the circuit at one instant; then everything that moves.
void Rig::Parts::advance() {
  const DriveTrainLoads loads = drive_train_loads();
  const double motor_Nm_before = torque_per_A(parameters.starter, state.fluxes) * state.currents.armature_A;
  const DriveTrainStep open = begin_drive_train_step(parameters.drive, state.drive_train, loads, motor_Nm_before, h_s);
  const double motor_Nm = advance_circuit(open);
  move_wheels(loads, open, motor_Nm);
  choose_meshing();
  throw_relay();
}

double Rig::Parts::advance_circuit(const DriveTrainStep& open) {
  if (wiring_stale) {
    set_resistances();
    wiring_stale = false;
  }
  CircuitResult result = solve_circuit(wiring, state, {parameters, battery, load, open, h_s});
  if (put_out_arcs()) result = solve_circuit(wiring, state, {parameters, battery, load, open, h_s});
  wiring.network.complete();
  const bool relay_arcs = state.relay_contact == ContactState::arcing;
  const bool grounding_arcs = state.grounding_contacts == ContactState::arcing;
  take_circuit(result);
  const CircuitHeat made = heat_parts(relay_arcs, grounding_arcs);
  if (books == Books::kept) book_circuit(made, relay_arcs, grounding_arcs);
  switched = false;
  return result.torque_per_A * result.currents.armature_A;
}

void Rig::Parts::follow_controls(const Controls& now_asked) {
  refitted = false;
  const bool was_made = controls.key == KeyPosition::start;
  asked = controls = now_asked;
  if (parameters.control.start_contact_sticks > 0.5 && was_made && asked.key == KeyPosition::on) {
    controls.key = KeyPosition::start;
  }
  engine = engine_now();
  wiring_stale = true;
  switched = true;
  last_switch_s = now_s();
}

EngineParameters Rig::Parts::engine_now() const {
  EngineParameters now = parameters.engine;
  if (controls.belt_off) now.accessory_drag_Nm = 0.0;
  if (controls.plugs_out) now.plugs_out = 1.0;
  return now;
}

void Rig::Parts::take_circuit(const CircuitResult& result) {
  state.currents_per_s = rates(state.currents, result.currents, h_s);
  state.currents = result.currents;
  state.fluxes_per_s = rates(state.fluxes, result.fluxes, h_s);
  state.fluxes = result.fluxes;
  carry_contacts();
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

// Out of the battery with the key off, whatever its volts.
double Rig::Parts::resting_draw_A() const {
  constexpr double battery_V = 12.6;
  if (!controls.battery_connected) return 0.0;
  return parameters.body.drain_A + battery_V / parameters.cables.positive.to_ground_ohm +
         (controls.headlamps ? parameters.body.headlamp_W / battery_V : 0.0);
}

void Rig::Parts::rest(double wait_s) {
  end_stride();
  // Everything that turns has stopped and every trapped charge has leaked away; parts cool, the battery recovers.
  state.temperatures = temperatures_after(parameters, state.temperatures, heat, wait_s);
  heat = {};
  state.relay_wear.warm_J *= face_heat_kept(wait_s);
  state.grounding_wear.warm_J *= face_heat_kept(wait_s);
  state.currents = state.currents_per_s = {};
  state.fluxes = state.fluxes_per_s = {};
  state.relay_contact_A = state.grounding_contacts_A = 0.0;
  state.relay = rested_relay(parameters.relay);
  state.drive_train = {.pinion_rad = state.drive_train.pinion_rad, .armature_rad = state.drive_train.armature_rad};
  // A pinion in mesh stays there when nothing pulls the shoe back.
  const bool stays = state.meshing == Meshing::seated && shoe_home &&
                     shoe_spring_N(parameters.shoe, state.shoe.travel_m) <= parameters.shoe.hinge_friction_N;
  if (!stays) {
    state.shoe = {};
    state.meshing = Meshing::apart;
    shoe_home = shoe_away = false;
  }
  state.filament_V = 0.0;
  engine_lit = engine_runs = alternator_charges = over_gap = false;
  set_lamp();
  state.engine = rested_engine(engine, cylinder, state.engine.crank_angle_rad * 180.0 / std::numbers::pi);
  state.battery.charge = std::max(state.battery.charge - resting_draw_A() * wait_s / battery.capacity_As, 0.0);
  state.battery = battery_rested_for(state.battery, wait_s);
  state.battery.temperature_C = state.temperatures.battery_C;
  battery = battery_figures(parameters.battery, state.battery.charge, state.battery.temperature_C);
  asked.key = controls.key = KeyPosition::off;
  wiring_stale = refitted = true;
  solve_at_rest();
}

void Rig::Parts::refit(const RigParameters& fitted, bool battery_charged) {
  end_stride();
  const bool other_charge = battery_charged || fitted.battery.charge != parameters.battery.charge;
  parameters = fitted;
  engine = engine_now();
  engine_effort = oil_effort(parameters);
  cylinder = CylinderVolume(parameters.engine);
  mesh = PinionMesh(parameters.drive, parameters.shoe, parameters.engine.inertia_kg_m2);
  if (state.meshing == Meshing::in_contact_world) enter_contact_world();
  if (other_charge) state.battery = rested_battery(parameters.battery, parameters.ambient_C);
  battery = battery_figures(parameters.battery, state.battery.charge, state.battery.temperature_C);
  wiring_stale = refitted = true;
}

Rig::Rig(const RigParameters& parameters, const RestingPlace& rest, const LoadParameters& load, double dt_s,
         Books books) {
  if (const std::string wrong = contradiction_in(parameters); !wrong.empty()) throw std::invalid_argument(wrong);
  parts_ = std::make_unique<Parts>(parameters, rest, load, dt_s, books);
}
Rig::Rig(const RigState& from, const RigParameters& parameters, const LoadParameters& load, double dt_s, Books books)
    : Rig(parameters, RestingPlace{}, load, dt_s, books) {
  parts_->go_on_from(from);
}
Rig::~Rig() = default;
Rig::Rig(Rig&&) noexcept = default;
Rig& Rig::operator=(Rig&&) noexcept = default;
void Rig::step(const Controls& controls) {
  parts_->step(controls);
}
void Rig::rest(double wait_s) {
  parts_->rest(wait_s);
}
void Rig::refit(const RigParameters& parameters, bool battery_charged) {
  parts_->refit(parameters, battery_charged);
}
const RigParameters& Rig::parameters() const {
  return parts_->parameters;
}
const RigState& Rig::state() const {
  return parts_->state;
}
const Readings& Rig::readings() const {
  return parts_->readings;
}
const EnergyLedger& Rig::energy() const {
  if (parts_->books != Books::kept) throw std::logic_error("this rig keeps no books of its energy");
  parts_->book_stores();
  return parts_->ledger;
}
double Rig::kirchhoff_residual_A() const {
  return parts_->wiring.network.residual_A();
}
double Rig::largest_branch_A() const {
  return parts_->wiring.network.largest_A();
}
std::vector<RigEvent> Rig::take_events() {
  std::vector<RigEvent> taken = parts_->events;
  parts_->events.clear();  // keeps its room: a step takes none from the heap
  return taken;
}

}  // namespace voltfall
