#include <benchmark/benchmark.h>

#include <algorithm>
#include <cstdint>
#include <random>
#include <vector>

#include "decision/par_plan.h"
#include "decision/planner.h"

namespace voltfall::decision {
namespace {

constexpr int candidates = 70, tests = 150, repairs = 60, accesses = 6;
constexpr int unknown = 249;  // two candidates are left without all their severities: 250 hypotheses

double between(std::mt19937_64& bits, double low, double high) {
  return low + (high - low) * static_cast<double>(bits() >> 11U) * 0x1p-53;
}

AccessSet some_access(std::mt19937_64& bits) {
  return between(bits, 0.0, 1.0) < 0.4 ? AccessSet{1} << (bits() % accesses) : AccessSet{0};
}

// As readings along a circuit do: a test sees a stretch of the candidates, the more surely the worse the fault; the
// others look healthy, but for a stray.
Test stretch_test(const Problem& problem, std::mt19937_64& bits) {
  Test test{between(bits, 0.5, 12.0), some_access(bits), 2 + static_cast<int>(bits() % 5), {}};
  const int from = static_cast<int>(bits() % candidates), length = 1 + static_cast<int>(bits() % (candidates / 2));
  for (int hypothesis = 0; hypothesis < problem.hypotheses(); ++hypothesis) {
    const int candidate = problem.candidate_of[static_cast<std::size_t>(hypothesis)];
    const bool seen = candidate >= from && candidate < from + length;
    const int usual = seen ? 1 + (hypothesis * 7 + from) % (test.outcomes - 1) : 0;
    const double stray = hypothesis == unknown ? 1.0 - 1.0 / test.outcomes : between(bits, 0.0, seen ? 0.3 : 0.04);
    for (int outcome = 0; outcome < test.outcomes; ++outcome) {
      const double chance = outcome == usual ? 1.0 - stray : stray / (test.outcomes - 1);
      test.likelihood.push_back(static_cast<float>(chance));
    }
  }
  return test;
}

Problem whole_vehicle(double repair_from_share) {
  std::mt19937_64 bits(4);
  Problem problem;
  problem.repair_from_share = repair_from_share;
  problem.unknown = unknown;
  for (int hypothesis = 0; hypothesis <= unknown; ++hypothesis) {
    problem.candidate_of.push_back(hypothesis == unknown ? candidates : hypothesis % candidates);
    problem.prior.push_back(hypothesis == unknown ? 0.02 : 0.98 / unknown);
  }
  for (int access = 0; access < accesses; ++access) problem.access_minutes.push_back(between(bits, 1.0, 30.0));
  for (int test = 0; test < tests; ++test) problem.tests.push_back(stretch_test(problem, bits));
  for (int repair = 0; repair < repairs; ++repair) {
    problem.repairs.push_back({between(bits, 5.0, 200.0), some_access(bits), {repair}});
  }
  for (int candidate = repairs; candidate < candidates; ++candidate) {
    problem.repairs[static_cast<std::size_t>(candidate - repairs)].cures.push_back(candidate);
  }
  return problem;
}

// The first choice of a job, when all is open: the slowest.
void best_next_test(benchmark::State& state) {
  const Problem problem = whole_vehicle(static_cast<double>(state.range(0)) / 100.0);
  const Planner planner(problem);
  const Situation start = at_start(problem);
  for ([[maybe_unused]] auto _ : state) benchmark::DoNotOptimize(planner.best_next(start));
}
BENCHMARK(best_next_test)->ArgName("repair_from_percent")->Arg(0)->Arg(80)->Unit(benchmark::kMillisecond);

void planner_made(benchmark::State& state) {
  const Problem problem = whole_vehicle(0.8);
  for ([[maybe_unused]] auto _ : state) {
    const Planner planner(problem);
    benchmark::DoNotOptimize(planner.may_repair(at_start(problem)));
  }
}
BENCHMARK(planner_made)->Unit(benchmark::kMillisecond);

void par_planned(benchmark::State& state) {
  const Problem problem = whole_vehicle(0.8);
  const Planner planner(problem);
  double minutes = 0.0, steps = 0.0;
  for ([[maybe_unused]] auto _ : state) {
    const Plan plan = par_plan(problem, planner, 10);
    minutes = plan.minutes;
    steps = static_cast<double>(plan.steps.size());
  }
  state.counters["par_minutes"] = minutes;
  state.counters["steps"] = steps;
}
BENCHMARK(par_planned)->Unit(benchmark::kMillisecond);

// An hour's job has some tens of readings; every one is a step of Bayes' rule, and the list of tests shows what each
// could tell.
void all_tests_valued(benchmark::State& state) {
  const Problem problem = whole_vehicle(0.8);
  for ([[maybe_unused]] auto _ : state) {
    for (int test = 0; test < tests; ++test) {
      benchmark::DoNotOptimize(expected_information_bits(problem, problem.prior, test));
    }
  }
}
BENCHMARK(all_tests_valued)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace voltfall::decision
