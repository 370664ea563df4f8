#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace voltfall {

/// Writes a file whole or not at all: to a file beside it, flushed, then renamed. Returns what went wrong, empty when
/// nothing did; an older file of that name is then still as it was.
std::string problem_writing(const std::filesystem::path& path, std::string_view text);

/// The same; says on standard error what went wrong and returns false.
bool write_whole_file(const std::filesystem::path& path, std::string_view text);

/// As `write_whole_file`, and nobody but its owner may read it.
bool write_secret_file(const std::filesystem::path& path, std::string_view text);

/// A page to standard output for `-`, else to that file, which is said as `Debrief: FILE`. Exit code: 0, or 1 when it
/// can't be written.
int write_page(std::string_view title, std::string_view page, const std::string& out);

}  // namespace voltfall
