#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "decision/par_plan.h"
#include "outside/decision_random_problems.h"
#include "support/tolerance.h"

namespace voltfall::decision {
namespace {

// Equal parts in a row with one fault among them. Test i reads behind part i: faulty if the fault is at or before it.
// Every test takes a minute, every repair an hour: nobody repairs before being sure.
Problem chain_of(int parts) {
  Problem problem;
  for (int part = 0; part < parts; ++part) {
    problem.prior.push_back(1.0 / parts);
    problem.candidate_of.push_back(part);
    problem.repairs.push_back({60.0, 0, {part}});
  }
  for (int behind = 0; behind + 1 < parts; ++behind) {
    decision::Test test{1.0, 0, 2, {}};
    for (int part = 0; part < parts; ++part) {
      const float faulty = part <= behind ? 1.0F : 0.0F;
      test.likelihood.insert(test.likelihood.end(), {1.0F - faulty, faulty});
    }
    problem.tests.push_back(test);
  }
  return problem;
}

int tests_in(const Plan& plan) {
  return static_cast<int>(std::count_if(plan.steps.begin(), plan.steps.end(),
                                        [](const PlanStep& step) { return step.choice.kind == Choice::Kind::test; }));
}

// Half-split (trade.md E2): eight equal parts are 3 bits, and three tests find any of them.
TEST(DecisionPlanner, HalvesAChainOfEightInThreeTests) {
  const Problem problem = chain_of(8);
  const Planner planner(problem);
  EXPECT_EQ(planner.best_next(at_start(problem)).choice, test_choice(3));
  EXPECT_NEAR(planner.best_next(at_start(problem)).minutes_to_finish, 63.0, rounding(63.0));
  for (int fault = 0; fault < 8; ++fault) {
    const Plan plan = par_plan(problem, planner, fault);
    EXPECT_EQ(tests_in(plan), 3) << fault;
    EXPECT_TRUE(plan.cured) << fault;
    EXPECT_NEAR(plan.minutes, 63.0, rounding(63.0)) << fault;
    EXPECT_NEAR(plan.steps.front().information_bits, 1.0, rounding(1.0));
    EXPECT_EQ(plan.steps[2].truth_share, 1.0);
  }
}

// No chain of n parts can be searched in fewer than log2 n yes-or-no tests on average, and none needs more than
// ceil(log2 n) (trade.md E2, lower bound); with equal shares the best average is that of an optimal prefix code.
TEST(DecisionPlanner, NeedsNoMoreTestsThanThePrefixCode) {
  for (const int parts : {3, 5, 6, 7, 11, 13}) {
    const Problem problem = chain_of(parts);
    const Planner planner(problem);
    const int most = static_cast<int>(std::ceil(std::log2(parts)));
    double total = 0.0;
    for (int fault = 0; fault < parts; ++fault) {
      const int tests = tests_in(par_plan(problem, planner, fault));
      EXPECT_LE(tests, most) << parts;
      total += tests;
    }
    // 2^most - parts of them with a code word of most - 1, the rest with most.
    const int shorter = (1 << most) - parts;
    EXPECT_EQ(total, parts * most - shorter) << parts;
    EXPECT_GE(total / parts, std::log2(parts) - 1e-12) << parts;
  }
}

// The horse race of Cover & Thomas, example 1.1.2 (from memory): asking first whether the favourite won, then the next,
// takes 2 questions on average, which is its entropy. Test i asks whether the winner is among the first i + 1.
TEST(DecisionPlanner, AsksTwoQuestionsAboutAHorseRace) {
  Problem problem = chain_of(8);
  problem.prior = {1.0 / 2, 1.0 / 4, 1.0 / 8, 1.0 / 16, 1.0 / 64, 1.0 / 64, 1.0 / 64, 1.0 / 64};
  const Planner planner(problem);
  double questions = 0.0;
  for (int winner = 0; winner < 8; ++winner) {
    questions += problem.prior[static_cast<std::size_t>(winner)] * tests_in(par_plan(problem, planner, winner));
  }
  EXPECT_NEAR(questions, 2.0, rounding(2.0));
  EXPECT_NEAR(planner.best_next(at_start(problem)).minutes_to_finish, 62.0, rounding(62.0));
}

// One counterfeit among twelve coins, heavier or lighter: the first weighing is four against four (Dyson, The
// Mathematical Gazette 30, 1946, from memory). It splits 24 equal cases into three times eight and tells log2 3 bits;
// no weighing tells more.
TEST(DecisionPlanner, WeighsFourCoinsAgainstFour) {
  Problem problem;
  for (int hypothesis = 0; hypothesis < 24; ++hypothesis) {
    problem.prior.push_back(1.0 / 24);
    problem.candidate_of.push_back(hypothesis);
    problem.repairs.push_back({600.0, 0, {hypothesis}});
  }
  for (int each_side = 1; each_side <= 6; ++each_side) {
    decision::Test weighing{1.0, 0, 3, {}};
    for (int hypothesis = 0; hypothesis < 24; ++hypothesis) {
      const int coin = hypothesis / 2;
      const bool heavy = hypothesis % 2 == 0, left = coin < each_side, on = coin < 2 * each_side;
      const int outcome = !on ? 0 : (heavy == left ? 1 : 2);
      for (int o = 0; o < 3; ++o) weighing.likelihood.push_back(o == outcome ? 1.0F : 0.0F);
    }
    problem.tests.push_back(weighing);
  }
  EXPECT_NEAR(expected_information_bits(problem, problem.prior, 3), std::log2(3.0), rounding(2.0));
  for (int other = 0; other < 6; ++other) {
    EXPECT_LE(expected_information_bits(problem, problem.prior, other), std::log2(3.0) + 1e-12);
  }
}

// The expected-entropy rule of "Diagnosing Multiple Faults" (trade.md S121) on a cascade of inverters, worked by hand:
// the output is wrong, one of four equal inverters is at fault, and the best place to probe is between the second and
// the third: 1 bit is left, against 3/4 log2 3 beside either end.
TEST(DecisionPlanner, ProbesTheMiddleOfInvertersInARow) {
  const Problem problem = chain_of(4);
  const double all = entropy_bits(problem.prior);
  const auto left_bits = [&](int test) { return all - expected_information_bits(problem, problem.prior, test); };
  EXPECT_NEAR(left_bits(1), 1.0, rounding(1.0));
  EXPECT_NEAR(left_bits(0), 0.75 * std::log2(3.0), rounding(1.0));
  EXPECT_NEAR(left_bits(2), left_bits(0), rounding(1.0));
  EXPECT_EQ(Planner(problem).best_next(at_start(problem)).choice, test_choice(1));
}

// By hand, with shares 5/8 and three times 1/8: behind the first, H(5/8) = 0.954 bits; in the middle H(3/4) = 0.811.
TEST(DecisionPlanner, ProbesNextToALikelyPart) {
  Problem problem = chain_of(4);
  problem.prior = {5.0 / 8, 1.0 / 8, 1.0 / 8, 1.0 / 8};
  EXPECT_EQ(Planner(problem).best_next(at_start(problem)).choice, test_choice(0));
}

TEST(DecisionPlanner, RepairsAtOnceWhatIsCheaperThanAnyTest) {
  Problem problem = chain_of(2);
  problem.tests[0].minutes = 40.0;
  problem.repairs[0].cost_minutes = 5.0;
  const Planner planner(problem);
  EXPECT_EQ(planner.best_next(at_start(problem)).choice, repair_choice(0));
  EXPECT_NEAR(planner.best_next(at_start(problem)).minutes_to_finish, 5.0 + 0.5 * 60.0, rounding(35.0));
  // By hand: 40 + (5 + 60) / 2 by the test.
  EXPECT_NEAR(planner.regret_minutes(at_start(problem), test_choice(0)), 72.5 - 35.0, rounding(72.5));
  EXPECT_EQ(planner.regret_minutes(at_start(problem), repair_choice(0)), 0.0);
  EXPECT_NEAR(planner.regret_minutes(at_start(problem), repair_choice(1)), 60.0 + 0.5 * 5.0 - 35.0, rounding(62.5));
}

TEST(DecisionPlanner, HoldsRepairsBackUntilTheShareIsReached) {
  Problem problem = chain_of(2);
  problem.tests[0].minutes = 40.0;
  problem.repairs[0].cost_minutes = 5.0;
  problem.repair_from_share = 0.8;
  const Planner planner(problem);
  EXPECT_FALSE(planner.may_repair(at_start(problem)));
  EXPECT_EQ(planner.best_next(at_start(problem)).choice, test_choice(0));
  EXPECT_TRUE(planner.may_repair(after_test(problem, at_start(problem), 0, 1)));
  // Once a repair has been tried, and when no test is left, nothing holds back the next.
  problem.prior = {0.4, 0.6};
  EXPECT_TRUE(planner.may_repair(after_repair_failed(problem, at_start(problem), 0)));
  problem.tests.clear();
  const Planner blind(problem);
  EXPECT_TRUE(blind.may_repair(at_start(problem)));
}

TEST(DecisionPlanner, OpensAnAccessOnceForAllBehindIt) {
  Problem problem = chain_of(4);
  problem.access_minutes = {10.0};
  for (decision::Test& test : problem.tests) test.access = 1;
  const Planner planner(problem);
  const Plan plan = par_plan(problem, planner, 0);
  EXPECT_NEAR(plan.minutes, 10.0 + 2.0 + 60.0, rounding(72.0));
  EXPECT_NEAR(plan.steps[0].minutes, 11.0, rounding(11.0));
  EXPECT_NEAR(plan.steps[1].minutes, 1.0, rounding(1.0));
}

TEST(DecisionPlanner, HasNothingToSayWhenNothingCanBeCured) {
  Problem problem = chain_of(3);
  problem.repairs.resize(1);
  const Planner planner(problem);
  const Situation start = after_repair_failed(problem, at_start(problem), 0);
  EXPECT_EQ(planner.best_next(start).choice.kind, Choice::Kind::none);
  EXPECT_TRUE(planner.worth_a_look(start).empty());
  EXPECT_FALSE(par_plan(problem, planner, 2).cured);
}

TEST(DecisionPlanner, SaysTheSameTwiceToTheBit) {
  const Problem problem = random_problem({12, 14, 0.1, true, true, 0.8}, 7);
  const auto first = Planner(problem).worth_a_look(at_start(problem));
  const auto again = Planner(problem).worth_a_look(at_start(problem));
  ASSERT_EQ(first.size(), again.size());
  for (std::size_t i = 0; i < first.size(); ++i) {
    EXPECT_EQ(first[i].choice, again[i].choice);
    EXPECT_EQ(first[i].minutes_to_finish, again[i].minutes_to_finish);
  }
}

}  // namespace
}  // namespace voltfall::decision
