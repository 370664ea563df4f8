#pragma once

#include <string>
#include <vector>

#include "debrief/settled_fall.h"
#include "session/session.h"
#include "wording/wording.h"

namespace voltfall {

/// A gate or a line of the score.
struct DebriefPoint {
  bool held;  ///< a gate that holds, a line with at least 70 % of its points
  std::string head, figure, reason;
};

/// One thing done, or one that par would have done.
struct DebriefStep {
  double at_minute = 0.0, minutes = 0.0, money = 0.0;
  std::string what;
  std::vector<std::string> notes;  ///< what it could tell and what it cost over the best, a sentence each
  bool telling = false;            ///< the finding that told
};

/// Names under a heading.
struct DebriefList {
  std::string heading;
  std::vector<std::string> names;
};

/// A reading to repeat on a real vehicle, with its limit.
struct CheckRow {
  std::string what, limit;
};

/// All that is said of a closed job, in words: the same on the screen, in the terminal and on paper.
struct DebriefContents {
  std::string title, vehicle, currency;
  std::string verdict;                   ///< `Passed: 84.0 of 100`
  std::vector<std::string> what_it_was;  ///< what was hidden, what was named
  std::vector<DebriefPoint> gates, points;
  std::vector<DebriefStep> timeline;  ///< one for each entry of the job's log
  std::string timeline_sum;
  std::vector<DebriefStep> par;
  std::string par_sum;
  std::string suspects_sum;
  std::vector<DebriefList> suspects;
  FallComparison falls;
  std::vector<std::string> safety;
  std::string author;  ///< what the author wants taken home; may be empty
  std::vector<std::string> check_steps, cautions;
  std::vector<CheckRow> check_rows;
};

/// Works all of it out; takes seconds, for it asks the planner about every step and cranks three vehicles.
/// @pre the session is closed
DebriefContents debrief_contents(const Session& session, const Wording& words);

/// `Passed: 84.0 of 100`, `Not passed: 52.0 of 100`
std::string verdict_text(const Score& score);

}  // namespace voltfall
