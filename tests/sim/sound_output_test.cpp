#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "sim/sound_run.h"

// What any output must keep to, whatever the model does: bounds, no thump, no click, the same bits.

namespace voltfall {
namespace {

// An engine cranked for this long: deep tones, in which a leap of the samples would stand out.
SoundRun cranked_for(double for_s) {
  SoundRun run({});
  run.turn_key(KeyPosition::start, for_s);
  return run;
}

// Cut at any of these the samples are somewhere else between their crests.
constexpr std::array cut_at_s{1.0, 1.0124, 1.0236, 1.0372};

// Of one sample to the next: a click is a leap that the sound itself never makes.
double steepest(std::span<const float> samples) {
  double most = 0.0;
  for (std::size_t i = 1; i < samples.size(); ++i) {
    most = std::max(most, std::abs(static_cast<double>(samples[i]) - static_cast<double>(samples[i - 1])));
  }
  return most;
}

double loudest(std::span<const float> samples) {
  float most = 0.0F;
  for (const float sample : samples) most = std::max(most, std::abs(sample));
  return most;
}

void expect_within_bounds(const SoundRun& run, const char* what) {
  SCOPED_TRACE(what);
  ASSERT_FALSE(run.samples.empty());
  EXPECT_TRUE(std::all_of(run.samples.begin(), run.samples.end(), [](float one) { return std::abs(one) <= 1.0F; }));
  EXPECT_GT(loudest(run.samples), 0.2);
  constexpr std::size_t half_second = 24000;
  for (std::size_t first = 0; first + half_second <= run.samples.size(); first += half_second) {
    double sum = 0.0;
    for (std::size_t i = first; i < first + half_second; ++i) sum += run.samples[i];
    // Half a second holds a dozen waves of 25 Hz, the lowest that is let through: what is left over is part of one.
    EXPECT_LT(std::abs(sum / half_second), 0.005);
  }
}

TEST(SoundOutput, KeepsWithinBoundsAndAboutZero) {
  expect_within_bounds(healthy_crank(2.0), "healthy");
  expect_within_bounds(run_on(4.0), "run-on");
  expect_within_bounds(restart_of_a_running_engine(), "restart");
  SoundRun chatter(vehicle_with({{"joints.positive_clamp.added_ohm", 0.05}}));
  chatter.turn_key(KeyPosition::start, 1.5);
  expect_within_bounds(chatter, "chatter");
  SoundRun gap(vehicle_with({{"drive.missing_teeth", 4.0}, {"drive.missing_at_deg", 135.0}}));
  gap.turn_key(KeyPosition::start, 2.0);
  expect_within_bounds(gap, "missing teeth");
}

TEST(SoundOutput, IsSilentBeforeTheKeyIsTurned) {
  SoundRun run({});
  run.turn_key(KeyPosition::off, 0.5);
  ASSERT_GT(run.samples.size(), 10000U);
  EXPECT_EQ(loudest(run.samples), 0.0);
  run.turn_key(KeyPosition::start, 0.5);
  EXPECT_GT(loudest(run.samples), 0.2);
}

std::vector<float> rendered(const RigParameters& parameters, std::size_t block, double speed) {
  SoundRun run(parameters);
  run.block = block;
  run.speed = speed;
  run.turn_key(KeyPosition::off, 0.1);
  run.turn_key(KeyPosition::start, 0.6);
  run.play_out();
  return run.samples;
}

TEST(SoundOutput, IsTheSameBitsInAnyPortions) {
  const RigParameters chattering = vehicle_with({{"joints.positive_clamp.added_ohm", 0.05}});
  for (const RigParameters& parameters : {RigParameters{}, chattering}) {
    for (const double speed : {1.0, 0.3}) {
      const std::vector<float> small = rendered(parameters, 64, speed), large = rendered(parameters, 1000, speed);
      const std::size_t both = std::min(small.size(), large.size());
      ASSERT_GT(static_cast<double>(both), 0.6 * SoundMaker::samples_per_s / speed);
      EXPECT_GT(loudest(small), 0.2);
      EXPECT_TRUE(std::equal(small.begin(), small.begin() + static_cast<long>(both), large.begin()));
    }
  }
}

// What is played after a cut, with the last sample before it.
struct Aftermath {
  std::span<const float> samples;
  double usual_step;  // of the half second before
};

Aftermath aftermath(const SoundRun& run, std::size_t before) {
  const std::span<const float> all(run.samples);
  return {all.subspan(before - 1), steepest(all.first(before).last(24000))};
}

// The filters and the beats to come may make a step a little steeper than half a second has had.
constexpr double leeway = 1.2;

TEST(SoundOutput, FadesWithoutAClickWhereTheModelStops) {
  for (const double cut_s : cut_at_s) {
    SCOPED_TRACE(cut_s);
    SoundRun run = cranked_for(cut_s);
    const std::size_t before = run.samples.size();
    for (int piece = 0; piece < 50; ++piece) run.play();
    const Aftermath after = aftermath(run, before);
    EXPECT_GT(loudest(after.samples.first(960)), 0.05);  // what was in store is still played
    EXPECT_LE(steepest(after.samples), leeway * after.usual_step);
    EXPECT_LT(loudest(after.samples.last(4800)), 1.0e-4);
  }
}

TEST(SoundOutput, LeapsAheadWithoutAClickWhenItLags) {
  for (const double cut_s : cut_at_s) {
    SCOPED_TRACE(cut_s);
    SoundRun run = cranked_for(cut_s);
    const std::size_t before = run.samples.size();
    for (int step = 0; step < 10000; ++step) run.follow_a_step();  // two seconds that nobody asked to hear
    for (int piece = 0; piece < 100; ++piece) run.play();
    const Aftermath after = aftermath(run, before);
    EXPECT_LE(steepest(after.samples), leeway * after.usual_step);
    EXPECT_GT(loudest(after.samples.first(2000)), 0.05);
    EXPECT_LT(loudest(after.samples.subspan(12000)), 1.0e-4);  // within a quarter second all that was kept is played
  }
}

TEST(SoundOutput, LetsGoWithoutAClickWhenAnotherRunBegins) {
  for (const double cut_s : cut_at_s) {
    SCOPED_TRACE(cut_s);
    SoundRun run = cranked_for(cut_s);
    const std::size_t before = run.samples.size();
    run.rig = Rig({});
    run.controls.key = KeyPosition::off;
    for (int piece = 0; piece < 50; ++piece) {
      for (int step = 0; step < 50; ++step) run.follow_a_step();
      run.play();
    }
    const Aftermath after = aftermath(run, before);
    EXPECT_LE(steepest(after.samples), leeway * after.usual_step);
    EXPECT_LT(loudest(after.samples.last(4800)), 1.0e-4);
  }
}

TEST(SoundOutput, FadesAwayWhenTimeNearlyStands) {
  const auto loudest_at = [](double speed) {
    SoundRun run({});
    run.speed = speed;
    run.turn_key(KeyPosition::start, 0.15);  // snap, clunk and the first of the crank
    run.play_out();
    EXPECT_EQ(run.told(RigEventKind::shoe_seated, 0.0, 0.15), 1);
    return loudest(run.samples);
  };
  // A blow of 3 kHz has sunk to 6 Hz, of which a filter of fourth order at 25 Hz leaves a three-hundredth; but the
  // scratch of it goes up to 24 kHz and so to 48 Hz.
  EXPECT_LT(loudest_at(1.0 / 500.0), 0.03 * loudest_at(1.0));
}

// Speed may change from one piece to the next, stand still, or be nonsense.
TEST(SoundOutput, BearsAnySpeed) {
  SoundRun run = cranked_for(1.0);
  for (const double speed : {0.0, 1.0, 0.01, 8.0, -1.0, std::numeric_limits<double>::quiet_NaN(), 1.0e30, 1.0}) {
    std::array<float, 480> piece{};
    for (int step = 0; step < 100; ++step) run.follow_a_step();
    run.maker.render(piece, speed);
    for (const float sample : piece) ASSERT_LE(std::abs(sample), 1.0F) << speed;
  }
}

TEST(SoundOutput, BearsStatesThatAreNoNumbers) {
  SoundRun run = cranked_for(1.0);
  const SoundState good = sound_state_of(run.rig.state(), run.rig.readings(), run.rig.parameters());
  for (double SoundState::*part : {&SoundState::armature_rad, &SoundState::crest_bar, &SoundState::time_s}) {
    for (const double nonsense :
         {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity(), 1.0e300}) {
      SoundState bad = good;
      bad.*part = nonsense;
      run.maker.follow(bad, {});
    }
  }
  const std::size_t before = run.samples.size();
  for (int piece = 0; piece < 20; ++piece) {
    for (int step = 0; step < 50; ++step) run.follow_a_step();
    run.play();
  }
  const std::span<const float> after = std::span(run.samples).subspan(before);
  for (const float sample : after) ASSERT_LE(std::abs(sample), 1.0F);
  EXPECT_GT(loudest(after), 0.05);  // and it goes on
}

}  // namespace
}  // namespace voltfall
