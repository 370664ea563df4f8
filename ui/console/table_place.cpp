#include "console/table_place.h"

#include <cstdlib>

namespace voltfall {
namespace {

std::filesystem::path tables_folder() {
  const auto set = [](const char* name) {
    const char* value = std::getenv(name);
    return value != nullptr && *value != '\0' ? std::filesystem::path(value) : std::filesystem::path();
  };
  if (const auto cache = set("XDG_CACHE_HOME"); !cache.empty()) return cache / "voltfall" / "tables";
  if (const auto home = set("HOME"); !home.empty()) return home / ".cache" / "voltfall" / "tables";
  return "voltfall-tables";
}

}  // namespace

TableStore& table_store() {
  static TableStore store(tables_folder());
  return store;
}

}  // namespace voltfall
