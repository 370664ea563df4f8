#pragma once

#include <filesystem>
#include <string_view>
#include <vector>

#include "scenario/problem.h"

namespace voltfall {

enum class Depth { right_inside, all_below };

/// The files given, and those of that extension in the folders given, in order of their names. A folder without any is
/// a problem.
std::vector<std::filesystem::path> given_files(const std::vector<std::filesystem::path>& given,
                                               std::string_view extension, Depth depth, std::vector<Problem>& problems);

}  // namespace voltfall
