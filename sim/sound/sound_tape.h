#pragma once

#include <cstddef>
#include <vector>

#include "sound/sound_filters.h"

namespace voltfall {

/// Samples of the model's time wait here to be played, at whatever speed the model goes: slower, and all pitches sink,
/// as on a slowed tape. Playing begins once a little is in store, fades out where nothing is, and leaps ahead, between
/// a fade out and a fade in, when far too much is.
class SoundTape {
 public:
  /// @param per_s samples of a second, of the model's on the tape and of the clock's when played
  explicit SoundTape(double per_s);

  void write(double sample);
  /// The next sample to be heard, within -1 and 1, with the tape going `speed` times as fast as it was written.
  float play(double speed);

 private:
  enum class Reel { waits, plays, leaps };

  double stored() const { return static_cast<double>(written_ - head_) - between_; }
  double cushion(double speed) const;
  void choose(double speed);
  double under_head() const;
  double at(long sample) const { return ring_[static_cast<std::size_t>(sample) % ring_.size()]; }

  double per_s_;
  std::vector<float> ring_;
  long written_ = 0;
  long head_ = 0;         // the sample that is being played,
  double between_ = 0.0;  // and how far on to the next one
  Reel reel_ = Reel::waits;
  double open_ = 0.0;  // 0 faded out, 1 wide open
  double held_ = 0.0;
  SecondOrderFilter rumble_1_, rumble_2_;
};

}  // namespace voltfall
