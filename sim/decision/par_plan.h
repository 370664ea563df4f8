#pragma once

#include <vector>

#include "decision/planner.h"

namespace voltfall::decision {

struct PlanStep {
  Choice choice;
  int outcome = -1;               ///< of a test: the likeliest under the truth
  double minutes = 0.0;           ///< with the access it opened
  double information_bits = 0.0;  ///< what a test could be expected to tell about the candidate
  double truth_share = 0.0;       ///< of the truth's group, after the step
};

/// What the planner would do if the truth were this, seeing only outcomes.
struct Plan {
  std::vector<PlanStep> steps;
  double minutes = 0.0;
  bool cured = false;  ///< false when no repair cures the truth
};

Plan par_plan(const Problem& problem, const Planner& planner, int truth);

/// From a situation on: what is left to do after some steps of one's own.
Plan par_plan_from(const Problem& problem, const Planner& planner, int truth, Situation situation);

}  // namespace voltfall::decision
