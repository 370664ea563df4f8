#include "console/files.h"

#include <fmt/format.h>

#include <cstdio>
#include <fstream>
#include <system_error>

namespace voltfall {

bool write_whole_file(const std::filesystem::path& path, std::string_view text) {
  std::filesystem::path beside = path;
  beside += ".part";
  {
    std::ofstream file(beside, std::ios::binary | std::ios::trunc);
    file.write(text.data(), static_cast<std::streamsize>(text.size()));
    file.flush();
    if (!file) {
      fmt::print(stderr, "{}: can't be written; check that the folder exists and has room\n", path.string());
      std::error_code ignored;
      std::filesystem::remove(beside, ignored);
      return false;
    }
  }
  std::error_code error;
  std::filesystem::rename(beside, path, error);
  if (error) fmt::print(stderr, "{}: can't be written: {}\n", path.string(), error.message());
  return !error;
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
