#pragma once

#include <vector>

#include "decision/belief.h"

namespace voltfall::decision {

struct Choice {
  enum class Kind { none, test, repair } kind = Kind::none;
  int index = -1;

  bool operator==(const Choice&) const = default;
};

inline Choice test_choice(int test) {
  return {Choice::Kind::test, test};
}
inline Choice repair_choice(int repair) {
  return {Choice::Kind::repair, repair};
}

/// Where somebody stands who has done some tests and repairs. A test done gives nothing new; a repair done neither.
struct Situation {
  Belief belief;
  AccessSet opened = 0;
  std::vector<bool> tests_done, repairs_done;

  bool operator==(const Situation&) const = default;
};

Situation at_start(const Problem& problem);
Situation after_test(const Problem& problem, Situation situation, int test, int outcome);
Situation after_repair_failed(const Problem& problem, Situation situation, int repair);

/// A repair that changed the thing and left it at fault: what was measured before it is open again.
Situation after_repair_changed(const Problem& problem, Situation situation, int repair, std::span<const int> becomes);

/// What a choice costs with the access it still has to open.
double minutes_of(const Problem& problem, AccessSet opened, Choice choice);
/// What it takes to open these.
double access_minutes(const Problem& problem, AccessSet still_closed);
AccessSet access_of(const Problem& problem, Choice choice);

/// Expected information of a test about the candidate per minute, access included.
double information_rate_bits_per_min(const Problem& problem, const Situation& situation, int test);

}  // namespace voltfall::decision
