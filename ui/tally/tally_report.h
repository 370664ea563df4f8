#pragma once

#include <string>

#include "tally/tally_contents.h"

namespace voltfall {

/// The class as one HTML file with nothing outside it, which prints; every pupil begins a page.
std::string tally_as_html(const TallyContents& contents, const Wording& words);

/// One row for each record, RFC 4180; what a spreadsheet would take for a formula is made harmless.
std::string tally_as_csv(const TallyContents& contents);

}  // namespace voltfall
