#include <gtest/gtest.h>

#include "scenario/read_scenario.h"
#include "session/session.h"

// A job whose fault comes and goes, worked by hand.

namespace voltfall {
namespace {

Scenario job_named(const std::string& name) {
  return *read_scenario(std::string(VOLTFALL_SOURCE_DIR) + "/scenarios/" + name + ".toml").scenario;
}

/// The starter turned the engine well in a crank of a second.
bool cranks(Session& session) {
  session.act(MoveClutchPedal{true});
  session.act(TurnKey{KeyPosition::start});
  session.run_for_s(1.0);
  const bool turned = session.rig().readings().crank_rpm > 150.0;
  session.act(TurnKey{KeyPosition::off});
  session.run_for_s(2.0);
  return turned;
}

double slack_ohm(const Session& session) {
  return session.rig().parameters().joints.positive_clamp.slack_ohm;
}

TEST(IntermittentJob, StartsWhenItLikesAndTheSameWayEachTime) {
  Session one(job_named("starts_when_it_likes")), other(job_named("starts_when_it_likes"));
  int started = 0;
  constexpr int times = 16;
  for (int time = 0; time < times; ++time) {
    const bool turned = cranks(one);
    EXPECT_EQ(turned, cranks(other));
    EXPECT_EQ(turned, slack_ohm(one) == 0.0);
    started += turned ? 1 : 0;
  }
  EXPECT_GT(started, 2);
  EXPECT_LT(started, times - 2);
}

TEST(IntermittentJob, JumpsUnderTheHandOnTheVeryPart) {
  Session session(job_named("starts_when_it_likes"));
  const double before_ohm = slack_ohm(session);
  session.act(DisturbPart{Touch::wiggle, "negative_clamp"});
  EXPECT_EQ(slack_ohm(session), before_ohm);
  session.act(DisturbPart{Touch::wiggle, "positive_clamp"});
  EXPECT_NE(slack_ohm(session), before_ohm);
  session.act(DisturbPart{Touch::press, "positive_clamp"});
  EXPECT_EQ(slack_ohm(session), before_ohm);
}

TEST(IntermittentJob, TurnsByHandWhetherItSleepsOrNotAndIsGoneOnceTightened) {
  Session session(job_named("starts_when_it_likes"));
  for (int time = 0; time < 2; ++time) {
    EXPECT_TRUE(session.act(LookClosely{"positive_clamp"}).id == "turns_by_hand") << time;
    session.act(DisturbPart{Touch::wiggle, "positive_clamp"});
  }
  session.act(NameFault{{"positive_clamp_slack"}, {}});
  session.act(WearEyeProtection{true});
  session.act(ConnectNegative{false});
  session.act(DoRepair{"tighten_positive_clamp"});
  session.act(ConnectNegative{true});
  for (int time = 0; time < 8; ++time) {
    EXPECT_TRUE(cranks(session)) << time;
    session.act(DisturbPart{Touch::wiggle, "positive_clamp"});
  }
}

// The morning's damp dries while it is mended: another trigger changes, and what is tightened stays tight.
TEST(IntermittentJob, StaysMendedWhenTheDampDriesMeanwhile) {
  Session session(job_named("starts_when_it_likes"));
  ASSERT_TRUE(session.act(PassTime{57.0 * 60.0}).done);
  if (slack_ohm(session) == 0.0) session.act(DisturbPart{Touch::wiggle, "positive_clamp"});
  ASSERT_GT(slack_ohm(session), 0.0);
  session.act(NameFault{{"positive_clamp_slack"}, {}});
  session.act(WearEyeProtection{true});
  session.act(ConnectNegative{false});
  ASSERT_TRUE(session.act(DoRepair{"tighten_positive_clamp"}).done);
  EXPECT_EQ(slack_ohm(session), 0.0);
}

TEST(DecoyJob, ShowsACrustWithNothingBehindItUntilItIsCleaned) {
  Session session(job_named("dead_until_somebody_stamps"));
  EXPECT_EQ(session.controls().gear, Gear::neutral);
  EXPECT_EQ(session.act(LookClosely{"positive_clamp"}).id, "crust");
  EXPECT_LT(session.rig().parameters().joints.positive_clamp.added_ohm, 1.0e-3);
  EXPECT_FALSE(cranks(session));
  session.act(NameFault{{"clutch_switch_misadjusted"}, {}});
  session.act(DoRepair{"adjust_clutch_switch"});
  EXPECT_TRUE(cranks(session));
  session.act(WearEyeProtection{true});
  session.act(ConnectNegative{false});
  session.act(DoRepair{"clean_positive_clamp"});
  EXPECT_EQ(session.act(LookClosely{"positive_clamp"}).id, "clean");
}

TEST(ChargedBattery, GetsBackWhatTheLearnersOwnCrankingTook) {
  Session session(job_named("dead_until_somebody_stamps"));
  session.act(NameFault{{"clutch_switch_misadjusted"}, {}});
  session.act(DoRepair{"adjust_clutch_switch"});
  for (int time = 0; time < 3; ++time) cranks(session);
  EXPECT_LT(session.rig().state().battery.charge, 1.0);
  session.act(DoRepair{"charge_battery"});
  EXPECT_GT(session.rig().state().battery.charge, 0.999);  // less the hour's own key-off draw
}

}  // namespace
}  // namespace voltfall
