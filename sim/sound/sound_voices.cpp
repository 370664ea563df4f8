#include "sound/sound_voices.h"

#include <cmath>
#include <numbers>

// Loudness, pitches of struck metal and the mixture of tones are chosen by ear's reckoning and measure nothing;
// trade.md F gives how long snap and clunk last. What turns sounds at the pitch its angle gives.

namespace voltfall {
namespace {

constexpr double silent = 1.0e-6;

// A sine after so many turns. Whole turns are left out, the rest is folded into the quarter turn about 0, and there
// the series to the ninth power is within 4e-6: a hundred decibels down, at a fifth of the library's price.
double tone(double turns) {
  const double part = turns - static_cast<double>(static_cast<long long>(turns));  // within a turn to either side
  const double half = part > 0.5 ? part - 1.0 : (part < -0.5 ? part + 1.0 : part);
  const double quarter = half > 0.25 ? 0.5 - half : (half < -0.25 ? -0.5 - half : half);
  const double x = 2.0 * std::numbers::pi * quarter;
  const double square = x * x;
  return x * (1.0 + square * (-1.0 / 6.0 + square * (1.0 / 120.0 + square * (-1.0 / 5040.0 + square / 362880.0))));
}

}  // namespace

SoundVoices::SoundVoices(const RigParameters& parameters)
    : pinion_teeth_(parameters.drive.pinion_teeth),
      ring_teeth_(parameters.drive.ring_teeth),
      relay_({{1450.0, 0.006, 0.30}, {2600.0, 0.004, 0.28}, {4300.0, 0.0025, 0.20}}, 0.45, 0.0012, per_s),
      relay_stop_({{820.0, 0.007, 0.16}, {1500.0, 0.004, 0.10}}, 0.08, 0.0015, per_s),
      shoe_({{135.0, 0.030, 0.42}, {310.0, 0.020, 0.26}, {720.0, 0.012, 0.14}, {1900.0, 0.005, 0.07}}, 0.20, 0.003,
            per_s),
      shoe_stop_({{190.0, 0.022, 0.22}, {470.0, 0.015, 0.14}, {1100.0, 0.008, 0.07}}, 0.10, 0.003, per_s),
      teeth_({{640.0, 0.020, 0.20}, {1750.0, 0.014, 0.20}, {3100.0, 0.008, 0.16}}, 0.25, 0.003, per_s),
      engine_({{64.0, 0.030, 0.20}, {108.0, 0.022, 0.18}, {195.0, 0.012, 0.10}}, 0.0, 0.001, per_s),
      brushes_(SecondOrderFilter::band(2700.0, 0.8, per_s)),
      breath_(SecondOrderFilter::band(260.0, 0.7, per_s)),
      low_rasp_(SecondOrderFilter::band(1150.0, 3.0, per_s)),
      high_rasp_(SecondOrderFilter::band(2900.0, 2.5, per_s)) {}

StruckBody* SoundVoices::body_of(SoundKind kind) {
  switch (kind) {
    case SoundKind::relay_snap:
      return &relay_;
    case SoundKind::relay_release:
      return &relay_stop_;
    case SoundKind::shoe_clunk:
      return &shoe_;
    case SoundKind::shoe_drop:
      return &shoe_stop_;
    case SoundKind::grind:
      return &teeth_;
    case SoundKind::compression_beat:
      return &engine_;
    default:
      return nullptr;
  }
}

void SoundVoices::strike(const SoundStrike& strike) {
  if (StruckBody* body = body_of(strike.kind)) body->strike(strike.force);
}

double SoundVoices::next(const SoundMoment& now) {
  const double noise = noise_.next();
  double heard = knocks(noise) + beat(now, noise);
  const double whirr_level = level_of(now.levels, SoundKind::whirr);
  if (whirr_level > silent) heard += whirr(now, whirr_level, noise);
  if (level_of(now.levels, SoundKind::whine) > silent) heard += whine(now);
  if (level_of(now.levels, SoundKind::run_on_howl) > silent) heard += howl(now);
  heard += grind(now, noise);
  return heard;
}

double SoundVoices::knocks(double noise) {
  return relay_.next(noise) + relay_stop_.next(noise) + shoe_.next(noise) + shoe_stop_.next(noise) +
         teeth_.next(noise) + engine_.next(noise);
}

// Slots passing under the poles, the shaft's own unbalance, and brushes that hiss louder once a turn.
double SoundVoices::whirr(const SoundMoment& now, double level, double noise) {
  const double slots = tone(armature_slots * now.armature_turns);
  const double shaft = tone(now.armature_turns);
  const double hiss = brushes_.next(noise) * (1.0 + 0.5 * shaft);
  return level * (0.10 * slots + 0.07 * shaft + 0.05 * tone(2.0 * now.armature_turns) + 0.10 * hiss);
}

// A motor that growls with its load: the load swells with every compression, and the growl's pitch sags by itself.
double SoundVoices::beat(const SoundMoment& now, double noise) {
  const double breath = breath_.next(noise);
  const double cranked = level_of(now.levels, SoundKind::compression_beat);
  const double idle = level_of(now.levels, SoundKind::engine_idle);
  const double strain = level_of(now.levels, SoundKind::labouring);
  double heard = 0.0;
  if (cranked > silent) {
    const double turns = now.armature_turns;
    const double growl = 0.35 * tone(turns) + 0.6 * tone(2.0 * turns) + 0.5 * tone(4.0 * turns) +
                         0.25 * tone(8.0 * turns) + 0.15 * tone(12.0 * turns);
    // Pressed hard, the growl goes rough: odd overtones.
    const double strained = std::tanh(2.5 * (tone(4.0 * turns) + 0.5 * tone(6.0 * turns)));
    const double swell = std::min(1.0, cranked) * now.swell;
    heard = swell * (0.38 * growl + 0.22 * breath) + strain * (0.05 + 0.45 * now.swell) * strained;
  }
  if (idle > silent) heard += idle * 0.25 * (0.3 + now.swell) * breath;
  return heard;
}

// Teeth that meet, as many as the ring has in a turn of the crank; a pinion never runs quite true.
double SoundVoices::whine(const SoundMoment& now) const {
  const double teeth = ring_teeth_ * now.crank_turns;
  const double untrue = 1.0 + 0.15 * tone(now.pinion_turns);
  const double meeting = 0.075 * tone(teeth) + 0.025 * tone(2.0 * teeth) + 0.012 * tone(3.0 * teeth);
  return level_of(now.levels, SoundKind::whine) * untrue * meeting;
}

// The same teeth with the engine driving: loose in their lash, they hammer, and the pinion's run-out sways it all.
double SoundVoices::howl(const SoundMoment& now) const {
  const double teeth = ring_teeth_ * now.crank_turns;
  const double sway = 0.7 + 0.3 * tone(now.pinion_turns);
  const double hammer = 0.16 * tone(teeth) + 0.07 * tone(2.0 * teeth) + 0.08 * tone(0.5 * teeth);
  return level_of(now.levels, SoundKind::run_on_howl) * (sway * hammer + 0.06 * tone(2.0 * now.pinion_turns));
}

// Faces that mill: a rasp that comes and goes with every tooth that slides past another.
double SoundVoices::grind(const SoundMoment& now, double noise) {
  const double level = level_of(now.levels, SoundKind::grind);
  if (level <= silent) return 0.0;
  const double passing = tone(pinion_teeth_ * now.pinion_turns - ring_teeth_ * now.crank_turns);
  const double rasp = 0.9 * low_rasp_.next(noise) + 0.9 * high_rasp_.next(noise);
  return level * ((0.6 + 0.4 * passing) * rasp + 0.12 * passing);
}

}  // namespace voltfall
