#include "console/user_folders.h"

#include <fmt/format.h>

#include <cstdlib>

namespace voltfall {
namespace {

std::filesystem::path set_to(const char* name) {
  const char* value = std::getenv(name);
  return value != nullptr && *value != '\0' ? std::filesystem::path(value) : std::filesystem::path();
}

std::filesystem::path folder(const char* variable, const std::filesystem::path& below_home) {
  if (const auto set = set_to(variable); !set.empty()) return set / "voltfall";
  if (const auto home = set_to("HOME"); !home.empty()) return home / below_home / "voltfall";
  return "voltfall-files";
}

}  // namespace

std::filesystem::path data_folder() {
  return folder("XDG_DATA_HOME", std::filesystem::path(".local") / "share");
}

std::filesystem::path cache_folder() {
  return folder("XDG_CACHE_HOME", ".cache");
}

std::filesystem::path own_file(std::string_view stem, std::string_view ending) {
  const std::filesystem::path folder = data_folder() / "saved";
  std::error_code failed;
  std::filesystem::create_directories(folder, failed);
  for (int number = 1;; ++number) {
    std::filesystem::path file = folder / fmt::format("{}_{}{}", stem, number, ending);
    if (!std::filesystem::exists(file, failed)) return file;
  }
}

}  // namespace voltfall
