#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

/// Finding one true hypothesis among several by tests, and curing it by repairs, at the least expected cost. Pure
/// arithmetic: what the numbers stand for is the caller's.
namespace voltfall::decision {

/// Bit i is access i of the problem: a bonnet raised, a part taken out. Opened once, open for all that follows.
using AccessSet = std::uint32_t;

struct Test {
  double minutes = 0.0;  ///< without access; above 0
  AccessSet access = 0;  ///< what has to be open for it
  int outcomes = 2;
  /// P(outcome | hypothesis) at [hypothesis * outcomes + outcome]; every row sums to 1.
  std::vector<float> likelihood;

  double chance(int hypothesis, int outcome) const {
    const auto row = static_cast<std::size_t>(hypothesis) * static_cast<std::size_t>(outcomes);
    return static_cast<double>(likelihood[row + static_cast<std::size_t>(outcome)]);
  }
};

struct Repair {
  double cost_minutes = 0.0;  ///< labour, and parts turned into minutes, without access; above 0
  AccessSet access = 0;
  std::vector<int> cures;  ///< candidates; the check after a repair is taken as sure
};

/// What may be true, what may be tried, and what that costs. Exactly one hypothesis is true.
struct Problem {
  std::vector<double> prior;           ///< by hypothesis; sums to 1
  std::vector<int> candidate_of;       ///< what a person would name: several severities of a fault are one candidate
  int unknown = -1;                    ///< the hypothesis "something else or more than one"; -1 when there is none
  double unknown_floor = 0.02;         ///< its share never falls below this
  std::vector<double> access_minutes;  ///< at most 32
  std::vector<Test> tests;
  std::vector<Repair> repairs;
  /// No repair may come first before the group of hypotheses that can't be told apart, round the likeliest one, holds
  /// this share, as long as any test can still tell something. 0: repairs at any time.
  double repair_from_share = 0.0;

  int hypotheses() const { return static_cast<int>(prior.size()); }
  int candidates() const;
};

/// What is wrong with a problem, one sentence each; empty when it is sound.
std::vector<std::string> complaints_about(const Problem& problem);

}  // namespace voltfall::decision
