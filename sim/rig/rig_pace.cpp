#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "rig/rig_parts.h"

namespace voltfall {
namespace {

// Dead bars cut the armature's current some hundred times a second: true while they are, or soon will be, under a
// brush.
bool dead_bars_pass(const StarterParameters& starter, const DriveTrainState& drive, double soon_s) {
  if (starter.dead_spot_ohm <= 0.0 || std::abs(drive.armature_rad_per_s) <= 1.0) return false;
  const double from_brush_rad = std::abs(std::remainder(drive.armature_rad, 0.5 * std::numbers::pi));
  return from_brush_rad < dead_bars_half_rad + std::abs(drive.armature_rad_per_s) * soon_s;
}

}  // namespace

void Rig::Parts::step_in_pieces() {
  end_stride();
  int taken = 0;
  while (taken < most_pieces) {
    move_contacts();
    const int share = std::min(most_pieces / pieces_now(), most_pieces - taken);
    h_s = dt_s * share / most_pieces;
    advance();
    taken += share;
    within_step_s = dt_s * taken / most_pieces;
  }
  ++state.steps;
  within_step_s = 0.0;
  note_motion();
  read();
}

void Rig::Parts::note_motion() {
  const double now = now_s();
  const bool turns = std::abs(state.engine.crank_rad_per_s) > still_crank_rad_per_s ||
                     std::abs(state.drive_train.armature_rad_per_s) > still_motor_rad_per_s;
  const bool slides = state.shoe.m_per_s != 0.0 || relay_moves(state.relay);
  if (turns) last_turned_s = now;
  if (slides || state.meshing == Meshing::in_contact_world) last_slid_s = now;
}

// Cut off, settled, and with no current that could pull a plunger or the shoe.
bool Rig::Parts::idles() const {
  constexpr double coils_settle_s = 0.06, filaments_settle_s = 0.25;
  const double settles_s = controls.headlamps || state.filament_V > 0.1 ? filaments_settle_s : coils_settle_s;
  constexpr double pulls_nothing_A = 0.01;
  if (on_stand() || engine_lit || state.relay_contact != ContactState::open) return false;
  const LiveCurrents& now = state.currents;
  const double pulling_A =
      std::max({std::abs(now.relay_coil_A), std::abs(now.drive_A), std::abs(now.hold_in_A), std::abs(now.armature_A)});
  return pulling_A < pulls_nothing_A &&
         now_s() - std::max({last_slid_s, last_switch_s, last_contact_change_s}) > settles_s;
}

void Rig::Parts::idle_a_step() {
  constexpr double stands_s = 0.05;  // a crank that rocks to and fro stands still for a moment too
  ++state.steps;
  ++circuit_behind;
  ++motion_behind;
  const bool stands = state.meshing == Meshing::apart && now_s() - last_turned_s > stands_s;
  if (!stands) coast();
  if (state.steps % steps_per_stride == 0) end_stride();
  readings.time_s = now_s();
}

// With its circuit open the armature turns on by itself.
void Rig::Parts::coast() {
  h_s = dt_s * std::exchange(motion_behind, 0);
  const DriveTrainLoads loads = drive_train_loads();
  move_wheels(loads, begin_drive_train_step(parameters.drive, state.drive_train, loads, 0.0, h_s), 0.0);
  choose_meshing();
  note_motion();
  read_motion();
}

void Rig::Parts::end_stride() {
  if (circuit_behind == 0) return;
  if (motion_behind > 0) coast();
  h_s = dt_s * std::exchange(circuit_behind, 0);
  advance_circuit(begin_drive_train_step(parameters.drive, state.drive_train, drive_train_loads(), 0.0, h_s));
  read();
}

int Rig::Parts::pieces_now() const {
  constexpr double change_felt_s = 4.0e-4, leakage_settles_s = 1.0e-3, iron_settles_s = 3.0e-3;
  constexpr int pieces_when_leakage_settles = most_pieces, pieces_when_fast = 32, pieces_when_slow = 8;
  constexpr int pieces_when_shoe_flies = 16, pieces_when_teeth_meet = 16, pieces_between_dead_bars = 16;
  constexpr int pieces_when_liquid_is_pressed = 16;
  constexpr double restless_J = 2.0e-3, stirred_J = 1.0e-4;  // worth a shorter step
  const double since_s = now_s() - last_contact_change_s;
  const bool arcing = state.relay_contact == ContactState::arcing || state.grounding_contacts == ContactState::arcing;
  const double loss_J = leakage_loss_J();
  const bool restless = loss_J > restless_J;
  const bool teeth_meet = state.meshing == Meshing::in_contact_world;
  if (arcing || since_s < change_felt_s || (since_s < leakage_settles_s && (restless || teeth_meet))) {
    return pieces_when_leakage_settles;
  }
  if (teeth_meet) return teeth_mill() ? most_pieces : pieces_when_teeth_meet;
  if (liquid_is_pressed(engine, cylinder, state.engine)) return pieces_when_liquid_is_pressed;
  constexpr double pulls_shoe_A = 1.0;  // less current only lets it fly home
  const bool shoe_moves = state.shoe.m_per_s != 0.0;
  const bool shoe_pulled = shoe_moves && std::abs(state.currents.drive_A) > pulls_shoe_A;
  const bool bars_cut = dead_bars_pass(parameters.starter, state.drive_train, dt_s);
  if (bars_cut || (restless && since_s < iron_settles_s)) return pieces_when_fast;
  if (shoe_pulled) return pieces_when_shoe_flies;
  if (parameters.starter.dead_spot_ohm > 0.0) return pieces_between_dead_bars;  // the current comes back
  const bool felt = std::min(since_s, now_s() - last_switch_s) < iron_settles_s;
  const bool stirred = felt || loss_J > stirred_J || coil_settles();
  return stirred || shoe_moves || relay_moves(state.relay) ? pieces_when_slow : 1;
}

// What backward Euler would lose, in a step taken whole, of that which the leakage fields hold.
double Rig::Parts::leakage_loss_J() const {
  return leakage_J(parameters, state.currents_per_s) * dt_s * dt_s;
}

bool Rig::Parts::coil_settles() const {
  constexpr double settles_A_per_s = 50.0;
  return std::abs(state.currents_per_s.relay_coil_A) > settles_A_per_s;
}

}  // namespace voltfall
