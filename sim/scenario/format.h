#pragma once

#include <span>
#include <string>
#include <string_view>

namespace voltfall {

// The format of a scenario file: the one table that the readers ask for ranges and the reference page is made from.

/// A section, in the order the page tells of them.
struct FormatSection {
  std::string_view name;
  bool needed;
  bool many;  ///< [[name]], once for each
  std::string_view meaning;
};
std::span<const FormatSection> all_format_sections();

/// One key of a section.
struct FormatKey {
  std::string_view section, key;
  std::string_view kind;   ///< text, number, whole number, one of, list of
  double lowest, highest;  ///< of a number
  std::string_view unit;
  std::string_view otherwise;  ///< what holds when it is left out; `needed` where it can't be
  std::string_view meaning;
  std::string_view example;  ///< as it stands after the equals sign
};
std::span<const FormatKey> all_format_keys();

/// The row of that key. Throws std::logic_error when there is none: a key without a row is a mistake of the program.
const FormatKey& format_key(std::string_view section, std::string_view key);

/// The reference page, in Markdown: a whole small scenario, every section and key, and every name that may be used.
std::string format_reference();

}  // namespace voltfall
