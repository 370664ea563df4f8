#include <gtest/gtest.h>

#include <algorithm>

#include "support/cranks.h"
#include "tour/learner.h"

// Who works in a sensible order comes out on top, whoever guesses does not pass: over every job there is.

namespace voltfall::test {
namespace {

struct Job {
  std::filesystem::path path;
};

void PrintTo(const Job& job, std::ostream* out) {
  *out << job.path.stem().string();
}

std::vector<Job> jobs() {
  std::vector<Job> all;
  for (const auto& path : scored_scenarios()) all.push_back({path});
  if (checked_build) all.resize(1);
  return all;
}

class EveryJob : public ::testing::TestWithParam<Job> {
 protected:
  EveryJob() : learner(GetParam().path) {}

  const Scenario& scenario() { return learner.session().scenario(); }

  /// The right names, as nobody but the author knows them.
  std::vector<std::string> answer() {
    std::vector<std::string> ids;
    for (const HiddenFault& fault : scenario().faults) ids.push_back(fault.id);
    return ids;
  }
  std::vector<int> last_findings(std::size_t most) {
    const auto& findings = learner.session().findings();
    std::vector<int> numbers;
    for (std::size_t i = findings.size() - std::min(findings.size(), most); i < findings.size(); ++i) {
      numbers.push_back(findings[i].number);
    }
    return numbers;
  }
  void name_answer(std::vector<int> evidence) { learner.session().act(NameFault{answer(), std::move(evidence)}); }
  void mend() {
    for (const std::string& id : answer()) learner.hands().repair(std::string(fault_named(id)->repair));
  }
  /// A reading that fails because of the hidden fault itself: its index among the tests.
  int proving_test() {
    const Diagnosis& diagnosis = learner.diagnosis();
    const int candidate = diagnosis.problem().candidate_of[static_cast<std::size_t>(diagnosis.truth())];
    for (int test = 0; test < static_cast<int>(diagnosis.questions().size()); ++test) {
      if (diagnosis.should_show(candidate, test, diagnosis.problem().prior)) return test;
    }
    return 0;
  }
  void prove() {
    learner.hands().answer(learner.diagnosis().questions()[static_cast<std::size_t>(proving_test())]);
    learner.hands().listen(Condition::cranking);
  }

  RuledLearner learner;
};

TEST_P(EveryJob, IsASoundProblem) {
  const auto complaints = decision::complaints_about(learner.diagnosis().problem());
  EXPECT_TRUE(complaints.empty()) << complaints.front();
  EXPECT_GE(learner.diagnosis().problem().candidate_of[static_cast<std::size_t>(learner.diagnosis().truth())], 0);
}

// Common practice: who has a plan takes a dozen readings or so, not fifty that each rule out next to nothing.
TEST_P(EveryJob, HasAParThatAPersonWouldFollow) {
  const decision::Plan par = learner.diagnosis().par();
  const auto tests = std::count_if(par.steps.begin(), par.steps.end(), [](const decision::PlanStep& step) {
    return step.choice.kind == decision::Choice::Kind::test;
  });
  EXPECT_LE(tests, answer().empty() ? 30 : 20);  // with nothing wrong everything has to be ruled out
}

TEST_P(EveryJob, ThePlannerPasses) {
  const Score planned = planner_learner(GetParam().path);
  EXPECT_TRUE(planned.passed) << planned.total;
}

TEST_P(EveryJob, TheFirstGuessFails) {
  learner.name_leading();
  learner.repair_and_prove();
  EXPECT_FALSE(learner.hand_back().passed);
}

TEST_P(EveryJob, CleaningEverythingFails) {
  name_answer({});
  for (const Repair& repair : all_repairs()) {
    if (repair.id.starts_with("clean_") || repair.id.starts_with("remake_"))
      learner.hands().repair(std::string(repair.id));
  }
  mend();
  prove();
  EXPECT_FALSE(learner.hand_back().passed);
}

TEST_P(EveryJob, SwappingPartsAndNamingThenFails) {
  learner.session().act(NameFault{{"brushes_worn"}, {}});
  learner.hands().repair("renew_starter");
  learner.hands().listen(Condition::cranking);
  learner.ask(proving_test());
  name_answer(last_findings(1));
  mend();
  prove();
  EXPECT_FALSE(learner.hand_back().passed);
}

TEST_P(EveryJob, OneTestAndTheNameFails) {
  learner.ask(proving_test());
  name_answer(last_findings(1));
  mend();
  prove();
  const Score score = learner.hand_back();
  EXPECT_FALSE(score.passed) << score.total;
}

TEST_P(EveryJob, TestingEverythingAndGuessingFails) {
  for (int test = 0; test < static_cast<int>(learner.diagnosis().questions().size()); ++test) {
    if (learner.diagnosis().questions()[static_cast<std::size_t>(test)].condition != Condition::bench)
      learner.ask(test);
  }
  name_answer(last_findings(6));
  mend();
  prove();
  EXPECT_FALSE(learner.hand_back().passed);
}

TEST_P(EveryJob, PickingAllTheEvidenceThereIsFails) {
  learner.hands().listen(Condition::cranking);
  for (const char* word : {"silence", "one_click", "chatter", "slow_crank", "normal_crank"}) {
    learner.session().act(NoteObservation{word});
  }
  name_answer(last_findings(6));
  mend();
  prove();
  EXPECT_FALSE(learner.hand_back().passed);
}

INSTANTIATE_TEST_SUITE_P(Shipped, EveryJob, ::testing::ValuesIn(jobs()),
                         [](const auto& info) { return info.param.path.stem().string(); });

/// Whoever goes through a list once meets such a fault by luck.
bool comes_and_goes(const Job& job) {
  const RuledLearner learner(job.path);
  const auto& faults = learner.session().scenario().faults;
  return std::any_of(faults.begin(), faults.end(), [](const HiddenFault& fault) { return fault.when != When::always; });
}

// One job may be kind to chance; all of them together are not.
TEST(Learners, ThePlannerIsAboveTheTextbookWhichIsAboveChance) {
  if (checked_build) GTEST_SKIP() << "a mean over one job is none";
  double planned = 0.0, textbook = 0.0, random = 0.0;
  for (const Job& job : jobs()) {
    if (comes_and_goes(job)) continue;
    planned += planner_learner(job.path).total;
    textbook += textbook_learner(job.path).total;
    random += random_learner(job.path, 7).total;
  }
  const double count = static_cast<double>(jobs().size());
  RecordProperty("planner", std::to_string(planned / count));
  RecordProperty("textbook", std::to_string(textbook / count));
  RecordProperty("random", std::to_string(random / count));
  EXPECT_GT(planned, textbook);
  EXPECT_GT(textbook, random);
}

double points_for(const Score& score, std::string_view part) {
  const auto line =
      std::find_if(score.lines.begin(), score.lines.end(), [&](const ScoreLine& one) { return one.part == part; });
  return line == score.lines.end() ? 0.0 : line->points;
}

// The job is not over with the first of two repairs, and neither is the review of it.
TEST(TwoFaults, AreReviewedToTheSecondRepair) {
  const auto job = std::filesystem::path(VOLTFALL_SOURCE_DIR) / "scenarios" / "two_halves_of_a_fault.toml";
  const Score straight = planner_learner(job), lost = wandering_learner(job, 40);
  EXPECT_TRUE(straight.passed);
  EXPECT_LT(points_for(lost, "economy"), points_for(straight, "economy"));
  EXPECT_LT(points_for(lost, "method"), points_for(straight, "method"));
  EXPECT_EQ(points_for(lost, "diagnosis"), points_for(straight, "diagnosis"));
}

/// Works well, but nothing was made safe.
class Unsafe : public ::testing::TestWithParam<Job> {};

TEST_P(Unsafe, SkippingSafetyNeverPasses) {
  const Score score = unsafe_planner_learner(GetParam().path);
  EXPECT_FALSE(score.passed);
  EXPECT_LE(score.total, 69.0);
}

INSTANTIATE_TEST_SUITE_P(Shipped, Unsafe, ::testing::ValuesIn(jobs()),
                         [](const auto& info) { return info.param.path.stem().string(); });

}  // namespace
}  // namespace voltfall::test
