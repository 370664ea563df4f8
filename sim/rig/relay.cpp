#include "rig/relay.h"

#include <algorithm>

namespace voltfall {
namespace {

constexpr double eddy_time_s = 0.015;  // flux of the seated plunger in its solid iron
constexpr double stop_restitution = 0.15;

double spring_N(const RelayParameters& relay, double plunger_m) {
  const double pressed_m = plunger_m - relay.contact_touch_m;
  const double contact_N = pressed_m > 0.0 ? relay.contact_spring_N + relay.contact_spring_N_per_m * pressed_m : 0.0;
  return relay.return_spring_N + relay.return_spring_N_per_m * plunger_m + contact_N;
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
  const double pressed_m = std::max(plunger_m - relay.contact_touch_m, 0.0);
  return plunger_m * (relay.return_spring_N + 0.5 * relay.return_spring_N_per_m * plunger_m) +
         pressed_m * (relay.contact_spring_N + 0.5 * relay.contact_spring_N_per_m * pressed_m);
}

PlungerMove move_plunger(const RelayParameters& relay, const SlideState& before, double pull_N, double dt_s) {
  const bool pressing = before.travel_m > relay.contact_touch_m;
  const SlideForces forces{
      .push_N = pull_N - spring_N(relay, before.travel_m),
      .stiffness_N_per_m = relay.return_spring_N_per_m + (pressing ? relay.contact_spring_N_per_m : 0.0),
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
