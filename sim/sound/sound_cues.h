#pragma once

#include <array>
#include <cstddef>
#include <span>

#include "rig/readings.h"
#include "sound/sound_kind.h"
#include "sound/sound_state.h"

namespace voltfall {

/// One knock. Those of kind `compression_beat` are the engine's body struck by a piston that passes its top.
struct SoundStrike {
  double time_s;
  SoundKind kind;
  double force;  ///< 1 is usual
};

/// A knock softer than this is part of the sound around it; nobody would name it.
inline constexpr double named_force = 0.3;

/// What there is to hear, told from states and events: how loud what goes on is, and what has knocked.
class SoundCues {
 public:
  /// Moves on by one step of the model.
  void follow(const SoundState& before, const SoundState& now, std::span<const RigEvent> events);
  /// All fades in anew: what follows has nothing to do with what went before.
  void forget() { *this = {}; }

  /// Knocks within the latest step, oldest first.
  std::span<const SoundStrike> strikes() const { return {strikes_.data(), strike_count_}; }
  /// Of what goes on; knocks have none.
  const SoundLevels& levels() const { return levels_; }
  /// The gas in the engine swells and falls with every compression, 0 to about 1; 0 while nothing turns.
  double swell() const { return swell_; }
  /// While the relay chatters; else 0. Of the model's seconds.
  double closings_per_s() const { return closings_per_s_; }

 private:
  void strike(double time_s, SoundKind kind, double force);
  void hear(const RigEvent& event, const SoundState& before, const SoundState& now);
  void hear_stops(const SoundState& before, const SoundState& now);
  void count_closings(double now_s);
  void judge(const SoundState& now, double dt_s);
  void judge_teeth(const SoundState& now, double dt_s);
  void judge_engine(const SoundState& now, double dt_s);
  void approach(SoundKind kind, double target, double dt_s);
  double& level(SoundKind kind) { return levels_[static_cast<std::size_t>(kind)]; }

  // More than a step can hold, even with teeth that knock in each of its 64 pieces.
  std::array<SoundStrike, 80> strikes_{};
  std::size_t strike_count_ = 0;
  SoundLevels levels_{};
  double swell_ = 0.0, beat_ = 0.0, labour_ = 0.0;
  double usual_rpm_ = 0.0;   // of the crank, over about two beats
  double load_ = 0.0;        // of the teeth
  double teeth_slid_ = 0.0;  // since they last touched
  bool plunger_out_ = false, shoe_out_ = false;
  std::array<double, 32> closings_s_{};  // the latest, in a ring
  std::size_t closing_count_ = 0;
  double closings_per_s_ = 0.0;
};

}  // namespace voltfall
