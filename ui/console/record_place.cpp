#include "console/record_place.h"

#include <fmt/format.h>

#include <cstdlib>

namespace voltfall {

std::filesystem::path records_folder() {
  const auto set = [](const char* name) {
    const char* value = std::getenv(name);
    return value != nullptr && *value != '\0' ? std::filesystem::path(value) : std::filesystem::path();
  };
  if (const auto data = set("XDG_DATA_HOME"); !data.empty()) return data / "voltfall" / "records";
  if (const auto home = set("HOME"); !home.empty()) return home / ".local" / "share" / "voltfall" / "records";
  return std::filesystem::path("voltfall-records");
}

RecordPlace next_record_place(std::string_view scenario_id) {
  const std::filesystem::path folder = records_folder();
  for (int attempt = 1;; ++attempt) {
    std::filesystem::path path = folder / fmt::format("{}-{}.vfrec", scenario_id, attempt);
    std::error_code error;
    if (!std::filesystem::exists(path, error)) return {std::move(path), attempt};
  }
}

}  // namespace voltfall
