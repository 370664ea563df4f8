#pragma once

#include "decision/planner.h"

namespace voltfall::decision {

/// The least expected minutes to the cure there can be, by trying everything: dynamic programming over all histories of
/// outcomes and repairs. Written apart from the planner, from the definition of the problem alone. For a handful of
/// hypotheses and tests, each with a repair of its own or more, none of them the unknown.
double least_expected_minutes(const Problem& problem);

/// The same for tests that are sure (no noise), no accesses, and repairs at any time: then a history is no more than
/// the set of hypotheses it left, and a dozen and a half of them can be done.
double least_expected_minutes_of_sure(const Problem& problem);

/// The expected minutes of somebody who always does what the planner says, over every hypothesis and every outcome.
double planned_expected_minutes(const Problem& problem, double effort = Planner::usual_effort);

/// The same for somebody who takes the test with the most expected information per minute as long as that saves
/// anything in repairs at once, and else the repairs by share per cost.
double greedy_expected_minutes(const Problem& problem);

}  // namespace voltfall::decision
