#pragma once

#include "electrical/pole.h"
#include "mechanical/sprung_slide.h"
#include "rig/parameters.h"

namespace voltfall {

/// The relay's iron and its gap with the plunger this far in.
PoleParameters relay_pole(const RelayParameters& relay);
double relay_gap_m(const RelayParameters& relay, double plunger_m);
double relay_eddy_ohm(const RelayParameters& relay);

/// The plunger and the contact disc it carries: the disc rides against a collar until it meets the studs; then the
/// plunger goes on and presses it by the contact spring. Both travels are counted from the plunger's rest.
struct RelayMechanism {
  SlideState plunger, disc;
};

/// Let go and at rest; with welded contacts the disc, and the plunger with it, stays at the studs.
RelayMechanism rested_relay(const RelayParameters& relay);

/// Energy in the return spring and, where plunger and disc are apart, in the contact spring.
double relay_spring_J(const RelayParameters& relay, const RelayMechanism& mechanism);
double relay_kinetic_J(const RelayParameters& relay, const RelayMechanism& mechanism);

/// One step. The disc bounces on the studs, and a weld holds it there until spring and hammering plunger tear it.
/// @param weld_N what the weld bears; 0 when there is none
struct RelayMove {
  RelayMechanism after;
  double heat_J;    ///< friction, damping, stops and impacts
  bool weld_holds;  ///< the plunger pulled at the welded disc and did not get it off
};
RelayMove move_relay(const RelayParameters& relay, const RelayMechanism& before, double pull_N, double weld_N,
                     double dt_s);

/// The disc stands on the studs (or can't leave them).
bool relay_contacts_touch(const RelayParameters& relay, const RelayMechanism& mechanism);
bool relay_moves(const RelayMechanism& mechanism);

}  // namespace voltfall
