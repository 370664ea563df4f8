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

/// The most the circuit can give the movable pole: coils of a starter whose shoe and armature are held still, with the
/// key at start. Worked out by a rig. `failed` when the relay won't stay closed.
struct StalledPull {
  bool failed = true;
  double drive_A = 0.0, hold_in_A = 0.0;
  double ampere_turns = 0.0;
};
StalledPull stalled_pull(const RigParameters& parameters, bool headlamps);

/// Where on its way the shoe lacks most, and by how much.
struct PullShortfall {
  double shoe_travel_m = 0.0;
  double needed_N = 0.0, given_N = 0.0;
  double short_by_N() const { return needed_N - given_N; }  ///< 0 or less: it comes home
};
PullShortfall worst_place(const RigParameters& parameters, double ampere_turns);

}  // namespace voltfall
