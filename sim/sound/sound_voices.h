#pragma once

#include "rig/parameters.h"
#include "sound/sound_cues.h"
#include "sound/sound_filters.h"
#include "sound/sound_noise.h"
#include "sound/struck_body.h"

namespace voltfall {

/// Slots of the armature, each with its commutator bar: they make the motor's highest clear tone. From memory:
/// four-pole armatures of this size have some twenty odd, an odd number with a wave winding.
inline constexpr double armature_slots = 23.0;

/// What sounds at one sample. Angles are counted on and on, in turns.
struct SoundMoment {
  double crank_turns = 0.0, armature_turns = 0.0, pinion_turns = 0.0;
  double swell = 0.0;  ///< of the gas, see SoundCues
  SoundLevels levels{};
};

/// Makes samples of the model's own time, `per_s` of its seconds. Every tone is a function of an angle of the model;
/// every knock rings from its own instant on.
class SoundVoices {
 public:
  static constexpr double per_s = 48000.0;

  explicit SoundVoices(const RigParameters& parameters);

  void strike(const SoundStrike& strike);
  double next(const SoundMoment& now);

 private:
  StruckBody* body_of(SoundKind kind);
  double knocks(double noise);
  double whirr(const SoundMoment& now, double level, double noise);
  double beat(const SoundMoment& now, double noise);
  double whine(const SoundMoment& now) const;
  double howl(const SoundMoment& now) const;
  double grind(const SoundMoment& now, double noise);

  double pinion_teeth_, ring_teeth_;
  SoundNoise noise_;
  StruckBody relay_, relay_stop_, shoe_, shoe_stop_, teeth_, engine_;
  SecondOrderFilter brushes_, breath_, low_rasp_, high_rasp_;
};

}  // namespace voltfall
