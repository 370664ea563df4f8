#pragma once

#include <optional>
#include <span>
#include <vector>

#include "sound/sound_cues.h"
#include "sound/sound_state.h"
#include "sound/sound_tape.h"
#include "sound/sound_voices.h"
#include "sound/sounds_heard.h"

namespace voltfall {

/// The vehicle's sound, one channel, made from the model's own angles and events and from nothing else.
///     for every step of the model:  follow(sound_state_of(rig.state(), rig.readings(), parameters), events)
///     for every piece of output:    render(samples, speed)
/// Same states, events and portions give the same bits. Not for two threads at once: whoever renders from an audio
/// thread locks.
class SoundMaker {
 public:
  static constexpr double samples_per_s = SoundVoices::per_s;  ///< of the clock's time

  explicit SoundMaker(const RigParameters& parameters);

  /// The model has made a step. A leap in its time (a rest, another run) lets what was to be heard fade out.
  /// @param events of this step
  void follow(const SoundState& now, std::span<const RigEvent> events);

  /// The next samples to be played, each within -1 and 1, while the model's time goes `speed` times as fast as the
  /// clock's. Silence, faded into, where the model has not come far enough. Also lets the time of captions pass:
  /// with the sound off, render all the same.
  void render(std::span<float> samples, double speed);

  /// What is to be heard now, loudest first.
  std::vector<HeardSound> heard() const { return heard_.now(); }

 private:
  SoundMoment moment_after(const SoundState& now) const;
  void write_until(const SoundState& now, const SoundMoment& then);
  void fade_out();

  SoundCues cues_;
  SoundVoices voices_;
  SoundTape tape_;
  SoundsHeard heard_;
  std::optional<SoundState> before_;
  SoundMoment moment_;  // at `before_`
  double next_sample_s_ = 0.0;
};

}  // namespace voltfall
