#pragma once

#include <filesystem>
#include <string_view>

namespace voltfall {

/// Writes a file whole or not at all: to a file beside it, flushed, then renamed. Says on standard error what went
/// wrong and returns false; an older file of that name is then still as it was.
bool write_whole_file(const std::filesystem::path& path, std::string_view text);

}  // namespace voltfall
