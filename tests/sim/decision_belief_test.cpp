#include <gtest/gtest.h>

#include <cmath>

#include "decision/belief.h"
#include "decision/suspects.h"
#include "support/tolerance.h"

namespace voltfall::decision {
namespace {

// Likelihoods are floats: 0.9f is 0.9 to about 3e-8.
constexpr double float_rounding = 1e-7;

Problem with_prior(std::vector<double> prior) {
  Problem problem;
  problem.prior = std::move(prior);
  for (int hypothesis = 0; hypothesis < problem.hypotheses(); ++hypothesis) problem.candidate_of.push_back(hypothesis);
  return problem;
}

// Cover & Thomas, Elements of Information Theory, example 1.1.2 (from memory): eight horses win with chances 1/2, 1/4,
// 1/8, 1/16 and four times 1/64; to say which one won takes 2 bits on average. Eight equal ones take 3.
TEST(DecisionEntropy, OfAHorseRaceIsTwoBits) {
  const std::vector<double> race{1.0 / 2, 1.0 / 4, 1.0 / 8, 1.0 / 16, 1.0 / 64, 1.0 / 64, 1.0 / 64, 1.0 / 64};
  EXPECT_NEAR(entropy_bits(race), 2.0, rounding(2.0));
  EXPECT_NEAR(entropy_bits(std::vector<double>(8, 1.0 / 8)), 3.0, rounding(3.0));
  EXPECT_EQ(entropy_bits(std::vector<double>{1.0, 0.0}), 0.0);
}

// The breast-cancer question put to physicians, Gigerenzer & Hoffrage, Psychological Review 102, 1995 (from memory):
// prevalence 1 %, found in 80 % of the ill, falsely in 9.6 % of the others; a positive means 7.8 % (0.008 of 0.10304).
TEST(DecisionBelief, FollowsBayesRule) {
  Problem problem = with_prior({0.01, 0.99});
  problem.tests.push_back({1.0, 0, 2, {0.8F, 0.2F, 0.096F, 0.904F}});
  const Belief positive = after_outcome(problem, problem.prior, 0, 0);
  EXPECT_NEAR(positive[0], 0.008 / (0.008 + 0.09504), float_rounding);
  EXPECT_NEAR(positive[0], 0.078, datasheet(0.001));
  EXPECT_NEAR(outcome_shares(problem, problem.prior, 0)[0], 0.10304, float_rounding);
}

// Monty Hall's doors, Selvin, The American Statistician 29, 1975 (from memory): the first door chosen, the host opens
// the third, which he never does to show the prize: the first keeps 1/3, the second has 2/3.
TEST(DecisionBelief, LeavesAThirdToTheDoorFirstChosen) {
  Problem problem = with_prior({1.0 / 3, 1.0 / 3, 1.0 / 3});
  problem.tests.push_back({1.0, 0, 2, {0.5F, 0.5F, 0.0F, 1.0F, 1.0F, 0.0F}});
  const Belief third_opened = after_outcome(problem, problem.prior, 0, 1);
  EXPECT_NEAR(third_opened[0], 1.0 / 3, float_rounding);
  EXPECT_NEAR(third_opened[1], 2.0 / 3, float_rounding);
  EXPECT_EQ(third_opened[2], 0.0);
}

// By hand: a test that errs in a tenth tells of two equal hypotheses 1 - H(0.1) = 0.531 bits, the capacity of the
// binary symmetric channel (Cover & Thomas 7.1.4, from memory).
TEST(DecisionInformation, IsThatOfABinaryChannel) {
  Problem problem = with_prior({0.5, 0.5});
  problem.tests.push_back({1.0, 0, 2, {0.9F, 0.1F, 0.1F, 0.9F}});
  EXPECT_NEAR(expected_information_bits(problem, problem.prior, 0), 0.531, datasheet(0.001));
}

TEST(DecisionInformation, IsAboutTheCandidateNotItsSeverity) {
  Problem problem = with_prior({0.25, 0.25, 0.5});
  problem.candidate_of = {0, 0, 1};
  problem.tests.push_back({1.0, 0, 2, {1.0F, 0.0F, 0.0F, 1.0F, 0.5F, 0.5F}});  // tells only how bad candidate 0 is
  problem.tests.push_back({1.0, 0, 2, {1.0F, 0.0F, 1.0F, 0.0F, 0.0F, 1.0F}});
  EXPECT_NEAR(expected_information_bits(problem, problem.prior, 0), 0.0, rounding(1.0));
  EXPECT_NEAR(expected_information_bits(problem, problem.prior, 1), 1.0, rounding(1.0));
}

// H(before) - SUM_o P(o) H(after o), straight from the definition, on a problem with nothing special.
TEST(DecisionInformation, AgreesWithItsDefinition) {
  Problem problem = with_prior({0.1, 0.2, 0.3, 0.4});
  problem.candidate_of = {0, 1, 1, 2};
  problem.tests.push_back({1.0, 0, 3, {0.7F, 0.2F, 0.1F, 0.1F, 0.8F, 0.1F, 0.3F, 0.3F, 0.4F, 0.05F, 0.05F, 0.9F}});
  double expected = entropy_bits(candidate_shares(problem, problem.prior));
  const std::vector<double> outcomes = outcome_shares(problem, problem.prior, 0);
  for (int outcome = 0; outcome < 3; ++outcome) {
    const Belief after = after_outcome(problem, problem.prior, 0, outcome);
    expected -= outcomes[static_cast<std::size_t>(outcome)] * entropy_bits(candidate_shares(problem, after));
  }
  EXPECT_NEAR(expected_information_bits(problem, problem.prior, 0), expected, float_rounding);
}

TEST(DecisionBelief, NeverLosesSightOfTheUnknown) {
  Problem problem = with_prior({0.49, 0.49, 0.02});
  problem.unknown = 2;
  problem.tests.push_back({1.0, 0, 2, {1.0F, 0.0F, 0.0F, 1.0F, 0.5F, 0.5F}});
  Belief belief = problem.prior;
  for (int reading = 0; reading < 5; ++reading) belief = after_outcome(problem, belief, 0, 0);
  EXPECT_NEAR(belief[2], 0.02, rounding(1.0));
  EXPECT_NEAR(belief[0], 0.98, rounding(1.0));
}

// What comes back after every outcome no test can rule out: asked for nothing but that, none is worth a minute.
TEST(DecisionBelief, GivesNoTestCreditForTheFloorOfTheUnknown) {
  Problem problem = with_prior({0.98, 0.02});
  problem.unknown = 1;
  problem.tests.push_back({1.0, 0, 2, {1.0F, 0.0F, 0.5F, 0.5F}});
  EXPECT_EQ(expected_information_bits(problem, problem.prior, 0), 0.0);
  EXPECT_GT(expected_information_bits(problem, {0.9, 0.1}, 0), 0.05);  // over the floor it can
}

TEST(DecisionBelief, LeavesAllToTheUnknownWhenNothingElseExplainsIt) {
  Problem problem = with_prior({0.49, 0.49, 0.02});
  problem.unknown = 2;
  problem.tests.push_back({1.0, 0, 3, {1.0F, 0.0F, 0.0F, 0.0F, 1.0F, 0.0F, 0.0F, 0.0F, 1.0F}});
  EXPECT_EQ(after_outcome(problem, problem.prior, 0, 2), (Belief{0.0, 0.0, 1.0}));
}

TEST(DecisionBelief, TakesFromWhatARepairCuresWhenItDidNot) {
  Problem problem = with_prior({0.5, 0.2, 0.3});
  problem.repairs.push_back({10.0, 0, {0}});
  const Belief left = after_failed_repair(problem, problem.prior, 0);
  EXPECT_EQ(left[0], 0.0);
  EXPECT_NEAR(left[1], 0.4, rounding(1.0));
  EXPECT_NEAR(left[2], 0.6, rounding(1.0));
}

// By hand: what was the first thing alone would be gone, and the complaint is not; what was the first and the second is
// the second now. 0.2 stays, 0.3 comes to it, 0.1 stays: of 0.6.
TEST(DecisionBelief, FollowsAThingThatWasMendedInPart) {
  const Problem problem = with_prior({0.4, 0.2, 0.3, 0.1});
  const Belief left = after_change(problem, problem.prior, std::vector<int>{-1, 1, 1, 3});
  EXPECT_EQ(left[0], 0.0);
  EXPECT_NEAR(left[1], 0.5 / 0.6, rounding(1.0));
  EXPECT_EQ(left[2], 0.0);
  EXPECT_NEAR(left[3], 0.1 / 0.6, rounding(1.0));
}

// A chain of fourteen parts with a healthy reading up to the fault, measured in its middle: seven and seven.
TEST(DecisionSuspects, AreHalvedInTheMiddleOfAChain) {
  Problem problem = with_prior(std::vector<double>(14, 1.0 / 14));
  decision::Test middle{1.0, 0, 2, {}};
  for (int part = 0; part < 14; ++part) {
    const float faulty = part < 7 ? 0.98F : 0.02F;
    middle.likelihood.insert(middle.likelihood.end(), {1.0F - faulty, faulty});
  }
  problem.tests = {middle};
  EXPECT_EQ(split(problem, {}, 0), (std::vector<int>{7, 7}));
  EXPECT_EQ(consistent_candidates(problem, std::vector<Seen>{{0, 1}}), (std::vector<int>{0, 1, 2, 3, 4, 5, 6}));
}

TEST(DecisionSuspects, StayWhenOneSeverityExplainsAll) {
  Problem problem = with_prior({0.3, 0.3, 0.38, 0.02});
  problem.candidate_of = {0, 0, 1, 2};
  problem.unknown = 3;
  problem.tests.push_back({1.0, 0, 2, {1.0F, 0.0F, 0.0F, 1.0F, 1.0F, 0.0F, 0.5F, 0.5F}});
  problem.tests.push_back({1.0, 0, 2, {1.0F, 0.0F, 0.0F, 1.0F, 0.0F, 1.0F, 0.5F, 0.5F}});
  EXPECT_EQ(split(problem, {}, 0), (std::vector<int>{2, 1}));
  // Mild explains the first outcome, bad the second, but no one severity both.
  EXPECT_EQ(consistent_candidates(problem, std::vector<Seen>{{0, 0}, {1, 1}}), std::vector<int>{1});
}

TEST(DecisionGroups, HoldWhatNoTestTellsApart) {
  Problem problem = with_prior({0.3, 0.2, 0.2, 0.28, 0.02});
  problem.candidate_of = {0, 0, 1, 2, 3};
  problem.unknown = 4;
  problem.tests.push_back({1.0, 0, 2, {0.9F, 0.1F, 0.2F, 0.8F, 0.7F, 0.3F, 0.1F, 0.9F, 0.5F, 0.5F}});
  EXPECT_NEAR(distance(problem, 0, 2), 0.2, float_rounding);
  EXPECT_NEAR(distance(problem, 0, 3), 0.8, float_rounding);
  EXPECT_TRUE(inseparable(problem, 0, 2));
  EXPECT_EQ(group_of(problem, 0), (std::vector<int>{0, 1, 2}));
  EXPECT_EQ(group_of(problem, 4), std::vector<int>{4});
  EXPECT_EQ(candidates_in(problem, group_of(problem, 0)), (std::vector<int>{0, 1}));
  EXPECT_NEAR(share_of(group_of(problem, 0), problem.prior), 0.7, rounding(1.0));
  EXPECT_EQ(likeliest_of(problem, problem.prior, 0), 0);
}

TEST(DecisionProblem, SaysWhatIsWrongWithIt) {
  Problem problem = with_prior({0.5, 0.4});
  problem.unknown = 2;
  problem.access_minutes = {5.0};
  problem.tests.push_back({0.0, 2, 2, {1.0F, 0.0F, 0.5F, 0.4F}});
  problem.tests.push_back({1.0, 0, 2, {1.0F}});
  problem.repairs.push_back({10.0, 0, {7}});
  EXPECT_EQ(complaints_about(problem), (std::vector<std::string>{
                                           "prior: has to be shares of 0 or more that sum to 1",
                                           "unknown: 2 is no hypothesis; -1 to 1 are allowed",
                                           "test 0: takes 0 minutes; above 0 is needed",
                                           "test 0: needs an access beyond the 1 there are",
                                           "test 0, hypothesis 1: has to be shares of 0 or more that sum to 1",
                                           "test 1: 1 likelihoods for 2 hypotheses and 2 outcomes; 4 are needed",
                                           "repair 0: cures 7, which is no candidate; 0 to 1 are allowed",
                                       }));
}

}  // namespace
}  // namespace voltfall::decision
