#pragma once

#include <span>
#include <vector>

#include "decision/problem.h"

namespace voltfall::decision {

/// The share of each hypothesis; sums to 1.
using Belief = std::vector<double>;

/// -SUM p log2 p, in bits. The shares need not sum to 1 exactly; 0 log 0 is 0.
double entropy_bits(std::span<const double> shares);

/// The share of each candidate: what par and information are about is which candidate it is, not how bad.
std::vector<double> candidate_shares(const Problem& problem, const Belief& belief);

/// Bayes' rule, then the floor of the unknown. An outcome that no hypothesis allows leaves all to the unknown; where
/// there is none, the belief as it was.
Belief after_outcome(const Problem& problem, const Belief& belief, int test, int outcome);

/// The same for a repair that was checked and did not cure: nothing it cures was the cause.
Belief after_failed_repair(const Problem& problem, const Belief& belief, int repair);

/// The thing itself was changed, and checked to be still at fault.
/// @param becomes  what each hypothesis is now; -1 where nothing would be left that could be at fault
Belief after_change(const Problem& problem, const Belief& belief, std::span<const int> becomes);

/// P(outcome) of a test under a belief.
std::vector<double> outcome_shares(const Problem& problem, const Belief& belief, int test);

/// The part of the unknown's weight that is over its floor, and that tests can rule out.
double beyond_caution(const Problem& problem, double unknown, double all_else);

/// What the test can be expected to tell about the candidate: H(before) - SUM_o P(o) H(after o), in bits, 0 or more.
/// The floor of the unknown is left out of it: it is our caution, nothing a test tells.
double expected_information_bits(const Problem& problem, const Belief& belief, int test);

}  // namespace voltfall::decision
