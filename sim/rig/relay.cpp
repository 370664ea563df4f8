#include "rig/relay.h"

#include <algorithm>

namespace voltfall {
namespace {

constexpr double eddy_time_s = 0.015;  // flux of the seated plunger in its solid iron
constexpr double stop_restitution = 0.15;

// The disc settles on its studs over this travel, in which the plunger's collar hands the contact spring's preload over
// to it. Without it a plunger whose pull just balances the springs would have no place to stand.
constexpr double settling_m = 1.0e-4;

// The contact spring, which pushes back once the disc has met the studs.
struct ContactSpring {
  double force_N, N_per_m, stored_J;
};

ContactSpring contact_spring(const RelayParameters& relay, double plunger_m) {
  const double pressed_m = std::max(plunger_m - relay.contact_touch_m, 0.0);
  const double settled_m = std::min(pressed_m, settling_m);
  const double settling_N_per_m = relay.contact_spring_N / settling_m;
  const double after_m = pressed_m - settled_m;
  const bool settling = pressed_m > 0.0 && pressed_m < settling_m;
  return {.force_N = settling_N_per_m * settled_m + relay.contact_spring_N_per_m * pressed_m,
          .N_per_m = (settling ? settling_N_per_m : 0.0) + (pressed_m > 0.0 ? relay.contact_spring_N_per_m : 0.0),
          .stored_J = 0.5 * settling_N_per_m * settled_m * settled_m + relay.contact_spring_N * after_m +
                      0.5 * relay.contact_spring_N_per_m * pressed_m * pressed_m};
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

double plunger_spring_J(const RelayParameters& relay, double plunger_m) {
  return plunger_m * (relay.return_spring_N + 0.5 * relay.return_spring_N_per_m * plunger_m) +
         contact_spring(relay, plunger_m).stored_J;
}

PlungerMove move_plunger(const RelayParameters& relay, const SlideState& before, double pull_N, double dt_s) {
  const ContactSpring contact = contact_spring(relay, before.travel_m);
  const double return_N = relay.return_spring_N + relay.return_spring_N_per_m * before.travel_m;
  const SlideForces forces{.push_N = pull_N - return_N - contact.force_N,
                           .stiffness_N_per_m = relay.return_spring_N_per_m + contact.N_per_m,
                           .dry_friction_N = relay.plunger_friction_N,
                           .damping_Ns_per_m = relay.plunger_damping_Ns_per_m};
  const SlideState after =
      move_slide(before, forces, relay.plunger_mass_kg, relay.plunger_travel_m, stop_restitution, dt_s);
  const double put_in_J = pull_N * (after.travel_m - before.travel_m);
  const double held_J = plunger_spring_J(relay, after.travel_m) - plunger_spring_J(relay, before.travel_m) +
                        0.5 * relay.plunger_mass_kg * (after.m_per_s * after.m_per_s - before.m_per_s * before.m_per_s);
  return {after, put_in_J - held_J};
}

bool relay_contacts_touch(const RelayParameters& relay, double plunger_m) {
  return relay.contact_welded > 0.5 || plunger_m >= relay.contact_touch_m;
}

}  // namespace voltfall
