#pragma once

#include <string>

#include "session/session.h"
#include "wording/wording.h"

namespace voltfall {

/// `Passed: 84 of 100`, `Not passed: 52 of 100`
std::string verdict_text(const Score& score);

/// One thing done, in words.
std::string log_text(const LogEntry& entry, const Wording& words);

}  // namespace voltfall
