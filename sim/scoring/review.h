#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "scoring/score_job.h"

namespace voltfall {

/// One thing a learner chose to do, against what else could have been done then. Everything is seen from what the
/// learner had noted up to there, never from the answer.
struct Step {
  enum class Kind { test, repair } kind = Kind::test;
  int finding = 0;     ///< number of the finding; 0 for a repair
  std::string repair;  ///< id of the repair
  double at_minute = 0.0, minutes = 0.0;

  int suspects_before = 0;  ///< candidates that explain everything noted so far
  std::vector<int> split;   ///< of those, how many would stay for each answer, the empty ones left out
  double bits = 0.0;        ///< what the test could be expected to tell
  double bits_per_min = 0.0;

  std::optional<Question> best;  ///< the test that could have told most for its minutes
  std::vector<int> best_split;
  double best_bits = 0.0, best_bits_per_min = 0.0;

  double regret_minutes = 0.0;     ///< expected minutes this choice costs over the best one
  bool left_out = false;           ///< of economy: a battery check, or a confirmation far cheaper than what it protects
  bool able = true;                ///< it could answer its question at all
  std::string why_not;             ///< if it could not
  bool repeated = false;           ///< the same as before, nothing changed
  double truth_share_after = 0.0;  ///< of what is wrong and what can't be told from it

  /// Bits per minute over the best available, 0 to 1; 0 where no test could tell anything worth its minutes any more.
  double rate_share() const {
    constexpr double worth_asking_bits = 0.05;
    return best_bits < worth_asking_bits ? 0.0 : std::min(1.0, bits_per_min / best_bits_per_min);
  }
};

/// Every test noted and every repair done up to the repair that cured the last of what was wrong, in order.
std::vector<Step> steps_of(const JobFacts& facts);

/// The finding after which what is wrong first held at least half of the belief, or the last one that moved it up; 0
/// when none did.
int telling_finding(const std::vector<Step>& steps);

}  // namespace voltfall
