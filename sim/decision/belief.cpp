#include "decision/belief.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "decision/sums.h"

namespace voltfall::decision {
namespace {

void hold_floor(const Problem& problem, Belief& belief) {
  if (problem.unknown < 0) return;
  double& unknown = belief[at(problem.unknown)];
  if (unknown >= problem.unknown_floor) return;
  const double shrink = (1.0 - problem.unknown_floor) / (1.0 - unknown);
  for (double& share : belief) share *= shrink;
  unknown = problem.unknown_floor;
}

// Weights to shares. Where nothing is left, the unknown has it; without an unknown, what was believed before.
Belief normalised(const Problem& problem, Belief weights, const Belief& before) {
  const double total = std::accumulate(weights.begin(), weights.end(), 0.0);
  if (total <= 0.0) {
    if (problem.unknown < 0) return before;
    std::fill(weights.begin(), weights.end(), 0.0);
    weights[at(problem.unknown)] = 1.0;
    return weights;
  }
  for (double& weight : weights) weight /= total;
  hold_floor(problem, weights);
  return weights;
}

Belief joint_with(const Problem& problem, const Belief& belief, int test, int outcome) {
  Belief joint(belief.size());
  const Test& made = problem.tests[at(test)];
  for (int hypothesis = 0; hypothesis < problem.hypotheses(); ++hypothesis) {
    joint[at(hypothesis)] = belief[at(hypothesis)] * made.chance(hypothesis, outcome);
  }
  return joint;
}

}  // namespace

double entropy_bits(std::span<const double> shares) {
  double bits = 0.0;
  for (const double share : shares) {
    if (share > 0.0) bits -= share * std::log2(share);
  }
  return bits;
}

std::vector<double> candidate_shares(const Problem& problem, const Belief& belief) {
  std::vector<double> shares(at(problem.candidates()), 0.0);
  for (std::size_t hypothesis = 0; hypothesis < belief.size(); ++hypothesis) {
    shares[at(problem.candidate_of[hypothesis])] += belief[hypothesis];
  }
  return shares;
}

Belief after_outcome(const Problem& problem, const Belief& belief, int test, int outcome) {
  return normalised(problem, joint_with(problem, belief, test, outcome), belief);
}

Belief after_failed_repair(const Problem& problem, const Belief& belief, int repair) {
  Belief left = belief;
  for (std::size_t hypothesis = 0; hypothesis < belief.size(); ++hypothesis) {
    const std::vector<int>& cures = problem.repairs[at(repair)].cures;
    if (std::find(cures.begin(), cures.end(), problem.candidate_of[hypothesis]) != cures.end()) left[hypothesis] = 0.0;
  }
  return normalised(problem, left, belief);
}

Belief after_change(const Problem& problem, const Belief& belief, std::span<const int> becomes) {
  Belief changed(belief.size(), 0.0);
  for (std::size_t hypothesis = 0; hypothesis < belief.size(); ++hypothesis) {
    if (becomes[hypothesis] >= 0) changed[at(becomes[hypothesis])] += belief[hypothesis];
  }
  return normalised(problem, changed, belief);
}

std::vector<double> outcome_shares(const Problem& problem, const Belief& belief, int test) {
  std::vector<double> shares;
  for (int outcome = 0; outcome < problem.tests[at(test)].outcomes; ++outcome) {
    const Belief joint = joint_with(problem, belief, test, outcome);
    shares.push_back(std::accumulate(joint.begin(), joint.end(), 0.0));
  }
  return shares;
}

namespace {

// What is kept for the unknown out of caution alone is left out: it comes back after every outcome, so that no test
// could ever rule it out.
Belief without_caution(const Problem& problem, const Belief& belief) {
  if (problem.unknown < 0) return belief;
  Belief told = belief;
  double& unknown = told[at(problem.unknown)];
  unknown = beyond_caution(problem, unknown, 1.0 - unknown);
  const double total = std::accumulate(told.begin(), told.end(), 0.0);
  if (total <= 0.0) return belief;
  for (double& share : told) share /= total;
  return told;
}

}  // namespace

double beyond_caution(const Problem& problem, double unknown, double all_else) {
  constexpr double rounding = 1e-9;
  const double caution = problem.unknown_floor / (1.0 - problem.unknown_floor) * all_else;
  return unknown > caution * (1.0 + rounding) ? unknown - caution : 0.0;
}

double expected_information_bits(const Problem& problem, const Belief& as_believed, int test) {
  const Belief belief = without_caution(problem, as_believed);
  // With J the weights of (candidate and outcome) together: SUM_o P(o) H(after o) = H(J) - H(outcome).
  double joint_bits = 0.0;
  for (int outcome = 0; outcome < problem.tests[at(test)].outcomes; ++outcome) {
    joint_bits += entropy_bits(candidate_shares(problem, joint_with(problem, belief, test, outcome)));
  }
  const double after_bits = joint_bits - entropy_bits(outcome_shares(problem, belief, test));
  return std::max(0.0, entropy_bits(candidate_shares(problem, belief)) - after_bits);
}

}  // namespace voltfall::decision
