#pragma once

#include <cstddef>
#include <deque>
#include <optional>
#include <span>
#include <string_view>

#include "rig/controls.h"
#include "rig/readings.h"

namespace voltfall {

/// What one turn of the key to start sounded and looked like so far.
struct CrankSeen {
  double held_s = 0.0;                     ///< key at start
  int relay_closings = 0;                  ///< bounce left out
  double closings_per_s = 0.0;             ///< highest over any second
  double crank_rpm = 0.0;                  ///< highest half-second mean
  double motor_rpm = 0.0;                  ///< highest half-second mean
  double peak_loop_A = 0.0;                ///< highest 50 ms mean
  double hottest_C = 0.0;                  ///< hottest joint or winding
  bool shoe_moved = false;                 ///< a clunk could be heard at the starter
  bool shoe_seated = false;                ///< at any time
  int shoe_drops = 0;                      ///< fell out again with the key held
  double uneven = 1.0;                     ///< longest over shortest of the latest eight beats at an even pace
  int teeth_struck = 0;                    ///< times the pinion ran over a gap in the ring and was struck
  double lowest_rpm = 0.0;                 ///< below 0 when the engine kicked back
  bool stopped_dead = false;               ///< the engine turned, stopped, and has not turned since
  bool engine_fired = false;               ///< at least one cylinder did
  bool engine_started = false;             ///< it fired and ran by itself
  bool ran_on = false;                     ///< the starter went on with the key released
  bool in_gear = false;                    ///< lever in a gear and the clutch pedal up
  bool stayed_in_mesh = false;             ///< the pinion was still in the ring well after the starter had gone off
  std::optional<double> seated_at_s;       ///< the shoe came home so long after the key
  bool headlamps = false;                  ///< on for the whole of it
  double lamp_V = 0.0;                     ///< mean lamp feed over the last third of a second with the key held
  CrankState state = CrankState::at_rest;  ///< over the last half second with the key held
};

/// An observation a learner can note about the latest crank, and what the session must have seen for it to be true.
/// Neighbours overlap a little: near a boundary either word is fair.
struct Observation {
  std::string_view id;
  bool (*holds)(const CrankSeen& seen);
};

/// Every one there is: the sounds and looks of trade practice, in the order a learner would sort them.
std::span<const Observation> all_observations();

/// Null when there is none of that name.
const Observation* observation_named(std::string_view id);

/// How burning headlamps look at a feed of `lamp_V` volts.
LampLook lamp_look_at(double lamp_V);

/// Listens to the vehicle: worked out from the last second of steps, in blocks of 50 ms.
class CrankWatch {
 public:
  void watch(const Readings& readings, std::span<const RigEvent> events, const Controls& controls, double dt_s);

  CrankState state() const { return state_; }
  double closings_per_s() const { return static_cast<double>(closings_s_.size()); }
  double lamp_V() const;
  const std::optional<CrankSeen>& last_crank() const { return crank_; }
  /// Seconds the key has now been held with a starter that draws heavy current and does not turn the engine.
  double stalled_s() const { return stalled_s_; }

 private:
  struct Block {
    double crank_rpm = 0.0, motor_rpm = 0.0, loop_A = 0.0, lamp_V = 0.0;
    double relay_closed = 0.0;                 ///< share of the time
    bool shoe_seated = false, meshed = false;  ///< at its end
  };
  struct Beat {
    double length_s;
    int interval;
  };
  void notice_key(const Controls& controls);
  void hear(const RigEvent& event);
  void hear_beat(const RigEvent& event);
  void fill(const Readings& readings, double dt_s);
  void finish_block(const Readings& readings, const Controls& controls);
  void follow_crank(const Block& recent, const Controls& controls);
  void look_for_pinion(const Readings& readings);
  Block mean_of_last(std::size_t blocks) const;
  CrankState judge(const Block& recent) const;

  std::deque<Block> blocks_;  ///< the latest second of this key position, oldest first
  Block filling_;
  double filled_s_ = 0.0, now_s_ = 0.0;
  double let_go_at_s_ = 0.0;       ///< the starter's feed was last seen on
  std::deque<double> closings_s_;  ///< times within the last second
  std::deque<Beat> beats_;         ///< the latest, oldest first
  double last_beat_s_ = 0.0;
  bool starting_ = false;
  double stalled_s_ = 0.0;
  CrankState state_ = CrankState::at_rest;
  std::optional<CrankSeen> crank_;
};

}  // namespace voltfall
