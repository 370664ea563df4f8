#include "mechanical/pole_shoe.h"

namespace voltfall {

double shoe_spring_J(const ShoeParameters& shoe, double travel_m) {
  return travel_m * (shoe.spring_preload_N + 0.5 * shoe.spring_N_per_m * travel_m);
}

double shoe_spring_N(const ShoeParameters& shoe, double travel_m) {
  return shoe.spring_preload_N + shoe.spring_N_per_m * travel_m;
}

ShoeMove move_shoe(const ShoeParameters& shoe, const SlideState& before, double pull_N, double moving_mass_kg,
                   double dt_s) {
  const SlideForces forces{.push_N = pull_N - shoe_spring_N(shoe, before.travel_m),
                           .stiffness_N_per_m = shoe.spring_N_per_m,
                           .dry_friction_N = shoe.hinge_friction_N,
                           .damping_Ns_per_m = shoe.damping_Ns_per_m};
  const SlideState after = move_slide(before, forces, moving_mass_kg, shoe.travel_m, shoe.restitution, dt_s);
  if (after.travel_m == before.travel_m && after.m_per_s == before.m_per_s) return {after, 0.0};
  // What the pull put in and neither spring nor mass now holds has become heat.
  const double put_in_J = pull_N * (after.travel_m - before.travel_m);
  const double held_J = shoe_spring_J(shoe, after.travel_m) - shoe_spring_J(shoe, before.travel_m) +
                        0.5 * moving_mass_kg * (after.m_per_s * after.m_per_s - before.m_per_s * before.m_per_s);
  return {after, put_in_J - held_J};
}

}  // namespace voltfall
