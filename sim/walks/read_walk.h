#pragma once

#include <filesystem>
#include <optional>
#include <string_view>
#include <vector>

#include "scenario/problem.h"
#include "walks/walk.h"

namespace voltfall {

struct ReadWalk {
  std::optional<BenchWalk> walk;  ///< empty when there are problems
  std::vector<Problem> problems;  ///< every one, in the order of the file
};

/// Reads one walk. Never throws for a bad file. Whether the model bears it out is for `prove` to say: that takes
/// cranks.
ReadWalk read_walk(const std::filesystem::path& path);

/// The same from text already in memory; `name` stands in messages.
ReadWalk read_walk_text(std::string_view text, std::string_view name);

struct ReadWalks {
  std::vector<BenchWalk> walks;   ///< the sound ones, by number
  std::vector<Problem> problems;  ///< of all the others: one bad file does not keep the rest away
};

/// Every `*.toml` of a folder.
ReadWalks read_walks(const std::filesystem::path& folder);

}  // namespace voltfall
