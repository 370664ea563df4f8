#pragma once

#include <span>
#include <vector>

#include "decision/belief.h"

namespace voltfall::decision {

struct Seen {
  int test, outcome;
};

/// An outcome this likely under a hypothesis is explained by it.
inline constexpr double explained_from = 0.05;

/// The candidates of which one severity explains every outcome so far, in rising order. The unknown explains anything
/// and is not among them.
std::vector<int> consistent_candidates(const Problem& problem, std::span<const Seen> seen,
                                       double explained = explained_from);

/// By outcome of the test: how many candidates would stay consistent if it came. Several severities of a candidate may
/// answer differently, so that the counts can sum to more than there are.
std::vector<int> split(const Problem& problem, std::span<const Seen> seen, int test, double explained = explained_from);

/// Two hypotheses that no test tells apart better than this distance belong together.
inline constexpr double told_apart_from = 0.5;

/// The largest, over all tests, of the total variation distance between two hypotheses' outcomes: 0 alike, 1 never the
/// same outcome.
double distance(const Problem& problem, int hypothesis, int other);
bool inseparable(const Problem& problem, int hypothesis, int other, double apart = told_apart_from);

/// The hypotheses that count as this one: every severity of its own candidate, and all that the tests can't tell from
/// it. In rising order; never the unknown, save for itself.
std::vector<int> group_of(const Problem& problem, int hypothesis, double apart = told_apart_from);

/// The candidates in a group, in rising order.
std::vector<int> candidates_in(const Problem& problem, std::span<const int> group);

/// The sum of a group's shares.
double share_of(std::span<const int> group, const Belief& belief);

/// The likeliest severity of a candidate: the hypothesis whose group a naming of the candidate is judged by.
int likeliest_of(const Problem& problem, const Belief& belief, int candidate);

}  // namespace voltfall::decision
