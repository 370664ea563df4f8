#pragma once

#include <string>

#include "rig/parameters.h"

namespace voltfall {

/// The engaged motor as a netlist for ngspice: battery, cables, closed relay, the starter's paths with a seated shoe,
/// the four poles' iron, and the armature against a constant torque. Written from the same parameters as the model but
/// with none of its code for the solution: every equation stands in the netlist once more, and ngspice picks its own
/// steps.
/// @param torque_Nm at the pinion, against the motor
/// @param for_s simulated time from the closing of the relay; the last second of it is averaged
std::string engaged_motor_deck(const RigParameters& parameters, double torque_Nm, double for_s);

/// What ngspice found: means over the last second.
struct DeckAnswer {
  double loop_A;
  double battery_posts_V;
  double starter_V;
  double motor_rpm;
  double wall_s;  ///< how long ngspice took, start to end
};

/// Runs `ngspice -b` on a deck. Throws std::runtime_error, saying what to do, if ngspice is missing, fails or leaves a
/// figure out.
DeckAnswer run_ngspice(const std::string& deck);

}  // namespace voltfall
