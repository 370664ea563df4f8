#include <gtest/gtest.h>

#include "console/table_place.h"
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

Finding heard(int number, const std::string& word) {
  Finding finding;
  finding.number = number;
  finding.kind = Finding::Kind::heard_or_seen;
  finding.state = ElectricalState::cranking;
  finding.observation = word;
  finding.observation_true = true;
  return finding;
}

/// The kit of a first week, on the usual vehicle.
Scenario job_with(std::vector<HiddenFault> faults) {
  Scenario scenario;
  scenario.vehicle_type = "pickup_v8";
  scenario.kit = {Kit::multimeter, Kit::clamp_meter};
  scenario.faults = std::move(faults);
  scenario.labour_per_hour = 60.0;
  return scenario;
}

/// A corroded positive clamp, found in four tests, named, cleaned and proved, all by the book. Tests then spoil it.
class CorrodedClampJob : public ::testing::Test {
 protected:
  CorrodedClampJob() {
    now = scenario.healthy;
    findings = {heard(1, "chatter"), volts(2, post, TestPoint::negative_post, 11.6, 160.0),
                volts(3, post, clamp, 7.9, 160.0), felt(4, "positive_clamp", "firm"),
                volts(5, post, clamp, 0.003, 190.0, 1)};
    namings = {{{"positive_clamp_corroded"}, {1, 2, 3, 4}, 4, 0}};
    log.add("crank", "", 3.0, true);
    log.add("repair", "clean_positive_clamp", 15.0, true, 4.0);
  }

  static Finding felt(int number, const std::string& component, const std::string& word) {
    Finding finding;
    finding.number = number;
    finding.kind = Finding::Kind::felt;
    finding.component = component;
    finding.observation = word;
    return finding;
  }

  Score score() const {
    const auto table = table_store().source()(scenario);
    const Diagnosis diagnosis(scenario, table, questions_besides(findings, scenario));
    const decision::Plan par = diagnosis.par();
    return score_job({scenario, diagnosis, par, now, findings, namings, repairs_done, log, cranked});
  }

  Scenario scenario = job_with({{"positive_clamp_corroded", 0.05}});
  RigParameters now;
  std::vector<Finding> findings;
  std::vector<Naming> namings;
  std::vector<std::string> repairs_done{"clean_positive_clamp"};
  JobLog log;
  bool cranked = true;
};

TEST_F(CorrodedClampJob, DoneByTheBookPassesWithNearlyAllThePoints) {
  const Score full = score();
  EXPECT_TRUE(full.passed);
  for (const Gate& one : full.gates) EXPECT_TRUE(one.held) << one.id << ": " << one.reason;
  for (const char* part : {"diagnosis", "proof", "safety"}) {
    EXPECT_DOUBLE_EQ(line(full, part).points, line(full, part).out_of) << line(full, part).reason;
  }
  EXPECT_GT(full.total, 90.0);
}

// One reading out of limits beside ninety other things that may be wrong: not yet eight chances in ten.
TEST_F(CorrodedClampJob, ASingleReadingDoesNotCarryTheName) {
  findings = {volts(1, post, clamp, 7.9, 160.0), volts(2, post, clamp, 0.003, 190.0, 1)};
  namings = {{{"positive_clamp_corroded"}, {1}, 1, 0}};
  const Score one = score();
  EXPECT_FALSE(gate(one, "supported").held);
  EXPECT_GT(line(one, "diagnosis").points, 0.0);
  EXPECT_FALSE(one.passed);
}

// Where every word heard speaks for it and nothing else does, picking the rest away does not help: the lower counts.
TEST_F(CorrodedClampJob, AFindingLeftOutOfThePicksStillCounts) {
  findings[1] = volts(2, post, TestPoint::negative_post, 6.1, 160.0);  // the battery falls away as well
  namings.front().evidence = {1, 3, 4};
  EXPECT_FALSE(gate(score(), "supported").held);
}

TEST_F(CorrodedClampJob, WhatWasReadWhileTheFaultWasAwayIsNoEvidence) {
  for (Finding& finding : findings) finding.faults_there = false;
  EXPECT_FALSE(gate(score(), "supported").held);
}

TEST_F(CorrodedClampJob, WeightsAndPassMarkAreTheScenarios) {
  scenario.weights = {
      .diagnosis = 60.0, .proof = 10.0, .safety = 10.0, .economy = 10.0, .method = 10.0, .pass_mark = 98.0};
  const Score strict = score();
  EXPECT_DOUBLE_EQ(line(strict, "diagnosis").points, 60.0);
  EXPECT_DOUBLE_EQ(line(strict, "proof").points, 10.0);
  EXPECT_EQ(strict.passed, strict.total >= 98.0);
}

TEST_F(CorrodedClampJob, AnotherNameFailsAndIsToldWhatItsOwnReadingsSaid) {
  namings.front().fault_ids = {"brushes_worn"};
  const Score wrong = score();
  EXPECT_FALSE(wrong.passed);
  EXPECT_FALSE(gate(wrong, "supported").held);
  EXPECT_DOUBLE_EQ(line(wrong, "diagnosis").points, 0.0);
  EXPECT_NE(gate(wrong, "supported").reason.find("positive clamp corroded"), std::string::npos);
  EXPECT_NE(gate(wrong, "supported").reason.find("7.90 V"), std::string::npos);
}

TEST_F(CorrodedClampJob, ADecoyNameIsAWrongName) {
  namings.front().fault_ids = {"flat_battery_of_the_neighbour"};
  EXPECT_FALSE(score().passed);
}

TEST_F(CorrodedClampJob, TheRightNameWithoutAFailingReadingFails) {
  findings[2] = volts(3, post, clamp, 0.001, 0.0, 0, ElectricalState::at_rest);
  const Score guessed = score();
  EXPECT_FALSE(gate(guessed, "supported").held);
  EXPECT_FALSE(gate(guessed, "proved").held);
  EXPECT_FALSE(guessed.passed);
}

TEST_F(CorrodedClampJob, TheFailingReadingHasToBeAmongTheEvidence) {
  namings.front().evidence = {1, 2, 4};
  EXPECT_FALSE(gate(score(), "supported").held);
  EXPECT_TRUE(gate(score(), "proved").held);
}

TEST_F(CorrodedClampJob, EitherLeadMayBeOnThePost) {
  findings[2] = volts(3, clamp, post, -7.9, 160.0);
  EXPECT_TRUE(score().passed);
}

TEST_F(CorrodedClampJob, NotProvedWithoutTheSameReadingUnderLoad) {
  findings.back() = volts(5, post, clamp, 0.001, 0.1, 1, ElectricalState::at_rest);
  EXPECT_FALSE(gate(score(), "proved").held);
  findings.back() = volts(5, post, clamp, 0.002, 12.0, 1);  // cranking, but 12 A prove nothing
  EXPECT_FALSE(gate(score(), "proved").held);
  findings.back() = volts(5, post, clamp, 0.2, 190.0, 1);  // still outside 0.05 V
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
  const Score slipped = score();
  EXPECT_DOUBLE_EQ(line(slipped, "safety").points, 7.0);
  EXPECT_TRUE(slipped.passed);
}

TEST_F(CorrodedClampJob, WorkThatAskedNothingIsPaidForMinuteByMinute) {
  log.add("crank", "", 40.0, true);
  const Score idle = score();
  // The 43 minutes of cranks less what the tests account for, over twice par, of 20 points.
  EXPECT_LT(line(idle, "economy").points, 10.0);
  log.add("safety", "ignition", 60.0, false);
  EXPECT_DOUBLE_EQ(line(score(), "economy").points, line(idle, "economy").points);
}

TEST_F(CorrodedClampJob, AStarterSwappedFirstCostsItsMinutesAndItsPrice) {
  const double before = line(score(), "economy").points;
  repairs_done = {"renew_starter", "clean_positive_clamp"};
  log.add("repair", "renew_starter", 60.0, true, 135.0);
  findings.back().repairs_before = 2;
  EXPECT_LT(line(score(), "economy").points, before - 15.0);
}

TEST_F(CorrodedClampJob, ReadingsThatCanTellNothingCostMethod) {
  const double before = line(score(), "method").points;
  findings.insert(findings.begin() + 3, volts(4, post, clamp, 0.001, 0.0, 0, ElectricalState::at_rest));
  findings.insert(findings.begin() + 4, volts(5, clamp, post, -0.001, 0.0, 0, ElectricalState::at_rest));
  for (std::size_t i = 0; i < findings.size(); ++i) findings[i].number = static_cast<int>(i) + 1;
  namings = {{{"positive_clamp_corroded"}, {1, 2, 3, 6}, 6, 0}};
  const ScoreLine method = line(score(), "method");
  // Two drops without load at a point each and one unchanged repeat; the mean is over par's number of tests still.
  EXPECT_LT(method.points, before - 2.5);
  EXPECT_NE(method.reason.find("no load"), std::string::npos) << method.reason;
}

TEST_F(CorrodedClampJob, AFaultOfTwoMustBothBeNamed) {
  scenario.faults.push_back({"block_lug_rusted", 0.04});
  EXPECT_FALSE(gate(score(), "supported").held);
}

TEST(NothingFound, IsRightOnlyWhenNothingIsWrongAndSeenUnderLoad) {
  const Scenario sound = job_with({});
  const Diagnosis diagnosis(sound, table_store().source()(sound));
  const decision::Plan par = diagnosis.par();
  const RigParameters now = sound.healthy;
  const std::vector<Finding> findings{heard(1, "normal_crank"), volts(2, post, TestPoint::negative_post, 11.5, 199.0),
                                      volts(3, post, TestPoint::starter_terminal, 0.3, 199.0),
                                      volts(4, TestPoint::starter_case, TestPoint::negative_post, 0.12, 199.0),
                                      volts(5, TestPoint::starter_terminal, TestPoint::starter_case, 11.0, 199.0)};
  const std::vector<Naming> namings{{{"nothing_found"}, {1, 2, 3, 4, 5}, 5, 0}};
  const std::vector<std::string> no_repairs;
  const JobLog log;
  const JobFacts facts{sound, diagnosis, par, now, findings, namings, no_repairs, log, true};
  EXPECT_TRUE(gate(score_job(facts), "supported").held) << gate(score_job(facts), "supported").reason;
  const std::vector<Naming> unseen{{{"nothing_found"}, {1}, 5, 0}};
  const JobFacts unseen_facts{sound, diagnosis, par, now, findings, unseen, no_repairs, log, true};
  EXPECT_FALSE(score_job(unseen_facts).passed);
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
