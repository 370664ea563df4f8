#pragma once

#include "rig/parameters.h"
#include "rig/state.h"

namespace voltfall {

/// Ampere-turns on the movable pole: drive coil and hold-in together.
double movable_ampere_turns(const StarterParameters& starter, double drive_A, double hold_in_A);

/// What the movable pole pulls the shoe with, N, when these ampere-turns have stood long enough for its iron to follow.
double standing_pull_N(const RigParameters& parameters, double ampere_turns, double shoe_travel_m);

/// What the magnet has to overcome at a place of the shoe's way: spring and hinge, N.
double pull_needed_N(const ShoeParameters& shoe, double shoe_travel_m);

/// What the circuit gives the movable pole while the shoe is held home and the key is at start, worked out by a rig:
/// the surge, before the armature has taken its share of the current, and what stands afterwards. It is the surge that
/// starts a shoe. `failed` when the relay does not stay closed.
struct HeldShoe {
  bool failed = true;
  double surge_A = 0.0;             ///< in the drive coil, when the iron's flux is at its highest
  double surge_ampere_turns = 0.0;  ///< that would hold that flux, standing
  double stalled_A = 0.0, stalled_ampere_turns = 0.0;
};
HeldShoe hold_shoe(const RigParameters& parameters, bool headlamps);

/// Where on its way the shoe lacks most, and by how much.
struct PullShortfall {
  double shoe_travel_m = 0.0;
  double needed_N = 0.0, given_N = 0.0;
  double short_by_N() const { return needed_N - given_N; }  ///< 0 or less: it comes home
};
PullShortfall worst_place(const RigParameters& parameters, double ampere_turns);

}  // namespace voltfall
