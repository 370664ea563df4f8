#pragma once

#include <string>
#include <string_view>

#include "scenario/toml_section.h"

namespace voltfall {

// What every reader of a TOML file from a stranger does before and after the parser.

/// Notes every line whose dots could lead the parser's recursion too deep. A text with such a line must not be parsed.
void refuse_crowded_lines(std::string_view text, Mistakes& mistakes);

/// What an author most likely did there, where the parser can only say what it had not expected; else empty.
std::string slip_in(std::string_view text, const toml::source_position& where);

}  // namespace voltfall
