#pragma once

#include <span>
#include <vector>

#include "decision/situation.h"

namespace voltfall::decision {

/// Repairs to be tried one after the other until one cures.
struct RepairOrder {
  std::vector<int> repairs;
  double expected_minutes = 0.0;  ///< expectation over the hypotheses that one of them cures
};

/// Falling share per cost: the least expected cost for one fault and independent costs. An access is opened for the
/// run of repairs behind it with the best share per cost, access counted (Horn's rule for jobs behind a first one:
/// "Single-machine job sequencing with treelike precedence ordering and linear delay penalties", SIAM J. Appl. Math.
/// 1972, from memory). Where repairs overlap in what they cure, a rule of thumb: what is left to cure counts.
RepairOrder repair_order(const Problem& problem, const Situation& situation);

/// ECR = SUM_i c_i (1 - SUM_{j<i} p_j) in any given order, access opened as it comes. Shares as the belief of the
/// hypotheses that some repair in the order cures; 0 when there are none.
double expected_repair_minutes(const Problem& problem, const Situation& situation, std::span<const int> order);

}  // namespace voltfall::decision
