#pragma once

#include "debrief/debrief_contents.h"

namespace voltfall {

// The pieces of debrief_contents; of no use outside this folder.

/// What was done, with what each test could have told.
void add_timeline(const Session& session, const Wording& words, DebriefContents& contents);

/// The cheapest sound order of work for what was hidden.
void add_par(const Session& session, const Wording& words, DebriefContents& contents);

/// The learner's own list against what the findings left possible.
void add_suspects(const Session& session, const Wording& words, DebriefContents& contents);

/// What to repeat on a real vehicle.
void add_check(const Session& session, const Wording& words, DebriefContents& contents);

/// One thing done, in words: `crank`, `repair: Fit a new starter relay`.
std::string log_text(const LogEntry& entry, const Wording& words);

/// A finding in words: `1–2 bat. + post to + clamp, cranking: 8.12 V, 162 A`.
std::string finding_text(const Finding& finding, const Wording& words);

/// `A`, `A and B`, `A, B and C`.
std::string enumerated(const std::vector<std::string>& items);

}  // namespace voltfall
