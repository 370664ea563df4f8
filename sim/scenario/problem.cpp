#include "scenario/problem.h"

#include <fmt/format.h>

namespace voltfall {

std::string Problem::text() const {
  if (line == 0) return fmt::format("{}: {}", file, what);
  return fmt::format("{}:{}:{}: {}", file, line, column, what);
}

}  // namespace voltfall
