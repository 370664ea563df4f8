#include "sound/sound_state.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace voltfall {
namespace {

// How many of the ring's teeth a tooth of the pinion slides past in a second, where they touch without being in mesh.
double teeth_slid_per_s(const RigState& state, const RigParameters& parameters) {
  constexpr double reach = 0.02;  // of the shoe's travel: the contact world opens a little before the faces meet
  const DriveParameters& drive = parameters.drive;
  const bool faces_reach = state.meshing == Meshing::in_contact_world &&
                           state.shoe.travel_m >= (drive.teeth_meet_at - reach) * parameters.shoe.travel_m;
  if (!faces_reach) return 0.0;
  const double sliding_m_per_s =
      pinion_radius_m(drive) * state.drive_train.pinion_rad_per_s - ring_radius_m(drive) * state.engine.crank_rad_per_s;
  return sliding_m_per_s / drive.circular_pitch_m;
}

double crest_bar(const EngineState& engine) {
  constexpr double air_Pa = 101325.0, Pa_per_bar = 1.0e5;
  const double highest_Pa = *std::max_element(engine.pressure_Pa.begin(), engine.pressure_Pa.end());
  return std::max(0.0, (highest_Pa - air_Pa) / Pa_per_bar);
}

}  // namespace

SoundState sound_state_of(const RigState& state, const Readings& readings, const RigParameters& parameters) {
  return {.time_s = readings.time_s,
          .crank_rad = state.engine.crank_angle_rad,
          .crank_rad_per_s = state.engine.crank_rad_per_s,
          .armature_rad = state.drive_train.armature_rad,
          .armature_rad_per_s = state.drive_train.armature_rad_per_s,
          .pinion_rad = state.drive_train.pinion_rad,
          .pinion_rad_per_s = state.drive_train.pinion_rad_per_s,
          .plunger_travel = state.relay.plunger.travel_m / parameters.relay.plunger_travel_m,
          .shoe_travel = state.shoe.travel_m / parameters.shoe.travel_m,
          .shoe_m_per_s = state.shoe.m_per_s,
          .meshed = readings.meshed,
          .teeth_slid_per_s = teeth_slid_per_s(state, parameters),
          .crest_bar = crest_bar(state.engine),
          .motor_A = state.currents.armature_A,
          .shaft_Nm = readings.shaft_Nm};
}

bool is_believable(const SoundState& state) {
  constexpr double beyond_all = 1.0e9;
  const std::array parts{state.time_s,
                         state.crank_rad,
                         state.crank_rad_per_s,
                         state.armature_rad,
                         state.armature_rad_per_s,
                         state.pinion_rad,
                         state.pinion_rad_per_s,
                         state.plunger_travel,
                         state.shoe_travel,
                         state.shoe_m_per_s,
                         state.teeth_slid_per_s,
                         state.crest_bar,
                         state.motor_A,
                         state.shaft_Nm};
  return std::all_of(parts.begin(), parts.end(), [](double part) { return std::abs(part) < beyond_all; });
}

}  // namespace voltfall
