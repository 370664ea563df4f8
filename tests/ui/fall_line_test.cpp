#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <map>

#include "desktop/fall_line/fall_line_model.h"
#include "faults/limit_keys.h"

namespace voltfall {
namespace {

using P = TestPoint;

// Sums of readings with two decimals: only binary rounding can differ.
constexpr double rounding_V = 1e-9;

MeterDisplay volts(double value) {
  return {MeterDisplay::Kind::value, value, 2, "V"};
}

Finding reading(int red, int black, double shown_V, double loop_A, ElectricalState state = ElectricalState::cranking) {
  Finding finding{};
  finding.number = 1;
  finding.state = state;
  finding.loop_A = loop_A;
  finding.red = test_point_numbered(red);
  finding.black = test_point_numbered(black);
  finding.shown = volts(shown_V);
  return finding;
}

// What a manual of our invention prints: drops for a crank of 150 to 250 A.
std::map<std::string, Limit> limits() {
  Limit joint, cable, relay, ground;
  joint.highest = 0.1;
  cable.highest = 0.2;
  relay.highest = 0.3;
  ground.highest = 0.2;
  for (Limit* limit : {&joint, &cable, &relay, &ground}) limit->from_A = 150.0, limit->to_A = 250.0;
  return {
      {"post_to_clamp", joint}, {"joint", joint}, {"cable", cable}, {"relay_contact", relay}, {"ground_side", ground}};
}

FallLine power_line(const std::vector<Finding>& findings) {
  const auto sets = fall_sets(findings);
  return fall_line(FallPath::power, sets.at(0), findings, limits());
}

TEST(FallSets, NeedOneStateAndCurrentsWithinTenPercent) {
  auto lamps_on = reading(1, 13, 11.0, 194.0);
  lamps_on.headlamps = true;
  auto mended = reading(1, 13, 11.0, 194.0);
  mended.after_repair = true;
  const std::vector<Finding> findings{reading(1, 13, 11.30, 194.0),
                                      reading(1, 2, 0.02, 180.0),  // 180 is 7 % below 194
                                      reading(2, 3, 0.04, 170.0),  // 12 % below 194: apart
                                      reading(1, 13, 12.60, 0.0, ElectricalState::at_rest),
                                      lamps_on,
                                      mended};
  const auto sets = fall_sets(findings);
  ASSERT_EQ(sets.size(), 5u);
  EXPECT_EQ(sets[0].members, (std::vector<std::size_t>{0, 1}));
  EXPECT_EQ(sets[1].members, (std::vector<std::size_t>{2}));
}

TEST(FallSets, TakeNeighbouringStepsOfTheClampAsOneCurrent) {
  // 0.1 A is all the clamp can tell apart; 10 % of it would split noise.
  const std::vector<Finding> findings{reading(1, 13, 12.6, 0.0), reading(1, 2, 0.0, 0.1), reading(1, 3, 0.0, 0.3)};
  EXPECT_EQ(fall_sets(findings).size(), 2u);
}

TEST(FallSets, LeaveOutOhmsOverloadsAndObservations) {
  auto ohms = reading(1, 2, 0.3, 0.0);
  ohms.kind = Finding::Kind::ohms;
  auto overload = reading(1, 2, 0.0, 0.0);
  overload.shown.kind = MeterDisplay::Kind::overload;
  Finding heard{};
  heard.kind = Finding::Kind::heard_or_seen;
  EXPECT_TRUE(fall_sets(std::vector{ohms, overload, heard}).empty());
}

TEST(FallLine, AddsUpNeighbouringReadings) {
  // By hand: 11.30 at the posts; 0.02 + 0.05 off the top leaves clamp 11.28 and lug 11.23. Two of 11.30 V is 0.07 V.
  const auto line = power_line({reading(1, 13, 11.30, 194.0), reading(1, 2, 0.02, 194.0), reading(2, 3, 0.05, 194.0)});
  EXPECT_NEAR(line.level_V[1].value(), 11.28, rounding_V);
  EXPECT_NEAR(line.level_V[2].value(), 11.23, rounding_V);
  EXPECT_FALSE(line.level_V[3]);
  EXPECT_NEAR(line.accounted_V, 0.07, rounding_V);
  EXPECT_EQ(foot_text(line), "0.07 of 11.30 V accounted for, 11.23 V not yet measured");
}

TEST(FallLine, FindsALegFromTheReadingsRoundIt) {
  // 1 to 4 is 0.10 V and 1 to 3 is 0.06 V, so 3 to 4 lost 0.04 V though nobody measured it alone.
  const auto line = power_line({reading(1, 4, 0.10, 194.0), reading(1, 3, 0.06, 194.0)});
  ASSERT_EQ(line.bars.size(), 2u);
  EXPECT_EQ(line.bars[0].first, 0u);
  EXPECT_EQ(line.bars[0].last, 1u);
  EXPECT_EQ(line.bars[1].first, 2u);
  EXPECT_NEAR(line.bars[1].drop_V, 0.04, rounding_V);
}

TEST(FallLine, TurnsAReversedReadingRound) {
  const auto line = power_line({reading(2, 1, -0.50, 194.0)});
  ASSERT_EQ(line.bars.size(), 1u);
  EXPECT_NEAR(line.bars[0].drop_V, 0.50, rounding_V);
}

TEST(FallLine, ReadsLevelsAgainstTheNegativePost) {
  const auto line =
      power_line({reading(1, 13, 11.30, 194.0), reading(8, 13, 10.90, 194.0), reading(9, 13, 0.12, 194.0)});
  EXPECT_NEAR(line.level_V[7].value(), 10.90, rounding_V);
  // 1-8 and 9-13 hold no load and count; the motor's own 10.78 V is the step between: all of 11.30 V.
  EXPECT_EQ(foot_text(line), "11.30 of 11.30 V accounted for, 0.00 V not yet measured");
}

TEST(FallLine, DoesNotCountAStretchThatMixesMotorAndLosses) {
  // 8 to 13 is motor and ground side in one: 10.90 V that no one has told apart.
  const auto line = power_line({reading(1, 13, 11.30, 194.0), reading(8, 13, 10.90, 194.0)});
  EXPECT_EQ(foot_text(line), "0.40 of 11.30 V accounted for, 10.90 V not yet measured");
}

TEST(FallLine, CountsADropWhoseEndsAreNotTiedToThePosts) {
  const auto line = power_line({reading(1, 13, 11.30, 194.0), reading(8, 9, 10.70, 194.0)});
  EXPECT_FALSE(line.level_V[7]);
  EXPECT_EQ(foot_text(line), "10.70 of 11.30 V accounted for, 0.60 V not yet measured");
}

TEST(FallLine, TrustsTheShortReadingOverTheDifferenceOfTwoLongOnes) {
  const auto line =
      power_line({reading(1, 13, 11.30, 194.0), reading(2, 13, 11.27, 194.0), reading(1, 2, 0.02, 194.0)});
  EXPECT_NEAR(line.bars.front().drop_V, 0.02, rounding_V);
}

TEST(FallLine, KeepsTheTotalAsReadWhenTheSumOfTheLegsStraysFromIt) {
  // Taken at other moments of the crank the legs make 11.22 V; the posts were read at 11.30 V.
  const auto line = power_line({reading(1, 8, 0.40, 194.0), reading(8, 9, 10.70, 194.0), reading(9, 13, 0.12, 194.0),
                                reading(1, 13, 11.30, 194.0)});
  EXPECT_EQ(foot_text(line), "11.22 of 11.30 V accounted for, 0.08 V not yet measured");
}

TEST(FallLine, TakesTheLatestOfTwoEqualReadings) {
  const auto line = power_line({reading(1, 2, 0.02, 194.0), reading(1, 2, 0.03, 192.0)});
  EXPECT_NEAR(line.bars.front().drop_V, 0.03, rounding_V);
  EXPECT_NEAR(line.bars.front().loop_A, 192.0, rounding_V);
}

TEST(FallLine, GivesEachLegItsLimitAndSaysWhetherItApplies) {
  const auto cranking = power_line({reading(4, 5, 0.10, 194.0)});
  ASSERT_TRUE(cranking.bars.front().limit);
  EXPECT_DOUBLE_EQ(cranking.bars.front().limit->highest, 0.3);
  EXPECT_TRUE(cranking.bars.front().limit_applies);
  const auto idle = power_line({reading(1, 2, 0.00, 2.0)});
  EXPECT_FALSE(idle.bars.front().limit_applies);
  EXPECT_EQ(out_of_range_text(idle.bars.front().loop_A), "limit does not apply at 2 A");
}

TEST(FallLine, HoldsALongStretchToTheManualsOwnFigureForIt) {
  const auto line = power_line({reading(9, 13, 0.12, 194.0), reading(2, 4, 0.05, 194.0)});
  ASSERT_EQ(line.bars.size(), 2u);
  EXPECT_FALSE(line.bars[0].limit) << "no manual has a figure for 2 to 4";
  ASSERT_TRUE(line.bars[1].limit);
  EXPECT_DOUBLE_EQ(line.bars[1].limit->highest, 0.2);
}

TEST(FallLine, LeavesTheMotorsStepWithoutALimit) {
  const auto line = power_line({reading(8, 9, 10.7, 194.0)});
  EXPECT_TRUE(line.bars.front().load);
  EXPECT_FALSE(line.bars.front().limit);
}

TEST(FallLine, IsBlankBeyondAnOpen) {
  // An open relay contact: all the volts stand across it while the coil draws 2 A. Legs 5 to 10 carry nothing.
  const auto line = power_line({reading(1, 13, 12.52, 2.0), reading(1, 4, 0.02, 2.0), reading(4, 5, 12.35, 2.0),
                                reading(6, 7, 0.00, 2.0), reading(12, 13, 0.00, 2.0)});
  for (std::size_t leg = 4; leg <= 10; ++leg) EXPECT_TRUE(line.no_current[leg]) << leg;
  EXPECT_FALSE(line.no_current[3]);
  EXPECT_FALSE(line.no_current[11]) << "the coil's current comes home through the negative clamp";
  for (const FallBar& bar : line.bars) EXPECT_FALSE(bar.first >= 4 && bar.first <= 10);
  EXPECT_EQ(foot_text(line), "12.37 of 12.52 V accounted for, 0.15 V not yet measured");
}

TEST(FallLine, IsNotBlankWhereALargeCurrentMeetsALargeDrop) {
  // 9 V across a joint at 150 A is 60 mohm, not an open: what follows still carries current.
  const auto line = power_line({reading(1, 13, 11.0, 150.0), reading(1, 2, 9.2, 150.0), reading(2, 3, 0.03, 150.0)});
  for (const bool none : line.no_current) EXPECT_FALSE(none);
  EXPECT_EQ(line.bars.size(), 3u);
}

TEST(FallLine, FollowsTheControlPathFromTheRelayBatteryStud) {
  // 11.30 at the posts, 0.07 to the stud, 0.03 in the link; 8.0 V drive the coil. The rest is implied: 1-4 and 14-19
  // and 20-13 make 11.30 in all.
  const std::vector<Finding> findings{reading(1, 13, 11.30, 194.0), reading(1, 4, 0.07, 194.0),
                                      reading(4, 14, 0.03, 194.0), reading(19, 20, 8.0, 194.0)};
  const auto sets = fall_sets(findings);
  const auto line = fall_line(FallPath::control, sets.at(0), findings, limits());
  EXPECT_NEAR(line.level_V[2].value(), 11.20, rounding_V);
  EXPECT_EQ(foot_text(line), "8.10 of 11.30 V accounted for, 3.20 V not yet measured");
}

TEST(FallLine, AsksForTheWholeWhenItIsNotKnown) {
  EXPECT_EQ(foot_text(power_line({reading(1, 2, 0.02, 194.0)})), "to add up: note 1 to 13 in this state");
}

TEST(FallLegs, NameOnlyLimitsThatExist) {
  for (const FallPath path : {FallPath::power, FallPath::control}) {
    for (const FallLeg& leg : legs_of(path)) {
      EXPECT_TRUE(leg.limit.empty() || limit_key_named(leg.limit)) << leg.limit;
    }
  }
}

TEST(FallLegs, RunFromBatteryPositiveToBatteryNegative) {
  for (const FallPath path : {FallPath::power, FallPath::control}) {
    EXPECT_EQ(points_of(path).front(), P::battery_positive_post);
    EXPECT_EQ(points_of(path).back(), P::negative_post);
    int loads = 0;
    const auto legs = legs_of(path);
    for (std::size_t i = 1; i < legs.size(); ++i) EXPECT_EQ(legs[i].from, legs[i - 1].to);
    for (const FallLeg& leg : legs) loads += leg.load ? 1 : 0;
    EXPECT_EQ(loads, 1);
  }
}

// The whole line of one instant: levels as they are, every leg by itself, and all of it accounted for.
TEST(LiveFallLine, AddsUpToTheBatterysVolts) {
  std::array<float, test_point_count> node_V{};
  const auto points = points_of(FallPath::power);
  for (std::size_t i = 0; i < points.size(); ++i) {
    node_V[static_cast<std::size_t>(points[i])] = 11.5F - 0.9F * static_cast<float>(i);
  }
  node_V[static_cast<std::size_t>(points.back())] = 0.0F;
  const std::map<std::string, Limit> limits{{"cable", {0.0, 0.2, 100.0, 400.0}}};
  const FallLine line = live_fall_line(FallPath::power, node_V, 200.0, limits);
  ASSERT_EQ(line.level_V.size(), points.size());
  ASSERT_EQ(line.bars.size(), legs_of(FallPath::power).size());
  EXPECT_NEAR(*line.total_V, 11.5, 1.0e-6);
  EXPECT_NEAR(line.accounted_V, *line.total_V, 1.0e-5) << "as floats hold it";
  EXPECT_TRUE(line.bars[1].limit_applies) << "the positive cable at 200 A";
  EXPECT_FALSE(live_fall_line(FallPath::power, node_V, 2.0, limits).bars[1].limit_applies);
  EXPECT_TRUE(line.bars[7].load) << "the motor";
}

}  // namespace
}  // namespace voltfall
