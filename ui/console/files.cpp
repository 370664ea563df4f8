#include "console/files.h"

#include <fmt/format.h>

#include <cstdio>
#include <fstream>
#include <system_error>

namespace voltfall {

namespace {

std::string problem_writing_for(std::filesystem::perms readers, const std::filesystem::path& path,
                                std::string_view text) {
  std::filesystem::path beside = path;
  beside += ".part";
  std::error_code error;
  {
    std::ofstream file(beside, std::ios::binary | std::ios::trunc);
    if (readers != std::filesystem::perms::unknown) std::filesystem::permissions(beside, readers, error);
    file.write(text.data(), static_cast<std::streamsize>(text.size()));
    file.flush();
    if (!file || error) {
      std::filesystem::remove(beside, error);
      return "can't be written; check that the folder exists and has room";
    }
  }
  std::filesystem::rename(beside, path, error);
  return error ? fmt::format("can't be written: {}", error.message()) : std::string();
}

bool told(const std::filesystem::path& path, const std::string& problem) {
  if (!problem.empty()) fmt::print(stderr, "{}: {}\n", path.string(), problem);
  return problem.empty();
}

}  // namespace

std::string problem_writing(const std::filesystem::path& path, std::string_view text) {
  return problem_writing_for(std::filesystem::perms::unknown, path, text);
}

bool write_whole_file(const std::filesystem::path& path, std::string_view text) {
  return told(path, problem_writing(path, text));
}

bool write_secret_file(const std::filesystem::path& path, std::string_view text) {
  using std::filesystem::perms;
  return told(path, problem_writing_for(perms::owner_read | perms::owner_write, path, text));
}

int write_page(std::string_view title, std::string_view page, const std::string& out) {
  if (out == "-") {
    fmt::print("{}", page);
    return 0;
  }
  if (!write_whole_file(out, page)) return 1;
  fmt::print("{}: {}\n", title, out);
  return 0;
}

}  // namespace voltfall
