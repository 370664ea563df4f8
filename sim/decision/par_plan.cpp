#include "decision/par_plan.h"

#include <algorithm>

#include "decision/sums.h"
#include "decision/suspects.h"

namespace voltfall::decision {
namespace {

int likeliest_outcome(const Test& test, int truth) {
  const auto row = test.likelihood.begin() + static_cast<std::ptrdiff_t>(truth) * test.outcomes;
  return static_cast<int>(std::max_element(row, row + test.outcomes) - row);
}

bool cures(const Problem& problem, Choice choice, int truth) {
  if (choice.kind != Choice::Kind::repair) return false;
  const std::vector<int>& cured = problem.repairs[at(choice.index)].cures;
  return std::find(cured.begin(), cured.end(), problem.candidate_of[at(truth)]) != cured.end();
}

}  // namespace

Plan par_plan(const Problem& problem, const Planner& planner, int truth) {
  return par_plan_from(problem, planner, truth, at_start(problem));
}

Plan par_plan_from(const Problem& problem, const Planner& planner, int truth, Situation situation) {
  const std::vector<int> group = group_of(problem, truth);
  Plan plan;
  while (!plan.cured) {
    const Choice choice = planner.best_next(situation).choice;
    if (choice.kind == Choice::Kind::none) break;
    PlanStep step{choice, -1, minutes_of(problem, situation.opened, choice), 0.0, 0.0};
    plan.cured = cures(problem, choice, truth);
    if (choice.kind == Choice::Kind::test) {
      step.outcome = likeliest_outcome(problem.tests[at(choice.index)], truth);
      step.information_bits = expected_information_bits(problem, situation.belief, choice.index);
      situation = after_test(problem, std::move(situation), choice.index, step.outcome);
    } else if (!plan.cured) {
      situation = after_repair_failed(problem, std::move(situation), choice.index);
    }
    step.truth_share = share_of(group, situation.belief);
    plan.minutes += step.minutes;
    plan.steps.push_back(step);
  }
  return plan;
}

}  // namespace voltfall::decision
