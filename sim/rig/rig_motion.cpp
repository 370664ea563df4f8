#include <algorithm>
#include <cmath>
#include <numbers>

#include "rig/rig_parts.h"

namespace voltfall {
namespace {

constexpr double clear_of_ring_m = 2.0e-4;  // pinion travel short of the ring within which the contact world runs

double wrapped_m(double place_m, double pitch_m) {
  return place_m - pitch_m * std::round(place_m / pitch_m);
}

// Dry friction as a slope against speed, so that an implicit step can carry it through standstill.
double dry_slope(double torque_Nm, double rad_per_s, double still_rad_per_s) {
  return torque_Nm / std::max(std::abs(rad_per_s), still_rad_per_s);
}

}  // namespace

DriveTrainLoads Rig::Parts::drive_train_loads() const {
  const StarterParameters& starter = parameters.starter;
  const DriveTrainState& wheels = state.drive_train;
  const double crank = state.engine.crank_rad_per_s;
  DriveTrainLoads loads{};
  loads.armature_inertia_kg_m2 = starter.armature_inertia_kg_m2;
  loads.armature_friction_Nm_s = starter.friction_Nm_s + dry_slope(starter.friction_Nm + starter.drag_added_Nm,
                                                                   wheels.armature_rad_per_s, still_motor_rad_per_s);
  if (load.kind == Load::torque)
    loads.pinion_friction_Nm_s = dry_slope(load.torque_Nm, wheels.pinion_rad_per_s, still_motor_rad_per_s);
  loads.pinion_held = load.kind == Load::locked && state.shoe.travel_m >= seated_share * parameters.shoe.travel_m;
  loads.ring_meshed = state.meshing == Meshing::seated && !over_gap;
  loads.pinion_in_contact_world = state.meshing == Meshing::in_contact_world;
  loads.crank_rad_per_s = crank;
  loads.crank_inertia_kg_m2 = engine.inertia_kg_m2;
  loads.crank_friction_Nm_s =
      engine_effort * engine.friction_Nm_s + dry_slope(dry_engine_Nm(), crank, still_crank_rad_per_s);
  loads.crank_torque_Nm = gas_torque_Nm(engine, cylinder, state.engine, 0.5 * h_s * crank, 0.5 * h_s);
  return loads;
}

void Rig::Parts::move_wheels(const DriveTrainLoads& loads, const DriveTrainStep& open, double motor_Nm) {
  const DriveTrainMove move = finish_drive_train_step(parameters.drive, state.drive_train, loads, open, motor_Nm, h_s);
  const double pitch_m = parameters.drive.circular_pitch_m;
  const DriveTrainState before = state.drive_train;
  state.drive_train = move.after;
  ledger.tooth_heat_J += move.tooth_heat_J;
  ledger.load_work_J += move.load_work_J;
  ledger.starter_friction_J += move.armature_friction_J;
  shaft_Nm = move.clutch_Nm;
  if (open.clutch_slips) tell(RigEventKind::clutch_slipped);
  if (state.meshing == Meshing::in_contact_world) {
    state.drive_train.pinion_rad_per_s = before.pinion_rad_per_s;
    move_teeth(loads, open, move, before.clutch_twist_rad);
    return;
  }
  ledger.clutch_heat_J += move.clutch_heat_J;
  ledger.engine_friction_J += move.crank_friction_J;
  state.engine.crank_rad_per_s = move.crank_rad_per_s;
  const double closing_m = h_s * (pinion_radius_m(parameters.drive) * move.pinion_mean_rad_per_s -
                                  ring_radius_m(parameters.drive) * move.crank_mean_rad_per_s);
  state.tooth_position_m = wrapped_m(state.tooth_position_m + closing_m, pitch_m);
  turn_crank(h_s * move.crank_mean_rad_per_s);
  pass_gap();
  move_shoe_freely();
}

// Pinion and ring pass each other too fast to mesh softly.
bool Rig::Parts::teeth_mill() const {
  constexpr double soft_m_per_s = 1.0;
  return std::abs(pinion_radius_m(parameters.drive) * state.drive_train.pinion_rad_per_s -
                  ring_radius_m(parameters.drive) * state.engine.crank_rad_per_s) > soft_m_per_s;
}

// Where ring teeth are missing the pinion turns on alone; the next tooth to come finds it at its own speed and strikes.
void Rig::Parts::pass_gap() {
  const bool was_over_gap = over_gap;
  const DriveParameters& drive = parameters.drive;
  over_gap = state.meshing == Meshing::seated &&
             gap_at_pinion(drive, state.engine.crank_angle_rad, state.drive_train.pinion_rad);
  if (over_gap == was_over_gap || state.meshing != Meshing::seated) return;
  double& offset_m = state.drive_train.tooth_offset_m;
  if (over_gap) {
    ledger.tooth_heat_J += drive_train_spring_J(drive, state.drive_train, true);
    offset_m = 0.0;
    ledger.tooth_heat_J -= drive_train_spring_J(drive, state.drive_train, true);
    return;
  }
  const double half_lash_m = 0.5 * drive.backlash_m;
  const double pitch_m = drive.circular_pitch_m;
  offset_m = std::clamp(wrapped_m(state.tooth_position_m - 0.5 * pitch_m, pitch_m), -half_lash_m, half_lash_m);
  last_contact_change_s = now_s();  // a hard knock: short pieces
  tell(RigEventKind::teeth_struck);
}

void Rig::Parts::move_shoe_freely() {
  const double pull = pull_N(starter_pole(parameters.starter), state.fluxes.movable_Wb);
  const ShoeMove move = move_shoe(parameters.shoe, state.shoe, pull, moving_mass_kg(), h_s);
  state.shoe = move.after;
  ledger.shoe_and_plunger_heat_J += move.heat_J;
}

void Rig::Parts::move_teeth(const DriveTrainLoads& loads, const DriveTrainStep& open, const DriveTrainMove& wheels,
                            double twist_before_rad) {
  const DriveParameters& drive = parameters.drive;
  const ShoeParameters& shoe = parameters.shoe;
  const double ratio = drive.lever_ratio;
  const double ring_m = ring_radius_m(drive);
  const double crank = state.engine.crank_rad_per_s;
  const double shoe_push_N = pull_N(starter_pole(parameters.starter), state.fluxes.movable_Wb) -
                             shoe_spring_N(shoe, state.shoe.travel_m) - shoe.damping_Ns_per_m * state.shoe.m_per_s;
  const double damping_J = shoe.damping_Ns_per_m * state.shoe.m_per_s;
  const double viscous_Nm = engine_effort * engine.friction_Nm_s * crank;
  const MeshForces forces{.axial_N = shoe_push_N / ratio,
                          .axial_friction_N = shoe.hinge_friction_N / ratio,
                          .pinion_N = wheels.clutch_Nm / pinion_radius_m(drive),
                          .ring_N = (loads.crank_torque_Nm - viscous_Nm) / ring_m,
                          .ring_friction_N = dry_engine_Nm() / ring_m,
                          .crank_rad = state.engine.crank_angle_rad};
  const MeshMove move = mesh.step(forces, h_s);
  const double moved_m = move.after.pinion_travel_m / ratio - state.shoe.travel_m;
  state.shoe = {move.after.pinion_travel_m / ratio, move.after.pinion_axial_m_per_s / ratio};
  const double pinion_before = state.drive_train.pinion_rad_per_s;
  state.drive_train.pinion_rad_per_s = move.after.pinion_m_per_s / pinion_radius_m(drive);
  // The contact world, not the row of wheels, decided how the pinion turned: wind the clutch by that.
  const double pinion_mean = 0.5 * (pinion_before + state.drive_train.pinion_rad_per_s);
  state.drive_train.pinion_rad += h_s * (pinion_mean - wheels.pinion_mean_rad_per_s);
  const double slip = wheels.armature_mean_rad_per_s - pinion_mean;
  const ClutchMove clutch = wind_clutch(drive, twist_before_rad, open, wheels.clutch_Nm, slip, h_s);
  state.drive_train.clutch_twist_rad = clutch.twist_rad;
  ledger.clutch_heat_J += clutch.heat_J;
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
  // A shoe that merely trembles at its stop is not heard: it must have gone a millimetre out, and been back between.
  constexpr double heard_m = 1.0e-3, back_m = 1.0e-4;
  const bool was_away = shoe_away;
  shoe_away = state.shoe.travel_m > (was_away ? back_m : heard_m);
  if (shoe_away && !was_away) tell(RigEventKind::shoe_moved);
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
        over_gap = gap_at_pinion(parameters.drive, state.engine.crank_angle_rad, state.drive_train.pinion_rad);
        state.drive_train.tooth_offset_m = over_gap ? 0.0 : wrapped_m(state.tooth_position_m - 0.5 * pitch_m, pitch_m);
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
  const EngineTurn turn =
      turn_engine(engine, cylinder, state.engine, state.engine.crank_angle_rad + moved_rad, spark_on(), h_s);
  ledger.gas_work_J += turn.work_on_gas_J;
  notice_firing(turn.fired);
  const bool turning = std::abs(state.engine.crank_rad_per_s) > 0.5;
  if (turning != crank_turning) tell(turning ? RigEventKind::crank_turned : RigEventKind::crank_stopped);
  crank_turning = turning;
  const bool compresses = engine.plugs_out < 0.5;
  const double interval = intervals_gone();
  // A crank that stands on a top centre trembles across it without a beat to be heard.
  if (compresses && turning && interval != last_interval) {
    const int of_cycle = static_cast<int>(interval) % cylinder_count(parameters.engine);
    events.push_back({now_s(), RigEventKind::top_centre, of_cycle});
  }
  last_interval = interval;
}

// Whole firing intervals from the start of the engine's cycle to where the crank stands.
double Rig::Parts::intervals_gone() const {
  const double interval_rad = 4.0 * std::numbers::pi / cylinder_count(parameters.engine);
  return std::floor(state.engine.crank_angle_rad / interval_rad);
}

// Points, coil and plugs need some six volts to make a spark that lights anything (from memory).
bool Rig::Parts::spark_on() const {
  constexpr double least_V = 6.0;
  return controls.ignition_live && !on_stand() &&
         wiring.network.volts(Wiring::node_of(TestPoint::ignition_coil_feed)) -
                 wiring.network.volts(Wiring::node_of(TestPoint::engine_block)) >
             least_V;
}

void Rig::Parts::notice_firing(bool fired) {
  constexpr double running_rad_per_s = 42.0, charging_rad_per_s = 55.0, stopped_rad_per_s = 3.0;
  const double crank = state.engine.crank_rad_per_s;
  if (fired && !engine_lit) tell(RigEventKind::engine_fired);
  engine_lit = engine_lit || fired;
  if (!engine_runs && engine_lit && crank > running_rad_per_s) {
    engine_runs = true;
    tell(RigEventKind::engine_running);
  } else if (engine_lit && crank < stopped_rad_per_s) {
    if (engine_runs) tell(RigEventKind::engine_stopped);
    engine_runs = engine_lit = false;
  }
  // Its diodes let nothing back: volts below those that are there already charge nothing.
  const double there_V = wiring.network.volts(Wiring::node_of(TestPoint::alternator_output)) -
                         wiring.network.volts(Wiring::node_of(TestPoint::engine_block));
  const bool turns = crank > charging_rad_per_s && !controls.belt_off;
  const bool charges = turns && (alternator_charges || parameters.body.alternator_V > there_V);
  if (charges != alternator_charges) wiring_stale = true;
  alternator_charges = charges;
}

void Rig::Parts::throw_relay() {
  const RelayParameters& relay = parameters.relay;
  const RelayMove move =
      move_relay(relay, state.relay, pull_N(relay_pole(relay), state.fluxes.relay_Wb), state.relay_wear.weld_N, h_s);
  state.relay = move.after;
  ledger.shoe_and_plunger_heat_J += move.heat_J;
  if (move.weld_holds && relay.contact_welded <= 0.5) {
    parameters.relay.contact_welded = 1.0;
    tell(RigEventKind::relay_welded);
  }
}

double Rig::Parts::moving_mass_kg() const {
  const double ratio = parameters.drive.lever_ratio;
  return axial_mass_kg(parameters.drive, parameters.shoe) * ratio * ratio;
}

}  // namespace voltfall
