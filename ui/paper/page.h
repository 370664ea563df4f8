#pragma once

#include <string>
#include <string_view>

namespace voltfall {

/// One HTML file with nothing outside it, in the project's own type and ink, that prints on A4 and on letter paper.
/// @param title  plain text
/// @param style  CSS beside the common one
/// @param body   HTML
std::string html_page(std::string_view title, std::string_view style, std::string_view body);

}  // namespace voltfall
