#include "sweep/sweep.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/tolerance.h"

namespace voltfall {
namespace {

Knob knob(std::string_view path, double from, double to, bool by_ratio = false) {
  return {settable_at(path), from, to, by_ratio};
}

bool engages_with(const SweepSubject& subject, const Knob& turned, double value) {
  SweepProgress progress;
  return crank_at(subject, *turned.settable, {value}, progress).front().engaged;
}

TEST(Knob, GoesByStepsOrByRatios) {
  const Knob charge = knob("battery.charge", 1.0, 0.2);
  EXPECT_DOUBLE_EQ(charge.at(0.25), 0.8);
  const Knob joint = knob("joints.positive_clamp.added_ohm", 1.0e-4, 1.0, true);
  EXPECT_NEAR(joint.at(0.5), 0.01, rounding(0.01));
  EXPECT_EQ(joint.at(1.0), 1.0);  // the ends are met to the last bit
}

TEST(Sweep, GivesWhatASingleCrankOfThatVehicleGives) {
  const SweepSubject subject;
  const Knob cold = knob("ambient_C", 20.0, -20.0);
  SweepProgress progress;
  const std::vector<SweepCrank> swept = sweep(subject, cold, 3, progress);
  ASSERT_EQ(swept.size(), 3U);
  EXPECT_EQ(progress.cranks_done, 3);
  RigParameters freezing = subject.parameters;
  freezing.ambient_C = 0.0;
  const CrankResult single = run_crank(freezing, subject.rest, LoadParameters{}, {.for_s = subject.key_s});
  EXPECT_EQ(swept[1].value, 0.0);
  EXPECT_EQ(swept[1].crank_rpm, single.settled.crank_rpm.mean);  // the same run, so the same bits
  EXPECT_EQ(swept[1].loop_A, single.settled.loop_A.mean);
  EXPECT_EQ(swept[1].engaged_at_s, single.engaged_at_s);
  EXPECT_GT(swept[0].crank_rpm, swept[1].crank_rpm);  // cold oil and a cold battery
  EXPECT_GT(swept[1].crank_rpm, swept[2].crank_rpm);
}

TEST(Sweep, SaysWhyThereIsNoSuchVehicle) {
  const SweepSubject subject;
  SweepProgress progress;
  const double stroke_m = subject.parameters.relay.plunger_travel_m;
  const auto cranks = crank_at(subject, *settable_at("relay.contact_touch_m"), {0.5 * stroke_m, stroke_m}, progress);
  ASSERT_EQ(cranks.size(), 2U);
  EXPECT_TRUE(cranks[0].refused.empty()) << cranks[0].refused;
  EXPECT_NE(cranks[1].refused.find("allowed"), std::string::npos) << cranks[1].refused;
}

TEST(Sweep, StopsWhenCancelled) {
  SweepProgress progress;
  progress.cancelled = true;
  EXPECT_TRUE(sweep({}, knob("battery.charge", 0.1, 1.0), 20, progress).empty());
  EXPECT_EQ(progress.cranks_done, 0);
  EXPECT_TRUE(map_engagement({}, knob("battery.charge", 0.1, 1.0), 4, knob("ambient_C", -20.0, 20.0), 4, progress)
                  .cells.empty());
}

// What the self-learner comes for: volts fall, the pull no longer beats the spring, the starter is not to blame.
TEST(Threshold, OfAFallingChargeIsWithinAHundredth) {
  const SweepSubject subject;
  const Knob charge = knob("battery.charge", 0.02, 1.0);
  SweepProgress progress;
  const std::vector<SweepCrank> swept = sweep(subject, charge, 12, progress);
  ASSERT_FALSE(swept.front().engaged);
  ASSERT_TRUE(swept.back().engaged);
  const std::vector<Threshold> thresholds = thresholds_in(swept, subject, charge, progress);
  ASSERT_FALSE(thresholds.empty());
  for (const Threshold& threshold : thresholds) {
    EXPECT_LE(std::abs(threshold.engages_at - threshold.fails_at),
              0.01 * std::max(threshold.engages_at, threshold.fails_at));
    EXPECT_TRUE(engages_with(subject, charge, threshold.engages_at));
    EXPECT_FALSE(engages_with(subject, charge, threshold.fails_at));
  }
}

TEST(Threshold, OfAJointComesSoonerWithATiredBattery) {
  const Knob joint = knob("joints.mounting_face.added_ohm", 1.0e-3, 1.0, true);
  double fails_at = 0.0;
  for (const double health : {1.0, 0.4}) {
    SweepSubject subject;
    subject.parameters.battery.health = health;
    SweepProgress progress;
    const auto thresholds = thresholds_in(sweep(subject, joint, 10, progress), subject, joint, progress);
    ASSERT_FALSE(thresholds.empty()) << health;
    if (fails_at > 0.0) {
      EXPECT_LT(thresholds.front().fails_at, fails_at);
    }
    fails_at = thresholds.front().fails_at;
  }
}

TEST(Threshold, IsNoneWhereEveryCrankEngages) {
  const SweepSubject subject;
  const Knob warm = knob("ambient_C", 15.0, 35.0);
  SweepProgress progress;
  EXPECT_TRUE(thresholds_in(sweep(subject, warm, 4, progress), subject, warm, progress).empty());
}

TEST(EngagementMap, EachCellIsThatVehiclesCrank) {
  const SweepSubject subject;
  const Knob charge = knob("battery.charge", 0.05, 1.0), cold = knob("ambient_C", -20.0, 20.0);
  SweepProgress progress;
  const EngagementMap map = map_engagement(subject, charge, 3, cold, 2, progress);
  ASSERT_EQ(map.cells.size(), 6U);
  EXPECT_EQ(progress.cranks_done, 6);
  SweepSubject warm = subject;
  warm.parameters.ambient_C = 20.0;
  const std::vector<SweepCrank> row = sweep(warm, charge, 3, progress);
  for (int column = 0; column < 3; ++column) {
    const SweepCrank& single = row[static_cast<std::size_t>(column)];
    EXPECT_EQ(map.at(column, 1).value, single.value);
    EXPECT_EQ(map.at(column, 1).loop_A, single.loop_A);
    EXPECT_EQ(map.at(column, 1).engaged, single.engaged);
  }
  EXPECT_TRUE(map.at(2, 1).engaged);
  EXPECT_FALSE(map.at(0, 0).engaged);
}

}  // namespace
}  // namespace voltfall
