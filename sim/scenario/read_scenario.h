#pragma once

#include <filesystem>
#include <optional>
#include <string_view>
#include <vector>

#include "scenario/problem.h"
#include "scenario/scenario.h"

namespace voltfall {

struct ReadScenario {
  std::optional<Scenario> scenario;  ///< empty when there are problems
  std::vector<Problem> problems;     ///< every one, in the order of the file
};

/// The bytes of a file that is meant to be small; a problem when it can't be read to its end or has more than
/// `largest_bytes`.
/// @param kind  what is allowed there, in words: `a scenario file (.toml)`
struct ReadText {
  std::string text;
  std::optional<Problem> problem;
};
ReadText read_small_file(const std::filesystem::path& path, std::size_t largest_bytes, std::string_view kind);

/// Reads a scenario file. Never throws for a bad file: a file that can't be opened is a problem too.
ReadScenario read_scenario(const std::filesystem::path& path);

/// The same from text already in memory; `name` stands in messages.
ReadScenario read_scenario_text(std::string_view text, std::string_view name);

}  // namespace voltfall
