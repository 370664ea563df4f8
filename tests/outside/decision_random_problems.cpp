#include "outside/decision_random_problems.h"

#include <algorithm>
#include <cmath>
#include <random>

namespace voltfall::decision {
namespace {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : bits_(seed) {}

  // Distributions of the standard library differ between its makers; these don't.
  double between(double low, double high) { return low + (high - low) * static_cast<double>(bits_() >> 11U) * 0x1p-53; }
  int below(int end) { return static_cast<int>(bits_() % static_cast<std::uint64_t>(end)); }
  bool chance(double share) { return between(0.0, 1.0) < share; }

 private:
  std::mt19937_64 bits_;
};

AccessSet some_access(const ProblemKind& kind, Dice& dice) {
  return kind.accesses && dice.chance(0.5) ? AccessSet{1} << dice.below(2) : AccessSet{0};
}

// Every hypothesis has a usual outcome; with noise, the others share what it leaves.
Test random_test(const ProblemKind& kind, int hypotheses, Dice& dice) {
  Test test{dice.between(1.0, 15.0), some_access(kind, dice), 2 + dice.below(2), {}};
  for (int hypothesis = 0; hypothesis < hypotheses; ++hypothesis) {
    const int usual = dice.below(test.outcomes);
    const double stray = kind.noise * dice.between(0.0, 1.0);
    for (int outcome = 0; outcome < test.outcomes; ++outcome) {
      const double chance = outcome == usual ? 1.0 - stray : stray / (test.outcomes - 1);
      test.likelihood.push_back(static_cast<float>(chance));
    }
  }
  return test;
}

}  // namespace

Problem random_problem(const ProblemKind& kind, std::uint64_t seed) {
  Dice dice(seed);
  Problem problem;
  problem.repair_from_share = kind.repair_from_share;
  double total = 0.0;
  int candidate = -1;
  for (int hypothesis = 0; hypothesis < kind.hypotheses; ++hypothesis) {
    problem.prior.push_back(-std::log(dice.between(1e-3, 1.0)));
    total += problem.prior.back();
    if (!kind.severities || hypothesis == 0 || dice.chance(0.6)) ++candidate;
    problem.candidate_of.push_back(candidate);
  }
  for (double& share : problem.prior) share /= total;
  if (kind.accesses) problem.access_minutes = {dice.between(2.0, 20.0), dice.between(2.0, 40.0)};
  for (int test = 0; test < kind.tests; ++test) problem.tests.push_back(random_test(kind, kind.hypotheses, dice));
  for (int one = 0; one <= candidate; ++one) {
    problem.repairs.push_back({dice.between(3.0, 80.0), some_access(kind, dice), {one}});
  }
  if (kind.severities && candidate > 0) problem.repairs.push_back({dice.between(40.0, 120.0), 0, {0, candidate}});
  return problem;
}

}  // namespace voltfall::decision
