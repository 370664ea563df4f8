#include "scenario/toml_slips.h"

#include <fmt/format.h>

#include <algorithm>

namespace voltfall {
namespace {

// The parser makes one table within another for each part of a dotted key and then walks them by recursion: a key of a
// hundred thousand parts would end the program. No line that a person writes comes near this many dots.
constexpr std::ptrdiff_t most_dots_in_a_line = 40;

std::string_view row_of(std::string_view text, toml::source_index line) {
  for (toml::source_index at = 1; at < line; ++at) text.remove_prefix(std::min(text.find('\n'), text.size() - 1) + 1);
  return text.substr(0, text.find('\n'));
}

}  // namespace

void refuse_crowded_lines(std::string_view text, Mistakes& mistakes) {
  toml::source_index line = 1;
  for (std::size_t start = 0; start < text.size(); ++line) {
    const std::size_t end = std::min(text.find('\n', start), text.size());
    const std::string_view row = text.substr(start, end - start);
    if (std::count(row.begin(), row.end(), '.') > most_dots_in_a_line) {
      mistakes.add(toml::source_position{line, 1},
                   fmt::format("the line has too many dots; allowed: at most {}", most_dots_in_a_line));
    }
    start = end + 1;
  }
}

std::string slip_in(std::string_view text, const toml::source_position& where) {
  const std::string_view row = row_of(text, where.line);
  for (const std::string_view curly : {"\u201C", "\u201D", "\u2018", "\u2019"}) {
    if (row.find(curly) != std::string_view::npos) return "; quotes have to be straight ones: \"";
  }
  const auto digit = [&](std::size_t at) { return at < row.size() && row[at] >= '0' && row[at] <= '9'; };
  for (std::size_t comma = row.find(','); comma != std::string_view::npos; comma = row.find(',', comma + 1)) {
    if (comma > 0 && digit(comma - 1) && digit(comma + 1)) return "; the decimal mark is a point: 0.5";
  }
  return {};
}

}  // namespace voltfall
