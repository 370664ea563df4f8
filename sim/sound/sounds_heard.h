#pragma once

#include <array>
#include <vector>

#include "sound/sound_cues.h"

namespace voltfall {

/// One line of a caption.
struct HeardSound {
  SoundKind kind;
  double level;        ///< 0 to about 1
  double per_s = 0.0;  ///< chatter only: closings in a second of the model's time
};

/// What a caption says is to be heard now. A knock is over before anyone could read of it, so it stands for a while.
class SoundsHeard {
 public:
  static constexpr double stands_s = 0.7;  ///< of the clock's time
  static constexpr double from_level = 0.1;

  void follow(const SoundCues& cues);
  void let_pass(double clock_s);
  /// Loudest first.
  std::vector<HeardSound> now() const;

 private:
  struct Standing {
    double level = 0.0, left_s = 0.0;
  };

  void let_stand(SoundKind kind, double level);

  SoundLevels levels_{};
  std::array<Standing, sound_kind_count> standing_{};
  double closings_per_s_ = 0.0;
};

}  // namespace voltfall
