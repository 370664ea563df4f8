#pragma once

#include "rig/parameters.h"
#include "rig/readings.h"
#include "rig/state.h"

namespace voltfall {

/// What of the vehicle is heard, at one instant of the model's time.
struct SoundState {
  double time_s = 0.0;
  double crank_rad = 0.0;  ///< of the 4 pi cycle
  double crank_rad_per_s = 0.0;
  double armature_rad = 0.0;  ///< of one turn
  double armature_rad_per_s = 0.0;
  double pinion_rad = 0.0;  ///< of one turn
  double pinion_rad_per_s = 0.0;
  double plunger_travel = 0.0;  ///< the relay's, of its whole travel
  double shoe_travel = 0.0;     ///< of its whole travel
  double shoe_m_per_s = 0.0;
  bool meshed = false;
  double teeth_slid_per_s = 0.0;  ///< of pinion over ring where their faces reach each other unmeshed; else 0
  double crest_bar = 0.0;         ///< pressure above the air's in the cylinder that has most
  double motor_A = 0.0;           ///< in the armature
  double shaft_Nm = 0.0;          ///< at the pinion, driving positive
};

SoundState sound_state_of(const RigState& state, const Readings& readings, const RigParameters& parameters);

/// Every part is a number, and none beyond anything that a vehicle comes to.
bool is_believable(const SoundState& state);

}  // namespace voltfall
