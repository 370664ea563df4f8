#include <gtest/gtest.h>

#include "faults/catalogue.h"
#include "sim/worked_job.h"

// The story the README tells, and the learners who must not get away with it.

namespace voltfall {
namespace {

using test::gate;
using test::Learner;
using test::line;

constexpr auto post = TestPoint::battery_positive_post;
constexpr auto clamp = TestPoint::positive_clamp;

TEST(Tour, ABadClampReadsNothingAtRestAndVoltsWhileCranking) {
  Learner learner("clicks_in_the_morning");
  learner.make_safe();
  learner.probe(post, clamp);
  learner.note();
  learner.crank_and_note();
  EXPECT_LT(learner.session.findings()[0].shown.base_value(), 0.01);
  EXPECT_GT(learner.session.findings()[1].shown.base_value(), 2.0);
}

TEST(Tour, TheCorrodedClampFoundNamedCleanedAndProvedPasses) {
  Learner learner("clicks_in_the_morning");
  const Score score = test::solve_corroded_clamp(learner);
  EXPECT_TRUE(score.passed);
  for (const Gate& one : score.gates) EXPECT_TRUE(one.held) << one.reason;
  EXPECT_GE(score.total, 90.0);
}

TEST(Tour, TheSameJobAnsweredStarterFailsAndSaysWhy) {
  Learner learner("clicks_in_the_morning");
  learner.make_safe();
  learner.probe(post, clamp);
  const int failing = learner.crank_and_note();
  learner.name("brushes_worn", {failing});
  learner.repair_with_negative_off("renew_starter");
  learner.crank_and_note();
  const Score score = learner.close();
  EXPECT_FALSE(score.passed);
  EXPECT_LT(score.total, 70.0);
  EXPECT_FALSE(gate(score, "cured").held);
  const std::string why = gate(score, "supported").reason;
  EXPECT_NE(why.find("You named brushes worn; what was wrong was positive clamp corroded"), std::string::npos) << why;
  EXPECT_NE(why.find("finding 1 pointed there"), std::string::npos) << why;
}

TEST(Tour, AWrongFirstNameStillLeavesAWayToPassAtHalfPoints) {
  Learner learner("clicks_in_the_morning");
  learner.make_safe();
  learner.probe(post, clamp);
  const int failing = learner.crank_and_note();
  learner.name("battery_discharged", {failing});
  learner.name("positive_clamp_corroded", test::find_corroded_clamp(learner));
  learner.repair_with_negative_off("clean_positive_clamp");
  learner.crank_and_note(3.0);
  const Score score = learner.close();
  EXPECT_DOUBLE_EQ(line(score, "diagnosis").points, 20.0);
}

/// One cheat against one shipped job: the right name and repair are handed to him, the work is not done.
struct ShippedJob {
  const char *id, *fault, *repair;
  TestPoint red, black;
  bool lamps = false;
};

void PrintTo(const ShippedJob& job, std::ostream* out) {
  *out << job.id;
}

class Cheats : public ::testing::TestWithParam<ShippedJob> {
 protected:
  Cheats() : learner(GetParam().id) { learner.act(SwitchHeadlamps{GetParam().lamps}); }

  void repair() { learner.repair_with_negative_off(GetParam().repair); }

  Learner learner;
};

TEST_P(Cheats, NamingWithoutEvidenceFails) {
  learner.make_safe();
  learner.probe(GetParam().red, GetParam().black);
  learner.crank();
  learner.name(GetParam().fault, {});
  repair();
  learner.crank_and_note(3.0);
  const Score score = learner.close();
  EXPECT_FALSE(gate(score, "supported").held);
  EXPECT_FALSE(score.passed);
}

TEST_P(Cheats, RepairWithoutProofFails) {
  learner.make_safe();
  learner.probe(GetParam().red, GetParam().black);
  const int failing = learner.crank_and_note();
  learner.name(GetParam().fault, {failing});
  repair();
  learner.crank(3.0);
  const Score score = learner.close();
  EXPECT_TRUE(gate(score, "cured").held);
  EXPECT_FALSE(gate(score, "proved").held);
  EXPECT_FALSE(score.passed);
}

TEST_P(Cheats, AllEvidenceThereIsWithoutAFailingReadingFails) {
  learner.make_safe();
  learner.probe(GetParam().red, GetParam().black);
  learner.crank();
  std::vector<int> evidence{learner.note()};  // the right points, with no load
  learner.probe(post, TestPoint::negative_post);
  evidence.push_back(learner.note());
  evidence.push_back(learner.note_heard("normal_crank"));
  evidence.push_back(learner.note_heard("slow_crank"));
  learner.name(GetParam().fault, evidence);
  repair();
  learner.probe(GetParam().red, GetParam().black);
  learner.crank_and_note(3.0);
  const Score score = learner.close();
  EXPECT_FALSE(gate(score, "supported").held);
  EXPECT_FALSE(score.passed);
}

TEST_P(Cheats, SkippingSafetyIsCappedBelowThePassMark) {
  learner.probe(GetParam().red, GetParam().black);
  const int failing = learner.crank_and_note();
  learner.name(GetParam().fault, {failing});
  repair();
  learner.crank_and_note(3.0);
  const Score score = learner.close();
  EXPECT_LE(score.total, 69.0);
  EXPECT_FALSE(score.passed);
}

TEST_P(Cheats, UnboltingAPowerJointWithTheNegativeOnFailsTheRecord) {
  const bool power_joint = repair_named(GetParam().repair)->needs_negative_off;  // the body strap carries none
  learner.make_safe();
  learner.probe(GetParam().red, GetParam().black);
  const int failing = learner.crank_and_note();
  learner.name(GetParam().fault, {failing});
  learner.act(DoRepair{GetParam().repair});
  learner.crank_and_note(3.0);
  const Score score = learner.close();
  EXPECT_EQ(gate(score, "no_critical_act").held, !power_joint);
  EXPECT_FALSE(power_joint && score.passed);
}

TEST_P(Cheats, SwappingTheStarterFirstAndNamingThenFails) {
  learner.make_safe();
  learner.probe(GetParam().red, GetParam().black);
  learner.name("brushes_worn", {});
  learner.repair_with_negative_off("renew_starter");
  learner.crank();
  learner.name(GetParam().fault, {});
  repair();
  learner.crank_and_note(3.0);
  EXPECT_FALSE(learner.close().passed);
}

INSTANTIATE_TEST_SUITE_P(EveryShippedJob, Cheats,
                         ::testing::Values(ShippedJob{"clicks_in_the_morning", "positive_clamp_corroded",
                                                      "clean_positive_clamp", post, clamp},
                                           ShippedJob{"one_click_lamps_bright", "relay_contacts_pitted", "renew_relay",
                                                      TestPoint::relay_battery_stud, TestPoint::relay_motor_stud},
                                           ShippedJob{"slow_since_the_new_starter", "mounting_face_painted",
                                                      "clean_mounting_face", TestPoint::starter_case,
                                                      TestPoint::engine_block},
                                           ShippedJob{"no_click_with_the_lamps_on", "body_strap_lost", "fit_body_strap",
                                                      TestPoint::body, TestPoint::engine_block, true}),
                         [](const auto& info) { return std::string(info.param.id); });

}  // namespace
}  // namespace voltfall
