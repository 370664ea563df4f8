#include <algorithm>
#include <numeric>

#include "decision/search.h"
#include "decision/sums.h"
#include "decision/suspects.h"

namespace voltfall::decision {
namespace {

// By share of its node. A hypothesis below the first is dropped for good; one below the second does not count where
// the judgement has to be quick.
constexpr double impossible_share = 1e-6, improbable_share = 5e-4;

}  // namespace

Search::Search(const Problem& problem)
    : problem_(problem),
      candidates_(problem.candidates()),
      by_candidate_(problem.prior.size()),
      cheapest_cure_(problem.prior.size(), -1.0) {
  std::iota(by_candidate_.begin(), by_candidate_.end(), 0);
  std::stable_sort(by_candidate_.begin(), by_candidate_.end(),
                   [&](int a, int b) { return problem.candidate_of[at(a)] < problem.candidate_of[at(b)]; });
  for (const Repair& repair : problem.repairs) {
    for (int hypothesis = 0; hypothesis < problem.hypotheses(); ++hypothesis) {
      const int candidate = problem.candidate_of[at(hypothesis)];
      if (std::find(repair.cures.begin(), repair.cures.end(), candidate) == repair.cures.end()) continue;
      double& cheapest = cheapest_cure_[at(hypothesis)];
      if (cheapest < 0.0 || repair.cost_minutes < cheapest) cheapest = repair.cost_minutes;
    }
  }
  for (const Test& test : problem.tests) {
    std::vector<Usual>& usual = usual_.emplace_back();
    for (int hypothesis = 0; hypothesis < problem.hypotheses(); ++hypothesis) {
      const auto row = test.likelihood.begin() + static_cast<std::ptrdiff_t>(hypothesis) * test.outcomes;
      const auto likeliest = std::max_element(row, row + test.outcomes);
      usual.push_back({static_cast<int>(likeliest - row), *likeliest});
    }
  }
  for (int hypothesis = 0; hypothesis < problem.hypotheses(); ++hypothesis) {
    std::vector<bool>& alike = alike_.emplace_back(problem.prior.size());
    for (const int other : group_of(problem, hypothesis)) alike[at(other)] = true;
  }
}

Node Search::node_of(const Situation& situation) const {
  Node all;
  all.opened = situation.opened;
  all.repairing =
      std::find(situation.repairs_done.begin(), situation.repairs_done.end(), true) != situation.repairs_done.end();
  for (int test = 0; test < static_cast<int>(problem_.tests.size()); ++test) {
    if (!situation.tests_done[at(test)]) all.tests.push_back(test);
  }
  all.hypotheses = by_candidate_;
  std::vector<double> weights;
  for (const int hypothesis : by_candidate_) weights.push_back(situation.belief[at(hypothesis)]);
  Node node = with_weights_in(all, weights);
  for (int repair = 0; repair < static_cast<int>(problem_.repairs.size()); ++repair) {
    // Whatever the belief, nobody gains by a repair that has failed.
    if (situation.repairs_done[at(repair)]) node = after_repair(node, repair);
  }
  return node;
}

Node Search::with_weights_in(const Node& parent, const std::vector<double>& weights) const {
  Node node;
  const double total = total_of(weights);
  if (total <= 0.0) return node;  // many an outcome is ruled out: no more work for it
  node.opened = parent.opened;
  node.tests = parent.tests;
  node.repairing = parent.repairing;
  node.pace = parent.pace;
  int unknown_at = -1;
  for (std::size_t i = 0; i < weights.size(); ++i) {
    const int hypothesis = parent.hypotheses[i];
    if (hypothesis == problem_.unknown) {
      unknown_at = static_cast<int>(node.weights.size());
    } else if (weights[i] <= total * impossible_share) {
      continue;
    }
    node.hypotheses.push_back(hypothesis);
    node.weights.push_back(weights[i]);
    if (cheapest_cure_[at(hypothesis)] >= 0.0) node.curable += weights[i];
  }
  if (unknown_at >= 0) {
    double& unknown = node.weights[at(unknown_at)];
    const double floor = problem_.unknown_floor;
    const double all_else = total - unknown;
    unknown = std::max(unknown, floor / (1.0 - floor) * all_else);
    node.caution = unknown - beyond_caution(problem_, unknown, all_else);
  }
  return node;
}

Node Search::after_outcome(const Node& node, int test, int outcome) const {
  const Test& row = problem_.tests[at(test)];
  std::vector<double> weights(node.weights);
  for (std::size_t i = 0; i < weights.size(); ++i) weights[i] *= row.chance(node.hypotheses[i], outcome);
  Node after = with_weights_in(node, weights);
  after.opened |= row.access;
  after.tests.erase(std::remove(after.tests.begin(), after.tests.end(), test), after.tests.end());
  return after;
}

Node Search::after_repair(const Node& node, int repair) const {
  const Repair& row = problem_.repairs[at(repair)];
  std::vector<double> weights(node.weights);
  for (std::size_t i = 0; i < weights.size(); ++i) {
    const int candidate = problem_.candidate_of[at(node.hypotheses[i])];
    if (std::find(row.cures.begin(), row.cures.end(), candidate) != row.cures.end()) weights[i] = 0.0;
  }
  Node after = with_weights_in(node, weights);
  after.opened |= row.access;
  after.repairing = true;
  return after;
}

std::vector<double> Search::candidate_weights(const Node& node) const {
  std::vector<double> weights(at(candidates_), 0.0);
  for (std::size_t i = 0; i < node.weights.size(); ++i) {
    weights[at(problem_.candidate_of[at(node.hypotheses[i])])] += node.weights[i];
  }
  return weights;
}

Node Search::without_improbable(const Node& node) const {
  const double total = total_of(node.weights);
  std::vector<double> weights(node.weights);
  double kept = 0.0;
  for (double& weight : weights) {
    if (weight < improbable_share * total) weight = 0.0;
    kept += weight;
  }
  if (kept <= 0.0) return node;
  for (double& weight : weights) weight *= total / kept;
  return with_weights_in(node, weights);
}

}  // namespace voltfall::decision
