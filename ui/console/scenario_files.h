#pragma once

#include <filesystem>
#include <vector>

#include "scenario/problem.h"

namespace voltfall {

/// The files given, and the scenarios (.toml) right in the folders given, in order of their names. A folder without any
/// is a problem.
std::vector<std::filesystem::path> scenario_files(const std::vector<std::filesystem::path>& given,
                                                  std::vector<Problem>& problems);

}  // namespace voltfall
