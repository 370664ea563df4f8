#include "sound/sound_maker.h"

#include <cmath>
#include <numbers>

namespace voltfall {
namespace {

constexpr double longest_step_s = 0.02;  // of the model; further on is another story
constexpr double turn_rad = 2.0 * std::numbers::pi;

// Turns made in a step by something of which only the place within `cycle_rad` is told: the number of whole cycles is
// the one that its speed comes nearest to.
double turned(double from_rad, double to_rad, double rad_per_s, double dt_s, double cycle_rad) {
  const double expected_rad = rad_per_s * dt_s;
  return (expected_rad + std::remainder(to_rad - from_rad - expected_rad, cycle_rad)) / turn_rad;
}

SoundMoment between(const SoundMoment& one, const SoundMoment& other, double share) {
  const auto mix = [share](double from, double to) { return from + share * (to - from); };
  SoundMoment mixed{.crank_turns = mix(one.crank_turns, other.crank_turns),
                    .armature_turns = mix(one.armature_turns, other.armature_turns),
                    .pinion_turns = mix(one.pinion_turns, other.pinion_turns),
                    .swell = mix(one.swell, other.swell),
                    .levels = {}};
  for (std::size_t i = 0; i < sound_kind_count; ++i) mixed.levels[i] = mix(one.levels[i], other.levels[i]);
  return mixed;
}

}  // namespace

SoundMaker::SoundMaker(const RigParameters& parameters) : voices_(parameters), tape_(samples_per_s) {}

void SoundMaker::follow(const SoundState& now, std::span<const RigEvent> events) {
  if (!is_believable(now)) return;
  const double dt_s = before_ ? now.time_s - before_->time_s : 0.0;
  if (dt_s <= 0.0 || dt_s > longest_step_s) {
    fade_out();
    before_ = now;
    next_sample_s_ = now.time_s;
    return;
  }
  cues_.follow(*before_, now, events);
  heard_.follow(cues_);
  const SoundMoment then = moment_after(now);
  write_until(now, then);
  before_ = now;
  moment_ = then;
}

SoundMoment SoundMaker::moment_after(const SoundState& now) const {
  const SoundState& before = *before_;
  const double dt_s = now.time_s - before.time_s;
  SoundMoment then = moment_;
  then.crank_turns += turned(before.crank_rad, now.crank_rad, now.crank_rad_per_s, dt_s, 2.0 * turn_rad);
  then.armature_turns += turned(before.armature_rad, now.armature_rad, now.armature_rad_per_s, dt_s, turn_rad);
  then.pinion_turns += turned(before.pinion_rad, now.pinion_rad, now.pinion_rad_per_s, dt_s, turn_rad);
  then.swell = cues_.swell();
  then.levels = cues_.levels();
  return then;
}

void SoundMaker::write_until(const SoundState& now, const SoundMoment& then) {
  const double dt_s = now.time_s - before_->time_s;
  std::span<const SoundStrike> strikes = cues_.strikes();
  while (next_sample_s_ < now.time_s) {
    for (; !strikes.empty() && strikes.front().time_s <= next_sample_s_; strikes = strikes.subspan(1)) {
      voices_.strike(strikes.front());
    }
    tape_.write(voices_.next(between(moment_, then, (next_sample_s_ - before_->time_s) / dt_s)));
    next_sample_s_ += 1.0 / samples_per_s;
  }
  for (const SoundStrike& late : strikes) voices_.strike(late);
}

// What goes on is let go; what rings rings out with it.
void SoundMaker::fade_out() {
  constexpr int fade_samples = 960;
  if (!before_) return;
  cues_.forget();
  const SoundMoment last = moment_;
  SoundMoment silence = last;
  silence.swell = 0.0;
  silence.levels = {};
  for (int i = 0; i < fade_samples; ++i) {
    tape_.write(voices_.next(between(last, silence, static_cast<double>(i) / fade_samples)));
  }
  moment_ = silence;
}

void SoundMaker::render(std::span<float> samples, double speed) {
  for (float& sample : samples) sample = tape_.play(speed);
  heard_.let_pass(static_cast<double>(samples.size()) / samples_per_s);
}

}  // namespace voltfall
