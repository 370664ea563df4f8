#pragma once

#include "electrical/pole.h"
#include "mechanical/sprung_slide.h"
#include "rig/parameters.h"

namespace voltfall {

/// The relay's iron and its gap with the plunger this far in.
PoleParameters relay_pole(const RelayParameters& relay);
double relay_gap_m(const RelayParameters& relay, double plunger_m);
double relay_eddy_ohm(const RelayParameters& relay);

/// Energy in the return spring and, past the touch, in the contact spring.
double plunger_spring_J(const RelayParameters& relay, double plunger_m);

struct PlungerMove {
  SlideState after;
  double heat_J;
};
PlungerMove move_plunger(const RelayParameters& relay, const SlideState& before, double pull_N, double dt_s);

/// The disc stands on the studs (or can't leave them).
bool relay_contacts_touch(const RelayParameters& relay, double plunger_m);

}  // namespace voltfall
