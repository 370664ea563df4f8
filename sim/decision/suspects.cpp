#include "decision/suspects.h"

#include <algorithm>
#include <cmath>

#include "decision/sums.h"

namespace voltfall::decision {
namespace {

bool explains(const Problem& problem, int hypothesis, const Seen& seen, double explained) {
  return problem.tests[at(seen.test)].chance(hypothesis, seen.outcome) >= explained;
}

// Every hypothesis but the unknown that explains all that was seen.
std::vector<int> consistent_hypotheses(const Problem& problem, std::span<const Seen> seen, double explained) {
  std::vector<int> consistent;
  for (int hypothesis = 0; hypothesis < problem.hypotheses(); ++hypothesis) {
    const bool all = std::all_of(seen.begin(), seen.end(),
                                 [&](const Seen& one) { return explains(problem, hypothesis, one, explained); });
    if (all && hypothesis != problem.unknown) consistent.push_back(hypothesis);
  }
  return consistent;
}

double distance_by(const Test& test, int hypothesis, int other) {
  double apart = 0.0;
  for (int outcome = 0; outcome < test.outcomes; ++outcome) {
    apart += std::abs(test.chance(hypothesis, outcome) - test.chance(other, outcome));
  }
  return 0.5 * apart;
}

}  // namespace

std::vector<int> consistent_candidates(const Problem& problem, std::span<const Seen> seen, double explained) {
  return candidates_in(problem, consistent_hypotheses(problem, seen, explained));
}

std::vector<int> split(const Problem& problem, std::span<const Seen> seen, int test, double explained) {
  const std::vector<int> before = consistent_hypotheses(problem, seen, explained);
  std::vector<int> counts;
  for (int outcome = 0; outcome < problem.tests[at(test)].outcomes; ++outcome) {
    std::vector<int> left;
    std::copy_if(before.begin(), before.end(), std::back_inserter(left), [&](int hypothesis) {
      return explains(problem, hypothesis, {test, outcome}, explained);
    });
    counts.push_back(static_cast<int>(candidates_in(problem, left).size()));
  }
  return counts;
}

double distance(const Problem& problem, int hypothesis, int other) {
  double largest = 0.0;
  for (const Test& test : problem.tests) largest = std::max(largest, distance_by(test, hypothesis, other));
  return largest;
}

bool inseparable(const Problem& problem, int hypothesis, int other, double apart) {
  return std::all_of(problem.tests.begin(), problem.tests.end(),
                     [&](const Test& test) { return distance_by(test, hypothesis, other) < apart; });
}

std::vector<int> group_of(const Problem& problem, int hypothesis, double apart) {
  std::vector<int> group;
  for (int other = 0; other < problem.hypotheses(); ++other) {
    const bool same = problem.candidate_of[at(other)] == problem.candidate_of[at(hypothesis)];
    const bool either_unknown = other == problem.unknown || hypothesis == problem.unknown;
    if (same || (!either_unknown && inseparable(problem, hypothesis, other, apart))) group.push_back(other);
  }
  return group;
}

std::vector<int> candidates_in(const Problem& problem, std::span<const int> group) {
  std::vector<int> candidates;
  for (const int hypothesis : group) candidates.push_back(problem.candidate_of[at(hypothesis)]);
  std::sort(candidates.begin(), candidates.end());
  candidates.erase(std::unique(candidates.begin(), candidates.end()), candidates.end());
  return candidates;
}

double share_of(std::span<const int> group, const Belief& belief) {
  double share = 0.0;
  for (const int hypothesis : group) share += belief[at(hypothesis)];
  return share;
}

int likeliest_of(const Problem& problem, const Belief& belief, int candidate) {
  int likeliest = -1;
  for (int hypothesis = 0; hypothesis < problem.hypotheses(); ++hypothesis) {
    if (problem.candidate_of[at(hypothesis)] != candidate) continue;
    if (likeliest < 0 || belief[at(hypothesis)] > belief[at(likeliest)]) likeliest = hypothesis;
  }
  return likeliest;
}

}  // namespace voltfall::decision
