#include "sound/sound_tape.h"

#include <algorithm>
#include <cmath>

namespace voltfall {
namespace {

constexpr double held_s = 6.0;      // of the model's time: more than ever waits at the fastest speed
constexpr double cushion_s = 0.04;  // of the clock's: two pictures and a half at 60 a second
constexpr double longest_s = 0.25;  // of the clock's: a sound that lags further behind its picture is not its sound
constexpr double fade_s = 0.004;
constexpr double least_stored = 24.0;  // samples: two steps of the model, which at slow speed come rarely
constexpr long ahead = 2, behind = 1;  // samples that a place between two is worked out from
constexpr double fastest = 16.0;
constexpr double lowest_Hz = 25.0;  // a smaller loudspeaker only heats up with less

// Straight up to `knee`, then ever flatter towards 1.
double softly_limited(double value) {
  constexpr double knee = 0.7;
  const double size = std::abs(value);
  if (size <= knee) return value;
  return std::copysign(knee + (1.0 - knee) * std::tanh((size - knee) / (1.0 - knee)), value);
}

}  // namespace

SoundTape::SoundTape(double per_s)
    : per_s_(per_s),
      ring_(static_cast<std::size_t>(held_s * per_s)),
      // Two second-order sections with these sharpnesses make one Butterworth filter of fourth order.
      rumble_1_(SecondOrderFilter::above(lowest_Hz, 0.5412, per_s)),
      rumble_2_(SecondOrderFilter::above(lowest_Hz, 1.3066, per_s)) {}

void SoundTape::write(double sample) {
  ring_[static_cast<std::size_t>(written_) % ring_.size()] = static_cast<float>(sample);
  ++written_;
  // Nobody plays: what is overwritten can't be played any more. Whoever does leaps ahead long before.
  const long oldest = written_ - static_cast<long>(ring_.size()) + behind;
  if (head_ < oldest) head_ = oldest;
}

double SoundTape::cushion(double speed) const {
  return std::max(cushion_s * per_s_ * speed, least_stored);
}

float SoundTape::play(double speed) {
  speed = std::isfinite(speed) ? std::clamp(speed, 0.0, fastest) : 0.0;
  choose(speed);
  const double step = 1.0 / (fade_s * per_s_);
  open_ = reel_ == Reel::plays ? std::min(1.0, open_ + step) : std::max(0.0, open_ - step);
  if (reel_ != Reel::waits) {
    held_ = under_head();
    between_ += speed;
    const double whole = std::floor(between_);
    head_ += static_cast<long>(whole);
    between_ -= whole;
  }
  const double heard = rumble_2_.next(rumble_1_.next(open_ * held_));
  return static_cast<float>(softly_limited(heard));
}

void SoundTape::choose(double speed) {
  const bool runs_dry = speed <= 0.0 || stored() < static_cast<double>(ahead) + speed;
  if (reel_ == Reel::waits) {
    if (!runs_dry && stored() >= cushion(speed)) reel_ = Reel::plays;
    return;
  }
  if (runs_dry) {
    reel_ = Reel::waits;
    return;
  }
  const double longest = std::max(longest_s * per_s_ * speed, 4.0 * least_stored);
  if (reel_ == Reel::plays && stored() > longest + cushion(speed)) reel_ = Reel::leaps;
  if (reel_ == Reel::leaps && open_ == 0.0) {
    head_ = written_ - std::lround(cushion(speed)) - ahead;
    between_ = 0.0;
    reel_ = Reel::plays;
  }
}

// A cubic through the two samples about the head with the slopes that their neighbours give (Catmull and Rom, 1974);
// on a sample it is that sample.
double SoundTape::under_head() const {
  if (between_ == 0.0) return at(head_);
  const double before = head_ > 0 ? at(head_ - behind) : 0.0;
  const double here = at(head_), next = at(head_ + 1), beyond = at(head_ + ahead);
  const double slope_here = 0.5 * (next - before), slope_next = 0.5 * (beyond - here);
  const double rise = next - here;
  const double t = between_;
  return here + t * (slope_here +
                     t * (3.0 * rise - 2.0 * slope_here - slope_next + t * (slope_here + slope_next - 2.0 * rise)));
}

}  // namespace voltfall
