#pragma once

#include <limits>
#include <span>
#include <vector>

#include "decision/situation.h"

namespace voltfall::decision {

/// Repairs to be tried one after the other until one cures.
struct RepairOrder {
  std::vector<int> repairs;
  /// SUM_i c_i (1 - SUM_{j<i} p_j), over the weight of what the repairs can cure.
  double expected_minutes = 0.0;
};

/// Falling share per cost: the least expected cost for one fault and independent costs. An access is opened for the
/// run of repairs behind it with the best share per cost, access counted (Horn's rule for jobs behind a first one, SIAM
/// Journal on Applied Mathematics 23, 1972, from memory). Where repairs overlap in what they cure, and accesses in what
/// they open, it is a rule of thumb.
RepairOrder repair_order(const Problem& problem, const Situation& situation);

/// The same from the weight of each candidate, which need not sum to 1: the minutes are then weight times minutes.
/// @param limit  where the minutes reach it the order is cut short: they are then no more than a lower bound.
RepairOrder repair_order_of(const Problem& problem, std::vector<double> candidate_weights, AccessSet opened,
                            double limit = std::numeric_limits<double>::infinity());

/// Expected minutes of any given order, access opened as it comes, over the hypotheses that some repair in it cures;
/// 0 when there are none.
double expected_repair_minutes(const Problem& problem, const Situation& situation, std::span<const int> order);

}  // namespace voltfall::decision
