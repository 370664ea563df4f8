#include "sound/struck_body.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace voltfall {

StruckBody::StruckBody(std::initializer_list<Tone> tones, double scratch_share, double scratch_fades_s,
                       double samples_per_s)
    : tone_count_(std::min(tones.size(), most_tones)),
      scratch_share_(scratch_share),
      scratch_kept_(std::exp(-1.0 / (scratch_fades_s * samples_per_s))) {
  constexpr double silent_after = 16.0;  // fading times: a ten-millionth is left
  double longest_s = scratch_fades_s;
  for (std::size_t i = 0; i < tone_count_; ++i) {
    const Tone& tone = tones.begin()[i];
    const double turn = 2.0 * std::numbers::pi * tone.Hz / samples_per_s;
    const double kept = std::exp(-1.0 / (tone.fades_s * samples_per_s));
    ringing_[i].turn_cos = kept * std::cos(turn);
    ringing_[i].turn_sin = kept * std::sin(turn);
    ringing_[i].share = tone.share;
    longest_s = std::max(longest_s, tone.fades_s);
  }
  rings_for_ = std::lround(silent_after * longest_s * samples_per_s);
}

void StruckBody::strike(double force) {
  for (std::size_t i = 0; i < tone_count_; ++i) ringing_[i].across += force * ringing_[i].share;
  scratch_rising_ += force * scratch_share_;
  rings_on_ = rings_for_;
}

double StruckBody::next(double noise) {
  if (rings_on_ == 0) return 0.0;
  constexpr double rise = 0.1;  // of what has still to come, in one sample: a fifth of a millisecond in all
  const double risen = rise * scratch_rising_;
  scratch_rising_ -= risen;
  scratch_ = scratch_kept_ * scratch_ + risen;
  double heard = scratch_ * noise;
  for (std::size_t i = 0; i < tone_count_; ++i) {
    Ringing& tone = ringing_[i];
    const double across = tone.turn_cos * tone.across - tone.turn_sin * tone.height;
    tone.height = tone.turn_sin * tone.across + tone.turn_cos * tone.height;
    tone.across = across;
    heard += tone.height;
  }
  if (--rings_on_ > 0) return heard;
  for (Ringing& tone : ringing_) tone.across = tone.height = 0.0;
  scratch_ = scratch_rising_ = 0.0;
  return heard;
}

}  // namespace voltfall
