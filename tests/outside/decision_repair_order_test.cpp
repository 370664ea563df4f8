#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <numeric>
#include <vector>

#include "decision/repair_order.h"
#include "outside/decision_random_problems.h"
#include "support/tolerance.h"

namespace voltfall::decision {
namespace {

double least_of_all_orders(const Problem& problem) {
  const Situation start = at_start(problem);
  std::vector<int> order(problem.repairs.size());
  std::iota(order.begin(), order.end(), 0);
  double least = std::numeric_limits<double>::infinity();
  do {
    least = std::min(least, expected_repair_minutes(problem, start, order));
  } while (std::next_permutation(order.begin(), order.end()));
  return least;
}

// "The Efficient Course of Action in Trouble Shooting as a Joint Function of Probability and Cost" (shared/reference
// trade.md S123) and the P-over-C paper beside it (S124): one fault, independent costs, perfect check: falling share
// per cost is best. Against all 720 orders of six.
TEST(DecisionRepairOrder, ByShareOverCostIsTheBestOfAll) {
  for (std::uint64_t seed = 1; seed <= 30; ++seed) {
    const Problem problem = random_problem({6, 1, 0.0, false, false, 0.0}, seed);
    const RepairOrder order = repair_order(problem, at_start(problem));
    for (std::size_t i = 1; i < order.repairs.size(); ++i) {
      const auto before = static_cast<std::size_t>(order.repairs[i - 1]),
                 after = static_cast<std::size_t>(order.repairs[i]);
      EXPECT_GE(problem.prior[before] / problem.repairs[before].cost_minutes,
                problem.prior[after] / problem.repairs[after].cost_minutes);
    }
    EXPECT_NEAR(order.expected_minutes, least_of_all_orders(problem), rounding(order.expected_minutes)) << seed;
  }
}

// Clusters behind one opening (S124): still the best of all orders, access counted once.
TEST(DecisionRepairOrder, WithSharedAccessIsTheBestOfAll) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const Problem problem = random_problem({6, 1, 0.0, true, false, 0.0}, seed);
    const RepairOrder order = repair_order(problem, at_start(problem));
    EXPECT_NEAR(order.expected_minutes, least_of_all_orders(problem), rounding(order.expected_minutes)) << seed;
  }
}

// By hand: c = 10, 20, 40, p = 0.2, 0.5, 0.3. p/c = 0.02, 0.025, 0.0075: 20 + 0.5 * 10 + 0.3 * 40 = 37.
TEST(DecisionRepairOrder, CostsWhatTheFormulaSays) {
  Problem problem;
  problem.prior = {0.2, 0.5, 0.3};
  problem.candidate_of = {0, 1, 2};
  problem.repairs = {{10.0, 0, {0}}, {20.0, 0, {1}}, {40.0, 0, {2}}};
  const RepairOrder order = repair_order(problem, at_start(problem));
  EXPECT_EQ(order.repairs, (std::vector<int>{1, 0, 2}));
  EXPECT_NEAR(order.expected_minutes, 37.0, rounding(37.0));
}

// By hand: 0 is likelier per minute once the bonnet is up, but opening it is not worth it before 2, which needs none.
TEST(DecisionRepairOrder, CountsAnAccessOnce) {
  Problem problem;
  problem.prior = {0.3, 0.3, 0.4};
  problem.candidate_of = {0, 1, 2};
  problem.access_minutes = {20.0};
  problem.repairs = {{10.0, 1, {0}}, {10.0, 1, {1}}, {25.0, 0, {2}}};
  const RepairOrder order = repair_order(problem, at_start(problem));
  EXPECT_EQ(order.repairs, (std::vector<int>{2, 0, 1}));  // 0.4/25 = 0.016; 0.6/40 = 0.015 behind the bonnet
  EXPECT_NEAR(order.expected_minutes, 25.0 + 0.6 * 30.0 + 0.3 * 10.0, rounding(46.0));
  Situation opened = at_start(problem);
  opened.opened = 1;
  EXPECT_EQ(repair_order(problem, opened).repairs, (std::vector<int>{0, 1, 2}));
}

TEST(DecisionRepairOrder, LeavesOutWhatNoRepairCures) {
  Problem problem;
  problem.prior = {0.45, 0.45, 0.1};
  problem.candidate_of = {0, 1, 2};
  problem.unknown = 2;
  problem.repairs = {{10.0, 0, {0}}, {20.0, 0, {1}}};
  EXPECT_NEAR(repair_order(problem, at_start(problem)).expected_minutes, 20.0, rounding(20.0));  // 10 + 20 / 2
}

}  // namespace
}  // namespace voltfall::decision
