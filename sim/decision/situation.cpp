#include "decision/situation.h"

#include <utility>

#include "decision/sums.h"

namespace voltfall::decision {
namespace {

double own_minutes(const Problem& problem, Choice choice) {
  switch (choice.kind) {
    case Choice::Kind::test:
      return problem.tests[at(choice.index)].minutes;
    case Choice::Kind::repair:
      return problem.repairs[at(choice.index)].cost_minutes;
    case Choice::Kind::none:
      break;
  }
  return 0.0;
}

}  // namespace

Situation at_start(const Problem& problem) {
  return {problem.prior, 0, std::vector<bool>(problem.tests.size()), std::vector<bool>(problem.repairs.size())};
}

Situation after_test(const Problem& problem, Situation situation, int test, int outcome) {
  situation.belief = after_outcome(problem, situation.belief, test, outcome);
  situation.opened |= problem.tests[at(test)].access;
  situation.tests_done[at(test)] = true;
  return situation;
}

Situation after_repair_failed(const Problem& problem, Situation situation, int repair) {
  situation.belief = after_failed_repair(problem, situation.belief, repair);
  situation.opened |= problem.repairs[at(repair)].access;
  situation.repairs_done[at(repair)] = true;
  return situation;
}

Situation after_repair_changed(const Problem& problem, Situation situation, int repair, std::span<const int> becomes) {
  situation.belief = after_change(problem, situation.belief, becomes);
  situation.opened |= problem.repairs[at(repair)].access;
  situation.repairs_done[at(repair)] = true;
  situation.tests_done.assign(situation.tests_done.size(), false);
  return situation;
}

AccessSet access_of(const Problem& problem, Choice choice) {
  switch (choice.kind) {
    case Choice::Kind::test:
      return problem.tests[at(choice.index)].access;
    case Choice::Kind::repair:
      return problem.repairs[at(choice.index)].access;
    case Choice::Kind::none:
      break;
  }
  return 0;
}

double access_minutes(const Problem& problem, AccessSet still_closed) {
  double minutes = 0.0;
  for (const double one : problem.access_minutes) {
    if ((still_closed & 1U) != 0) minutes += one;
    still_closed >>= 1U;
  }
  return minutes;
}

double minutes_of(const Problem& problem, AccessSet opened, Choice choice) {
  return own_minutes(problem, choice) + access_minutes(problem, access_of(problem, choice) & ~opened);
}

double information_rate_bits_per_min(const Problem& problem, const Situation& situation, int test) {
  return expected_information_bits(problem, situation.belief, test) /
         minutes_of(problem, situation.opened, test_choice(test));
}

}  // namespace voltfall::decision
