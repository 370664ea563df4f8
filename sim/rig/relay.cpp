#include "rig/relay.h"

#include <algorithm>
#include <cmath>

namespace voltfall {
namespace {

constexpr double eddy_time_s = 0.015;  // flux of the seated plunger in its solid iron
constexpr double stop_restitution = 0.15;
constexpr double stud_restitution = 0.3;   // copper on copper, from memory
constexpr double resting_m_per_s = 0.02;   // a rebound slower than this is none
constexpr double weld_stretch_m = 2.0e-4;  // a weld gives by this much before it tears

// The disc settles on its studs over this travel, in which the plunger's collar hands the contact spring's preload over
// to it. Without it a plunger whose pull just balances the springs would have no place to stand.
constexpr double settling_m = 1.0e-4;

bool same(const SlideState& one, const SlideState& other) {
  return one.travel_m == other.travel_m && one.m_per_s == other.m_per_s;
}

// The contact spring, which pushes plunger and disc apart once they are not collar to face.
struct ContactSpring {
  double force_N, N_per_m, stored_J;
};

ContactSpring contact_spring(const RelayParameters& relay, double pressed_m) {
  const double settled_m = std::min(pressed_m, settling_m);
  const double settling_N_per_m = relay.contact_spring_N / settling_m;
  const double after_m = pressed_m - settled_m;
  const bool settling = pressed_m > 0.0 && pressed_m < settling_m;
  return {.force_N = settling_N_per_m * settled_m + relay.contact_spring_N_per_m * pressed_m,
          .N_per_m = (settling ? settling_N_per_m : 0.0) + (pressed_m > 0.0 ? relay.contact_spring_N_per_m : 0.0),
          .stored_J = 0.5 * settling_N_per_m * settled_m * settled_m + relay.contact_spring_N * after_m +
                      0.5 * relay.contact_spring_N_per_m * pressed_m * pressed_m};
}

double pressed_m(const RelayMechanism& mechanism) {
  return std::max(mechanism.plunger.travel_m - mechanism.disc.travel_m, 0.0);
}

bool is_welded(const RelayParameters& relay) {
  return relay.contact_welded > 0.5;
}

double rebound(double m_per_s) {
  const double back_m_per_s = -stud_restitution * m_per_s;
  return std::abs(back_m_per_s) < resting_m_per_s ? 0.0 : back_m_per_s;
}

// Plunger and disc as one, before the studs.
RelayMechanism ride(const RelayParameters& relay, const RelayMechanism& before, double pull_N, double dt_s) {
  const double return_N = relay.return_spring_N + relay.return_spring_N_per_m * before.plunger.travel_m;
  const SlideForces forces{.push_N = pull_N - return_N,
                           .stiffness_N_per_m = relay.return_spring_N_per_m,
                           .dry_friction_N = relay.plunger_friction_N,
                           .damping_Ns_per_m = relay.plunger_damping_Ns_per_m};
  RelayMechanism after;
  after.plunger = move_slide(before.plunger, forces, relay.plunger_mass_kg + relay.disc_mass_kg, relay.plunger_travel_m,
                             stop_restitution, dt_s);
  after.disc = after.plunger;
  if (after.disc.travel_m >= relay.contact_touch_m) {
    after.disc = {relay.contact_touch_m, rebound(after.plunger.m_per_s)};
  }
  return after;
}

// Plunger against the contact spring, down to a floor that only a welded disc makes.
SlideState press(const RelayParameters& relay, const RelayMechanism& before, double pull_N, double floor_m,
                 double dt_s) {
  const ContactSpring contact = contact_spring(relay, pressed_m(before));
  const double return_N = relay.return_spring_N + relay.return_spring_N_per_m * before.plunger.travel_m;
  const SlideForces forces{.push_N = pull_N - return_N - contact.force_N,
                           .stiffness_N_per_m = relay.return_spring_N_per_m + contact.N_per_m,
                           .dry_friction_N = relay.plunger_friction_N,
                           .damping_Ns_per_m = relay.plunger_damping_Ns_per_m};
  const SlideState from_floor{before.plunger.travel_m - floor_m, before.plunger.m_per_s};
  const SlideState moved =
      move_slide(from_floor, forces, relay.plunger_mass_kg, relay.plunger_travel_m - floor_m, stop_restitution, dt_s);
  return {moved.travel_m + floor_m, moved.m_per_s};
}

// The disc between collar and studs, thrown at the studs by the contact spring.
SlideState fly(const RelayParameters& relay, const RelayMechanism& before, double dt_s) {
  const bool on_studs = before.disc.travel_m >= relay.contact_touch_m && before.disc.m_per_s == 0.0;
  if (on_studs) return before.disc;
  const double faster =
      before.disc.m_per_s + dt_s * contact_spring(relay, pressed_m(before)).force_N / relay.disc_mass_kg;
  const SlideState after{before.disc.travel_m + 0.5 * dt_s * (before.disc.m_per_s + faster), faster};
  return after.travel_m < relay.contact_touch_m ? after : SlideState{relay.contact_touch_m, rebound(faster)};
}

// The collar takes the disc along: one speed for both, momentum kept.
RelayMechanism caught(const RelayParameters& relay, const RelayMechanism& meeting) {
  const double both_kg = relay.plunger_mass_kg + relay.disc_mass_kg;
  const double together =
      (relay.plunger_mass_kg * meeting.plunger.m_per_s + relay.disc_mass_kg * meeting.disc.m_per_s) / both_kg;
  const SlideState one{meeting.plunger.travel_m, together};
  return {one, one};
}

// What the return spring alone would tear goes at once, whatever the coil still pulls: a chattering plunger shakes.
bool weld_tears(const RelayParameters& relay, const SlideState& plunger, double pull_N, double weld_N) {
  if (is_welded(relay)) return false;
  const double return_N = relay.return_spring_N + relay.return_spring_N_per_m * plunger.travel_m;
  if (weld_N < return_N) return true;
  const double hammer_J = 0.5 * relay.plunger_mass_kg * plunger.m_per_s * plunger.m_per_s;
  return (return_N - pull_N) + hammer_J / weld_stretch_m > weld_N;
}

struct Moved {
  RelayMechanism after;
  bool weld_holds;
};

Moved moved(const RelayParameters& relay, const RelayMechanism& before, double pull_N, double weld_N, double dt_s) {
  const bool at_studs = before.disc.travel_m >= relay.contact_touch_m && before.disc.m_per_s == 0.0;
  const bool stuck = at_studs && (is_welded(relay) || weld_N > 0.0);
  const bool rides = before.disc.travel_m >= before.plunger.travel_m;
  if (rides && !stuck) return {ride(relay, before, pull_N, dt_s), false};
  RelayMechanism after{press(relay, before, pull_N, 0.0, dt_s), fly(relay, before, dt_s)};
  if (after.plunger.travel_m > after.disc.travel_m) return {after, false};
  if (!stuck || weld_tears(relay, after.plunger, pull_N, weld_N)) return {caught(relay, after), false};
  after.plunger = press(relay, before, pull_N, relay.contact_touch_m, dt_s);
  return {after, true};
}

}  // namespace

PoleParameters relay_pole(const RelayParameters& relay) {
  return {relay.pole_area_m2, relay.seated_gap_m, 1.6};
}

double relay_gap_m(const RelayParameters& relay, double plunger_m) {
  return relay.plunger_travel_m - plunger_m;
}

double relay_eddy_ohm(const RelayParameters& relay) {
  return eddy_ohm(relay_pole(relay), 0.0, eddy_time_s);
}

RelayMechanism rested_relay(const RelayParameters& relay) {
  const SlideState place{is_welded(relay) ? relay.contact_touch_m : 0.0, 0.0};
  return {place, place};
}

double relay_spring_J(const RelayParameters& relay, const RelayMechanism& mechanism) {
  const double plunger_m = mechanism.plunger.travel_m;
  return plunger_m * (relay.return_spring_N + 0.5 * relay.return_spring_N_per_m * plunger_m) +
         contact_spring(relay, pressed_m(mechanism)).stored_J;
}

double relay_kinetic_J(const RelayParameters& relay, const RelayMechanism& mechanism) {
  return 0.5 * (relay.plunger_mass_kg * mechanism.plunger.m_per_s * mechanism.plunger.m_per_s +
                relay.disc_mass_kg * mechanism.disc.m_per_s * mechanism.disc.m_per_s);
}

RelayMove move_relay(const RelayParameters& relay, const RelayMechanism& before, double pull_N, double weld_N,
                     double dt_s) {
  const Moved move = moved(relay, before, pull_N, weld_N, dt_s);
  const bool stays = same(move.after.plunger, before.plunger) && same(move.after.disc, before.disc);
  if (stays) return {before, 0.0, move.weld_holds};
  // What the pull put in and neither springs nor masses now hold has become heat.
  const double put_in_J = pull_N * (move.after.plunger.travel_m - before.plunger.travel_m);
  const double held_J = relay_spring_J(relay, move.after) - relay_spring_J(relay, before) +
                        relay_kinetic_J(relay, move.after) - relay_kinetic_J(relay, before);
  return {move.after, put_in_J - held_J, move.weld_holds};
}

bool relay_contacts_touch(const RelayParameters& relay, const RelayMechanism& mechanism) {
  return is_welded(relay) || mechanism.disc.travel_m >= relay.contact_touch_m;
}

bool relay_moves(const RelayMechanism& mechanism) {
  return mechanism.plunger.m_per_s != 0.0 || mechanism.disc.m_per_s != 0.0;
}

}  // namespace voltfall
