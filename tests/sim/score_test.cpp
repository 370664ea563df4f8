#include <gtest/gtest.h>

#include "faults/catalogue.h"
#include "limits/limits.h"
#include "scoring/score_job.h"
#include "sim/worked_job.h"

namespace voltfall {
namespace {

using test::gate;
using test::line;

/// A reading as a learner would have noted it.
Finding volts(int number, TestPoint red, TestPoint black, double shown_V, double loop_A, int repairs_before = 0,
              ElectricalState state = ElectricalState::cranking) {
  Finding finding;
  finding.number = number;
  finding.red = red;
  finding.black = black;
  finding.shown = volts_display(shown_V);
  finding.loop_A = loop_A;
  finding.state = state;
  finding.repairs_before = repairs_before;
  finding.after_repair = repairs_before > 0;
  return finding;
}

constexpr auto post = TestPoint::battery_positive_post;
constexpr auto clamp = TestPoint::positive_clamp;

/// A corroded positive clamp, found by one reading, named, cleaned and proved, all by the book. Tests then spoil it.
class CorrodedClampJob : public ::testing::Test {
 protected:
  CorrodedClampJob() {
    scenario.healthy = {};
    scenario.faults = {{"positive_clamp_corroded", 0.05}};
    scenario.par_minutes = 20.0;
    scenario.labour_per_hour = 60.0;
    now = scenario.healthy;
    findings = {volts(1, post, clamp, 7.4, 150.0), volts(2, post, clamp, 0.003, 190.0, 1)};
    namings = {{{"positive_clamp_corroded"}, {1}, 1, 0}};
    log.add("crank", "", 3.0, true);
    log.add("repair", "clean_positive_clamp", 15.0, true, 4.0);
  }

  Score score() const { return score_job({scenario, now, findings, namings, repairs_done, log, cranked}); }

  Scenario scenario;
  RigParameters now;
  std::vector<Finding> findings;
  std::vector<Naming> namings;
  std::vector<std::string> repairs_done{"clean_positive_clamp"};
  JobLog log;
  bool cranked = true;
};

TEST_F(CorrodedClampJob, DoneByTheBookIsAHundredPoints) {
  const Score full = score();
  EXPECT_DOUBLE_EQ(full.total, 100.0);
  EXPECT_TRUE(full.passed);
  for (const Gate& one : full.gates) EXPECT_TRUE(one.held) << one.id << ": " << one.reason;
}

TEST_F(CorrodedClampJob, AnotherNameFailsAndIsToldWhatItsOwnReadingsSaid) {
  namings.front().fault_ids = {"brushes_worn"};
  const Score wrong = score();
  EXPECT_FALSE(wrong.passed);
  EXPECT_FALSE(gate(wrong, "supported").held);
  EXPECT_DOUBLE_EQ(line(wrong, "diagnosis").points, 0.0);
  EXPECT_NE(gate(wrong, "supported").reason.find("positive clamp corroded"), std::string::npos);
  EXPECT_NE(gate(wrong, "supported").reason.find("7.40 V"), std::string::npos);
}

TEST_F(CorrodedClampJob, ADecoyNameIsAWrongName) {
  namings.front().fault_ids = {"flat_battery_of_the_neighbour"};
  EXPECT_FALSE(score().passed);
}

TEST_F(CorrodedClampJob, TheRightNameWithoutAFailingReadingFails) {
  findings.front() = volts(1, post, clamp, 0.001, 0.0, 0, ElectricalState::at_rest);
  const Score guessed = score();
  EXPECT_FALSE(gate(guessed, "supported").held);
  EXPECT_FALSE(gate(guessed, "proved").held);
  EXPECT_FALSE(guessed.passed);
}

TEST_F(CorrodedClampJob, TheFailingReadingHasToBeAmongTheEvidence) {
  namings.front().evidence = {};
  EXPECT_FALSE(gate(score(), "supported").held);
  EXPECT_TRUE(gate(score(), "proved").held);
}

TEST_F(CorrodedClampJob, EitherLeadMayBeOnThePost) {
  findings.front() = volts(1, clamp, post, -7.4, 150.0);
  EXPECT_TRUE(score().passed);
}

TEST_F(CorrodedClampJob, NotProvedWithoutTheSameReadingUnderLoad) {
  findings.back() = volts(2, post, clamp, 0.001, 0.1, 1, ElectricalState::at_rest);
  EXPECT_FALSE(gate(score(), "proved").held);
  findings.back() = volts(2, post, clamp, 0.002, 12.0, 1);  // cranking, but 12 A prove nothing
  EXPECT_FALSE(gate(score(), "proved").held);
  findings.back() = volts(2, post, clamp, 0.2, 190.0, 1);  // still outside 0.05 V
  EXPECT_FALSE(gate(score(), "proved").held);
}

TEST_F(CorrodedClampJob, NotCuredWhileTheFaultIsInTheModel) {
  now.joints.positive_clamp.added_ohm = 0.05;
  EXPECT_FALSE(gate(score(), "cured").held);
}

TEST_F(CorrodedClampJob, NotCuredWithoutACrankThatTurnedTheEngine) {
  cranked = false;
  EXPECT_FALSE(gate(score(), "cured").held);
  EXPECT_FALSE(gate(score(), "proved").held);
}

TEST_F(CorrodedClampJob, ASecondNamingIsHalfThePoints) {
  namings.insert(namings.begin(), Naming{{"battery_aged"}, {}, 0, 0});
  EXPECT_DOUBLE_EQ(line(score(), "diagnosis").points, 20.0);
  EXPECT_DOUBLE_EQ(score().total, 80.0);
}

TEST_F(CorrodedClampJob, ACriticalActFailsWhateverElseIsRight) {
  log.mark(MarkKind::critical, "spark_at_battery");
  const Score burnt = score();
  EXPECT_FALSE(burnt.passed);
  EXPECT_DOUBLE_EQ(line(burnt, "safety").points, 0.0);
  EXPECT_DOUBLE_EQ(line(burnt, "economy").points, 0.0);
}

TEST_F(CorrodedClampJob, ARequiredStepLeftOutCapsTheResultBelowThePassMark) {
  log.mark(MarkKind::omission, "no_eye_protection");
  const Score capped = score();
  EXPECT_DOUBLE_EQ(line(capped, "safety").points, 5.0);
  EXPECT_DOUBLE_EQ(capped.total, 69.0);
  EXPECT_FALSE(capped.passed);
}

TEST_F(CorrodedClampJob, ASlipCostsThreePointsAndNoCap) {
  log.mark(MarkKind::slip, "held_while_stalled");
  EXPECT_DOUBLE_EQ(score().total, 97.0);
  EXPECT_TRUE(score().passed);
}

TEST_F(CorrodedClampJob, EconomyByHand) {
  // 18 minutes so far and 12 more: 30 against a par of 20, beyond the 3 minutes of grace, so 10 over. A wasted part of
  // 10 at 60 an hour is 10 minutes more. 20 x (1 - 20/40) = 10.
  log.add("reading", "", 12.0, true);
  log.waste(10.0);
  EXPECT_DOUBLE_EQ(line(score(), "economy").points, 10.0);
  EXPECT_DOUBLE_EQ(score().total, 90.0);
}

TEST_F(CorrodedClampJob, MakingSafeAndProofAreOutsideEconomy) {
  log.add("safety", "ignition", 60.0, false);
  EXPECT_DOUBLE_EQ(line(score(), "economy").points, 20.0);
}

TEST_F(CorrodedClampJob, MethodByHand) {
  // Three readings before the naming: one under load, the same again, one drop at rest. Two of three could answer,
  // one was an unchanged repeat: 15 x 2/3 - 1 = 9.
  findings = {volts(1, post, clamp, 7.4, 150.0), volts(2, clamp, post, -7.4, 151.0),
              volts(3, post, clamp, 0.001, 0.0, 0, ElectricalState::at_rest), volts(4, post, clamp, 0.003, 190.0, 1)};
  namings.front().findings_then = 3;
  EXPECT_DOUBLE_EQ(line(score(), "method").points, 9.0);
}

TEST_F(CorrodedClampJob, AFaultOfTwoMustBothBeNamed) {
  scenario.faults.push_back({"block_lug_rusted", 0.04});
  EXPECT_FALSE(gate(score(), "supported").held);
  findings.insert(findings.begin() + 1, volts(2, TestPoint::engine_block, TestPoint::block_lug, 3.0, 150.0));
  findings.back().number = 3;
  findings.push_back(volts(4, TestPoint::engine_block, TestPoint::block_lug, 0.004, 190.0, 1));
  namings = {{{"block_lug_rusted", "positive_clamp_corroded"}, {1, 2}, 2, 0}};
  EXPECT_TRUE(score().passed) << gate(score(), "supported").reason << gate(score(), "proved").reason;
  namings.front().evidence = {1};
  EXPECT_FALSE(gate(score(), "supported").held);
}

TEST(NothingFound, IsRightOnlyWhenNothingIsWrongAndSeenUnderLoad) {
  Scenario sound;
  sound.par_minutes = 10.0;
  const RigParameters now = sound.healthy;
  const std::vector<Finding> findings{volts(1, post, TestPoint::negative_post, 11.0, 190.0)};
  const std::vector<Naming> namings{{{"nothing_found"}, {1}, 1, 0}};
  const JobLog log;
  const std::vector<std::string> no_repairs;
  EXPECT_TRUE(score_job({sound, now, findings, namings, no_repairs, log, true}).passed);
  const std::vector<Naming> unseen{{{"nothing_found"}, {}, 1, 0}};
  EXPECT_FALSE(score_job({sound, now, findings, unseen, no_repairs, log, true}).passed);
  Scenario faulty = sound;
  faulty.faults = {{"battery_aged", 0.25}};
  EXPECT_FALSE(score_job({faulty, now, findings, namings, no_repairs, log, true}).passed);
}

TEST(Limits, ADropFailsBelowItsCurrentRangeButPassesOnlyInside) {
  const Scenario plain;
  const LimitInForce limit = limit_in_force("post_to_clamp", plain);  // 0.05 V, 80 to 400 A
  EXPECT_EQ(judged_by(limit, volts(1, post, clamp, 0.2, 20.0)), Judged::outside);
  EXPECT_EQ(judged_by(limit, volts(1, post, clamp, 0.01, 20.0)), Judged::does_not_apply);
  EXPECT_EQ(judged_by(limit, volts(1, post, clamp, 0.01, 190.0)), Judged::inside);
  EXPECT_EQ(judged_by(limit, volts(1, post, clamp, 0.09, 800.0)), Judged::does_not_apply);  // 0.1 V is fair at 800 A
  EXPECT_EQ(judged_by(limit, volts(1, post, clamp, 0.2, 0.0, 0, ElectricalState::at_rest)), Judged::does_not_apply);
}

TEST(Limits, TheScenariosOwnLimitGoesBeforeTheUsualOne) {
  Scenario strict;
  strict.limits["post_to_clamp"] = {.highest = 0.02, .from_A = 100.0, .to_A = 300.0};
  const LimitInForce limit = limit_in_force("post_to_clamp", strict);
  EXPECT_EQ(judged_by(limit, volts(1, post, clamp, 0.03, 190.0)), Judged::outside);
  EXPECT_EQ(limit_in_words(limit), "limit 0.02 V");
}

TEST(Worth, AnOhmmeterOnTheHeavyPathAnswersNothing) {
  const Scenario plain;
  Finding ohms = volts(1, post, clamp, 0.0, 0.0, 0, ElectricalState::at_rest);
  ohms.kind = Finding::Kind::ohms;
  ohms.battery_connected = false;
  EXPECT_FALSE(worth_of(ohms, plain).able);
  ohms.red = TestPoint::s_terminal;
  ohms.black = TestPoint::relay_case;
  EXPECT_TRUE(worth_of(ohms, plain).able);
}

}  // namespace
}  // namespace voltfall
