#pragma once

#include <string>

#include "dealing/deal.h"
#include "wording/wording.h"

namespace voltfall {

/// What an instructor keeps of a deal: one HTML file with nothing outside it, which prints. First a table of the codes
/// with room for names, then each job with what is wrong, its plan, what shows it and the fall line.
/// @param seed  the deal's, so that it can be dealt again
std::string key_sheet_as_html(const Deal& deal, std::uint64_t seed, const Wording& words);

/// What is wrong with it, in words with its severity: `the positive clamp corroded, 0.031 ohm`.
std::string faults_in_words(const std::vector<HiddenFault>& faults, const Wording& words);

/// What to take home from a fault that the author's own words are not about.
std::string debrief_for(const std::vector<HiddenFault>& faults, const Wording& words);

}  // namespace voltfall
