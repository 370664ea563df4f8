// Whatever bytes somebody calls a scenario: read or refused with a reason, never more.

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "scenario/read_scenario.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t count) {
  const std::string_view text(reinterpret_cast<const char*>(bytes), count);
  const voltfall::ReadScenario read = voltfall::read_scenario_text(text, "fuzz.toml");
  if (read.scenario.has_value() == !read.problems.empty()) std::abort();
  return 0;
}
