#pragma once

#include <cstdint>

#include "decision/problem.h"

namespace voltfall::decision {

/// What kind of problem to draw.
struct ProblemKind {
  int hypotheses = 5, tests = 5;
  double noise = 0.0;       ///< up to this chance of an outcome other than the usual; 0: sure outcomes
  bool accesses = false;    ///< some tests and repairs behind two shared openings
  bool severities = false;  ///< two hypotheses of some candidates, and a repair that cures two candidates
  double repair_from_share = 0.0;
};

/// A sound problem; the same for the same seed everywhere.
Problem random_problem(const ProblemKind& kind, std::uint64_t seed);

}  // namespace voltfall::decision
