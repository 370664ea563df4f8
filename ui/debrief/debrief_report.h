#pragma once

#include <iosfwd>
#include <string>
#include <string_view>

#include "debrief/debrief_contents.h"

namespace voltfall {

/// The whole debrief as plain lines, one fact a line.
void print_debrief(std::ostream& out, const DebriefContents& contents);

/// The same as one HTML file with nothing outside it, which prints on A4 or letter paper; the check to repeat on a real
/// vehicle is its last page.
std::string debrief_as_html(const DebriefContents& contents);

/// What of that page can stand inside another, without the check, and the style it asks for.
std::string debrief_body(const DebriefContents& contents);
std::string_view debrief_style();

/// `310 A, 168 rpm, 9.80 V across the starter`
std::string fall_text(const SettledFall& fall);

}  // namespace voltfall
