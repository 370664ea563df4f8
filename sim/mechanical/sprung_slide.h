#pragma once

namespace voltfall {

/// A mass that slides between two stops: the pole shoe, the relay's plunger.
struct SlideState {
  double travel_m = 0.0;
  double m_per_s = 0.0;
};

/// What acts on it during one step.
struct SlideForces {
  double push_N;             ///< magnet less springs, at the present place, away from rest
  double stiffness_N_per_m;  ///< how the springs' part of it changes with travel
  double dry_friction_N;
  double damping_Ns_per_m;
};

/// One step of  m dv/dt = push - stiffness x - damping v - dry friction  by the implicit midpoint rule, so that springs
/// and mass trade energy without loss; stops at 0 and `travel_m` throw it back with `restitution` of its speed.
SlideState move_slide(const SlideState& before, const SlideForces& forces, double mass_kg, double travel_m,
                      double restitution, double dt_s);

}  // namespace voltfall
