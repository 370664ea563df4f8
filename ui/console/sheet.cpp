#include <fmt/format.h>

#include <cstdio>

#include "console/commands.h"
#include "console/files.h"
#include "scenario/read_scenario.h"
#include "service_sheet/sheet_contents.h"

namespace voltfall {

int sheet_command(const std::filesystem::path& scenario, const std::string& out) {
  const ReadScenario read = read_scenario(scenario);
  if (!read.scenario) {
    for (const Problem& problem : read.problems) fmt::print(stderr, "{}\n", problem.text());
    return 1;
  }
  return write_page("Service sheet", sheet_as_html(sheet_contents(*read.scenario, english())), out);
}

}  // namespace voltfall
