#pragma once

#include "mechanical/sprung_slide.h"

namespace voltfall {

/// Movable pole shoe, its lever and the pinion it throws.
struct ShoeParameters {
  double travel_m = 8.0e-3;
  double mass_kg = 0.35;  ///< shoe and lever, at the shoe
  double spring_preload_N = 76.0;
  double spring_N_per_m = 4000.0;
  double hinge_friction_N = 6.0;
  double damping_Ns_per_m = 8.0;
  double contacts_open_at = 0.93;  ///< of travel
  double restitution = 0.2;        ///< at either stop
};

/// Spring energy above the shoe's rest position, J.
double shoe_spring_J(const ShoeParameters& shoe, double travel_m);

/// Spring force towards rest, N.
double shoe_spring_N(const ShoeParameters& shoe, double travel_m);

/// The shoe at the end of a step with no tooth in its way, and the energy that friction, damping and stops turned to
/// heat.
/// @param moving_mass_kg shoe, lever and the drive it throws, at the shoe
struct ShoeMove {
  SlideState after;
  double heat_J;
};
ShoeMove move_shoe(const ShoeParameters& shoe, const SlideState& before, double pull_N, double moving_mass_kg,
                   double dt_s);

}  // namespace voltfall
