#include <fmt/format.h>

#include <cstdio>
#include <fstream>

#include "console/commands.h"
#include "scenario/read_scenario.h"
#include "service_sheet/sheet_contents.h"

namespace voltfall {

int sheet_command(const std::filesystem::path& scenario, const std::string& out) {
  const ReadScenario read = read_scenario(scenario);
  if (!read.scenario) {
    for (const Problem& problem : read.problems) fmt::print(stderr, "{}\n", problem.text());
    return 1;
  }
  const std::string page = sheet_as_html(sheet_contents(*read.scenario, english()));
  if (out == "-") {
    fmt::print("{}", page);
    return 0;
  }
  std::ofstream file(out);
  file << page;
  if (!file.flush()) {
    fmt::print(stderr, "{}: can't be written; allowed: a file in a folder that is there, or - for standard output\n",
               out);
    return 1;
  }
  fmt::print("Service sheet: {}\n", out);
  return 0;
}

}  // namespace voltfall
