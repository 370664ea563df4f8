#include <fmt/format.h>
#include <fmt/ostream.h>

#include <array>
#include <filesystem>
#include <iostream>

#include "console/bay_text.h"
#include "console/commands.h"
#include "console/table_place.h"
#include "scenario/read_scenario.h"

namespace voltfall {
namespace {

// What a competent person types on the corroded clamp. Every figure printed comes from the model.
constexpr std::array lines{
    "safe",
    "lamps on",
    "red 1",
    "black 13",
    "note",
    "crank 1.5 note",
    "hear chatter",
    "lamps off",
    "red 1",
    "black 2",
    "note",
    "crank 1.5 note",
    "wiggle positive_clamp",
    "name positive_clamp_corroded evidence 2 3 5 6",
    "negative off",
    "repair clean_positive_clamp",
    "negative on",
    "crank 3 note",
    "red 1",
    "black 13",
    "crank 3 note",
    "close",
};

}  // namespace

int demonstration_command() {
  const std::filesystem::path path =
      std::filesystem::path(VOLTFALL_SOURCE_DIR) / "scenarios" / "clicks_in_the_morning.toml";
  const ReadScenario read = read_scenario(path);
  for (const Problem& problem : read.problems) fmt::print(stderr, "{}\n", problem.text());
  if (!read.scenario) return 1;
  Session session(*read.scenario, table_store().source());
  TextBay bay(session, std::cout);
  bay.greet();
  for (const char* line : lines) {
    fmt::print(std::cout, "> {}\n", line);
    bay.obey(line);
  }
  std::cout.flush();
  return session.score() && session.score()->passed ? 0 : 1;
}

}  // namespace voltfall
