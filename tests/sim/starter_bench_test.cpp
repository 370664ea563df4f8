#include "instruments/starter_bench.h"

#include <gtest/gtest.h>

#include "support/cranks.h"

namespace voltfall {
namespace {

BenchResult bench(BenchTest test, std::initializer_list<Setting> settings) {
  return bench_result(test, vehicle_with(settings));
}

// trade.md 0.2: about 70-80 A, several thousand rpm (from memory there).
TEST(StarterBench, ASoundStarterRunsFreeAtItsFigures) {
  const BenchResult free = bench(BenchTest::no_load, {});
  EXPECT_GE(free.shown.value, 60.0);
  EXPECT_LE(free.shown.value, 80.0);
  EXPECT_GT(free.also_shown.value, 5000.0);
  EXPECT_EQ(free.also_shown.unit, "rpm");
}

// trade.md B step 13, bench table: low rpm and high A is friction; high rpm and high A a shorted field.
TEST(StarterBench, TellsFrictionFromAShortedField) {
  const BenchResult sound = bench(BenchTest::no_load, {});
  const BenchResult drags = bench(BenchTest::no_load, {{"starter.drag_added_Nm", 2.5}});
  EXPECT_GT(drags.shown.value, 1.3 * sound.shown.value);
  EXPECT_LT(drags.also_shown.value, 0.8 * sound.also_shown.value);
  const BenchResult weak = bench(BenchTest::no_load, {{"starter.flux_fraction", 0.6}});
  EXPECT_GT(weak.shown.value, sound.shown.value);
  EXPECT_GT(weak.also_shown.value, sound.also_shown.value);
}

// trade.md 0.2: 2.0-3.5 ohm with the contacts papered and the brushes lifted.
TEST(StarterBench, TheHoldInCoilMeasuresAsTheManualSaysAndAnOpenOneIsOver) {
  const BenchResult sound = bench(BenchTest::hold_in, {});
  EXPECT_GE(sound.shown.value, 2.0);
  EXPECT_LE(sound.shown.value, 3.5);
  EXPECT_EQ(bench(BenchTest::hold_in, {{"starter.hold_in_ohm", 1.0e7}}).shown.kind, MeterDisplay::Kind::overload);
  EXPECT_LT(bench(BenchTest::hold_in, {{"starter.winding_to_case_ohm", 0.1}}).shown.value, 0.2);
}

// trade.md 0.2: turns free one way, holds 50 lb-ft (68 N·m) the other.
TEST(StarterBench, ASoundClutchHoldsOneWayAndRunsFreeTheOther) {
  const BenchResult sound = bench(BenchTest::clutch_torque, {});
  EXPECT_GE(sound.shown.value, 68.0);
  EXPECT_LT(sound.also_shown.value, 1.0);
  EXPECT_LT(bench(BenchTest::clutch_torque, {{"drive.clutch_slip_Nm", 20.0}}).shown.value, 68.0);
  EXPECT_GT(bench(BenchTest::clutch_torque, {{"drive.clutch_seized", 1.0}}).also_shown.value, 68.0);
}

// trade.md 0.2: new about 11 mm, renew at 1/4 in (6.4 mm).
TEST(StarterBench, BrushesThatSufferAreAtTheirLimitAndHungUpOnesAreLongEnough) {
  EXPECT_NEAR(bench(BenchTest::brush_length, {}).shown.value, 11.0, 0.05);
  EXPECT_LE(bench(BenchTest::brush_length, {{"starter.brush_added_ohm", 0.008}}).shown.value, 6.4);
  EXPECT_LT(bench(BenchTest::brush_length, {{"starter.brush_added_ohm", 0.025}}).shown.value, 6.0);
  EXPECT_GT(bench(BenchTest::brush_length, {{"starter.brush_added_ohm", 1.0e7}}).shown.value, 6.4);
}

}  // namespace
}  // namespace voltfall
