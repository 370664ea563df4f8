#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace voltfall {

/// Writes a file whole or not at all: to a file beside it, flushed, then renamed. Says on standard error what went
/// wrong and returns false; an older file of that name is then still as it was.
bool write_whole_file(const std::filesystem::path& path, std::string_view text);

/// A page to standard output for `-`, else to that file, which is said as `Debrief: FILE`. Exit code: 0, or 1 when it
/// can't be written.
int write_page(std::string_view title, std::string_view page, const std::string& out);

}  // namespace voltfall
