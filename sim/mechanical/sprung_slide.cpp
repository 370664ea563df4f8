#include "mechanical/sprung_slide.h"

#include <algorithm>
#include <cmath>

namespace voltfall {
namespace {

constexpr double slowest_rebound_m_per_s = 0.02;

bool stays_put(const SlideState& before, const SlideForces& forces, double travel_m) {
  if (before.m_per_s != 0.0) return false;
  if (before.travel_m <= 0.0) return forces.push_N <= forces.dry_friction_N;
  if (before.travel_m >= travel_m) return forces.push_N >= -forces.dry_friction_N;
  return std::abs(forces.push_N) <= forces.dry_friction_N;
}

}  // namespace

SlideState move_slide(const SlideState& before, const SlideForces& forces, double mass_kg, double travel_m,
                      double restitution, double dt_s) {
  if (stays_put(before, forces, travel_m)) return before;
  const double direction = before.m_per_s != 0.0 ? before.m_per_s : forces.push_N;
  const double friction_N = std::copysign(forces.dry_friction_N, direction);
  const double half_dt_s = 0.5 * dt_s;
  const double resistance = forces.damping_Ns_per_m + forces.stiffness_N_per_m * half_dt_s;
  double mean_m_per_s =
      (mass_kg * before.m_per_s + half_dt_s * (forces.push_N - friction_N)) / (mass_kg + half_dt_s * resistance);
  double after_m_per_s = 2.0 * mean_m_per_s - before.m_per_s;
  const bool friction_stops_it =
      before.m_per_s * after_m_per_s < 0.0 && std::abs(forces.push_N) <= forces.dry_friction_N;
  if (friction_stops_it) {
    after_m_per_s = 0.0;
    mean_m_per_s = 0.5 * before.m_per_s;
  }
  SlideState after{before.travel_m + dt_s * mean_m_per_s, after_m_per_s};
  if (after.travel_m < 0.0 || after.travel_m > travel_m) {
    after.travel_m = std::clamp(after.travel_m, 0.0, travel_m);
    after.m_per_s *= -restitution;
    if (std::abs(after.m_per_s) < slowest_rebound_m_per_s) after.m_per_s = 0.0;
  }
  return after;
}

}  // namespace voltfall
