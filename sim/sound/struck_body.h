#pragma once

#include <array>
#include <cstddef>
#include <initializer_list>

namespace voltfall {

/// A piece of metal that rings when it is struck: a few tones, each dying away at its own pace, and the scratch of the
/// blow itself. Blows add up; each begins at 0, so that none of them clicks.
class StruckBody {
 public:
  struct Tone {
    double Hz;
    double fades_s;  ///< to 1/e
    double share;
  };

  StruckBody(std::initializer_list<Tone> tones, double scratch_share, double scratch_fades_s, double samples_per_s);

  void strike(double force);
  /// @param noise white, -1 to 1
  double next(double noise);

 private:
  // A point that turns and draws nearer the middle with every sample; its height is heard.
  struct Ringing {
    double across = 0.0, height = 0.0;
    double turn_cos = 1.0, turn_sin = 0.0;  // of one sample, times how much of it is left after it
    double share = 0.0;
  };

  static constexpr std::size_t most_tones = 4;
  std::array<Ringing, most_tones> ringing_{};
  std::size_t tone_count_ = 0;
  double scratch_ = 0.0, scratch_rising_ = 0.0, scratch_share_, scratch_kept_;
  long rings_on_ = 0, rings_for_ = 0;  // samples
};

}  // namespace voltfall
