#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

#include "sim/sound_run.h"

// Pitches and rhythms, found in the samples by Fourier's sum and held against teeth, slots and cylinders times the
// rig's own speeds.

namespace voltfall {
namespace {

using Moment = SoundRun::Moment;

constexpr double per_s = SoundMaker::samples_per_s;

/// A stretch of samples, weighted to fade in and out so that one tone does not smear over all others (Hann's window).
std::vector<double> stretch(const SoundRun& run, double from_s, double to_s) {
  const std::size_t first = run.sample_at(from_s), count = run.sample_at(to_s) - first;
  std::vector<double> cut(count);
  for (std::size_t i = 0; i < count; ++i) {
    const double turn = 2.0 * std::numbers::pi * static_cast<double>(i) / static_cast<double>(count);
    cut[i] = (1.0 - std::cos(turn)) * static_cast<double>(run.samples[first + i]);
  }
  return cut;
}

/// Height of the tone at `Hz` in samples that follow each other `rate_per_s` times a second.
double tone_at(const std::vector<double>& samples, double Hz, double rate_per_s = per_s) {
  const std::complex<double> step = std::polar(1.0, -2.0 * std::numbers::pi * Hz / rate_per_s);
  std::complex<double> sum = 0.0, turned = 1.0;
  for (const double sample : samples) {
    sum += sample * turned;
    turned *= step;
  }
  return 2.0 * std::abs(sum) / static_cast<double>(samples.size());
}

double loudest_Hz(const std::vector<double>& samples, double from_Hz, double to_Hz, double step_Hz,
                  double rate_per_s = per_s) {
  double best_Hz = from_Hz, best = -1.0;
  for (double Hz = from_Hz; Hz <= to_Hz; Hz += step_Hz) {
    const double height = tone_at(samples, Hz, rate_per_s);
    if (height > best) best = height, best_Hz = Hz;
  }
  return best_Hz;
}

// A tone stands at `Hz` and not 7 % to either side, and nothing within a tenth is louder.
void expect_tone(const std::vector<double>& samples, double Hz) {
  const double height = tone_at(samples, Hz);
  EXPECT_GT(height, 10.0 * tone_at(samples, 1.07 * Hz)) << Hz;
  EXPECT_GT(height, 10.0 * tone_at(samples, 0.93 * Hz)) << Hz;
  // A second's window has a lobe of 2 Hz to either side; half a per cent is within it and far from the 7 %.
  EXPECT_NEAR(loudest_Hz(samples, 0.9 * Hz, 1.1 * Hz, 0.5), Hz, 0.005 * Hz);
}

/// Without compression an engine turns evenly, so that its tones stand still.
SoundRun even_crank(double speed) {
  SoundRun run(vehicle_with({{"engine.plugs_out", 1.0}}));
  run.speed = speed;
  run.turn_key(KeyPosition::start, 2.6);
  run.play_out();
  return run;
}

TEST(Whine, HasThePitchOfTheMeetingTeeth) {
  const SoundRun run = even_crank(1.0);
  const double crank_rpm = run.mean_rpm(1.5, 2.5, &Moment::crank_rad_per_s);
  ASSERT_GT(crank_rpm, 150.0);
  const double ring_teeth = run.rig.parameters().drive.ring_teeth;
  expect_tone(stretch(run, 1.5, 2.5), ring_teeth * crank_rpm / 60.0);
}

TEST(Whine, FollowsAnotherRing) {
  SoundRun run(vehicle_with({{"engine.plugs_out", 1.0}, {"drive.ring_teeth", 140.0}}));
  run.turn_key(KeyPosition::start, 2.6);
  run.play_out();
  expect_tone(stretch(run, 1.5, 2.5), 140.0 * run.mean_rpm(1.5, 2.5, &Moment::crank_rad_per_s) / 60.0);
}

// The crank speeds up and slows down with every compression and the whine with it, so that its spectrum is spread out;
// counted along the crank's angle, the rig's and not the sound's, it stands at as many waves a turn as there are teeth.
TEST(Whine, FollowsTheSwayOfAHealthyCrank) {
  const SoundRun run = healthy_crank(2.6);
  const auto along_crank = [&](double waves_per_turn) {
    std::complex<double> sum = 0.0;
    double crank_rad = 0.0;
    for (std::size_t i = 0; i + 1 < run.moments.size() && run.moments[i].time_s < 2.5; ++i) {
      const double step_rad = 0.5 * Rig::step_s * (run.moments[i].crank_rad_per_s + run.moments[i + 1].crank_rad_per_s);
      const std::size_t first = run.sample_at(run.moments[i].time_s), end = run.sample_at(run.moments[i + 1].time_s);
      for (std::size_t j = first; run.moments[i].time_s > 1.0 && j < end; ++j) {
        const double share = static_cast<double>(j - first) / static_cast<double>(end - first);
        sum += std::polar(static_cast<double>(run.samples[j]), waves_per_turn * (crank_rad + share * step_rad));
      }
      crank_rad += step_rad;
    }
    return std::abs(sum);
  };
  const double teeth = run.rig.parameters().drive.ring_teeth;
  EXPECT_GT(along_crank(teeth), 10.0 * along_crank(1.07 * teeth));
  EXPECT_GT(along_crank(teeth), 10.0 * along_crank(0.93 * teeth));
}

TEST(Whirr, HasThePitchOfTheArmaturesSlots) {
  SoundRun run({}, {.kind = Load::free, .supply_V = 12.0});
  run.turn_key(KeyPosition::start, 3.6);
  run.play_out();
  const double motor_rpm = run.mean_rpm(2.5, 3.5, &Moment::armature_rad_per_s);
  ASSERT_GT(motor_rpm, 5000.0);
  expect_tone(stretch(run, 2.5, 3.5), armature_slots * motor_rpm / 60.0);
}

TEST(SlowMotion, HalvesEveryPitch) {
  const SoundRun run = even_crank(0.5);
  const double teeth_Hz =
      run.rig.parameters().drive.ring_teeth * run.mean_rpm(1.5, 2.5, &Moment::crank_rad_per_s) / 60.0;
  const double slots_Hz = armature_slots * run.mean_rpm(1.5, 2.5, &Moment::armature_rad_per_s) / 60.0;
  const std::vector<double> heard = stretch(run, 1.5, 2.5);
  expect_tone(heard, 0.5 * teeth_Hz);
  expect_tone(heard, 0.5 * slots_Hz);
  EXPECT_GT(tone_at(heard, 0.5 * slots_Hz), 10.0 * tone_at(heard, slots_Hz));  // where it stands at full speed
}

// How the loudness comes and goes: the samples' power in pieces of a hundred and fifty to a second of the model's.
constexpr double pieces_per_s = 150.0;
std::vector<double> loudness(const SoundRun& run, double from_s, double to_s) {
  const std::size_t first = run.sample_at(from_s), end = run.sample_at(to_s);
  const auto piece = static_cast<std::size_t>(per_s / pieces_per_s);
  std::vector<double> power;
  for (std::size_t i = first; i + piece <= end; i += piece) {
    double sum = 0.0;
    for (std::size_t j = i; j < i + piece; ++j) sum += std::pow(static_cast<double>(run.samples[j]), 2.0);
    power.push_back(sum / static_cast<double>(piece));
  }
  double mean = 0.0;
  for (const double one : power) mean += one / static_cast<double>(power.size());
  for (std::size_t i = 0; i < power.size(); ++i) {
    const double turn = 2.0 * std::numbers::pi * static_cast<double>(i) / static_cast<double>(power.size());
    power[i] = (power[i] / mean - 1.0) * (1.0 - std::cos(turn));
  }
  return power;
}

// Every second turn of the crank fires every cylinder once: half of them a turn. Two per cent is what the window of
// two seconds and more lets a rate of 10 per second be told to, and far less than one cylinder more or less.
void expect_beat(const SoundRun& run, double from_s, double to_s) {
  const double turns_per_s = run.mean_rpm(from_s, to_s, &Moment::crank_rad_per_s) / 60.0;
  const double beats_per_s = 0.5 * run.rig.parameters().engine.cylinders * turns_per_s * run.speed;
  const std::vector<double> swells = loudness(run, from_s, to_s);
  EXPECT_NEAR(loudest_Hz(swells, 2.0, 30.0, 0.02, pieces_per_s), beats_per_s, 0.02 * beats_per_s);
  EXPECT_GT(tone_at(swells, beats_per_s, pieces_per_s), 0.5);  // and it is what one hears: it swings by half
}

TEST(Beat, OfAnEightComesFourTimesATurn) {
  expect_beat(healthy_crank(3.6), 1.0, 3.5);
}

TEST(Beat, OfASixComesThreeTimesATurn) {
  SoundRun run(vehicle_with({{"engine.cylinders", 6.0}}));
  run.turn_key(KeyPosition::start, 3.6);
  run.play_out();
  expect_beat(run, 1.0, 3.5);
}

TEST(Beat, IsHalfAsFastAtHalfTheSpeed) {
  SoundRun run({});
  run.speed = 0.5;
  run.turn_key(KeyPosition::start, 3.6);
  run.play_out();
  expect_beat(run, 1.0, 3.5);
}

SoundRun labouring_crank() {
  SoundRun run(vehicle_with({{"joints.starter_terminal.added_ohm", 0.022}, {"engine.drag_added_Nm", 20.0}}));
  run.turn_key(KeyPosition::start, 7.2);
  run.play_out();
  return run;
}

TEST(Beat, OfALabouringEngineIsSlow) {
  const SoundRun run = labouring_crank();
  EXPECT_LT(run.mean_rpm(2.0, 7.0, &Moment::crank_rad_per_s), 80.0);
  expect_beat(run, 2.0, 7.0);
}

TEST(Beat, IsNotThereWithoutCompression) {
  const SoundRun run = even_crank(1.0);
  const double turns_per_s = run.mean_rpm(1.0, 2.5, &Moment::crank_rad_per_s) / 60.0;
  EXPECT_LT(tone_at(loudness(run, 1.0, 2.5), 4.0 * turns_per_s, pieces_per_s), 0.2);
}

TEST(Howl, HasThePitchOfTheTeethAtTheEnginesSpeed) {
  const SoundRun run = run_on(4.0);
  const double crank_rpm = run.mean_rpm(3.7, 3.9, &Moment::crank_rad_per_s);
  ASSERT_GT(crank_rpm, 500.0);
  const double teeth_Hz = run.rig.parameters().drive.ring_teeth * crank_rpm / 60.0;
  const std::vector<double> heard = stretch(run, 3.7, 3.9);
  // The window is a fifth of a second, so its lobe is 10 Hz to either side, half a per cent of this pitch.
  EXPECT_NEAR(loudest_Hz(heard, 0.9 * teeth_Hz, 1.05 * teeth_Hz, 1.0), teeth_Hz, 0.005 * teeth_Hz);
}

// Knocks counted as an ear does: a blow, and no other within a hundredth of a second of it.
int knocks_in(const SoundRun& run, double from_s, double to_s) {
  const double loud = 0.4 * run.loudest(from_s, to_s);
  const auto apart = static_cast<std::size_t>(0.012 * per_s / run.speed);
  int knocks = 0;
  std::size_t last = 0;
  for (std::size_t i = run.sample_at(from_s); i < run.sample_at(to_s); ++i) {
    if (std::abs(static_cast<double>(run.samples[i])) < loud) continue;
    if (last == 0 || i - last > apart) ++knocks;
    last = i;
  }
  return knocks;
}

TEST(Chatter, SnapsAsOftenAsTheRelayCloses) {
  std::set<int> counts;
  for (const double added_ohm : {0.045, 0.06, 0.1}) {
    SoundRun run(vehicle_with({{"joints.positive_clamp.added_ohm", added_ohm}}));
    run.turn_key(KeyPosition::start, 1.8);
    run.play_out();
    const int closings = run.told(RigEventKind::relay_closed, 0.5, 1.5);
    EXPECT_GE(closings, 5) << added_ohm;
    EXPECT_EQ(knocks_in(run, 0.5, 1.5), closings) << added_ohm;
    counts.insert(closings);
  }
  EXPECT_GT(counts.size(), 1U);  // no two of them the same by chance
}

// An empty battery brings the shoe home once and has nothing left: snap and clunk, the two fall back, and silence.
TEST(EmptyBattery, ClunksOnce) {
  SoundRun run(vehicle_with({{"battery.charge", 0.0}}));
  run.turn_key(KeyPosition::start, 1.5);
  run.play_out();
  EXPECT_EQ(run.told(RigEventKind::relay_closed, 0.0, 1.5), 1);
  EXPECT_EQ(run.told(RigEventKind::shoe_seated, 0.0, 1.5), 1);
  EXPECT_GT(run.loudest(0.0, 0.2), 0.3);
  EXPECT_EQ(knocks_in(run, 0.0, 0.2), 2);
  EXPECT_LT(run.loudest(1.0, 1.4), 1.0e-3);
}

// The relay closes, the shoe stays where it is for want of current: one snap and nothing else.
TEST(BadMountingFace, OnlySnaps) {
  SoundRun run(vehicle_with({{"joints.mounting_face.added_ohm", 0.05}}));
  run.turn_key(KeyPosition::start, 1.5);
  run.play_out();
  EXPECT_EQ(run.told(RigEventKind::shoe_seated, 0.0, 1.5), 0);
  EXPECT_EQ(knocks_in(run, 0.0, 1.4), 1);
  EXPECT_LT(run.loudest(0.3, 1.4), 1.0e-3);
}

}  // namespace
}  // namespace voltfall
