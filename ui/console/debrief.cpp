#include <fmt/format.h>

#include <cstdio>
#include <fstream>
#include <iostream>

#include "console/commands.h"
#include "console/text_report.h"
#include "console/told_table.h"
#include "debrief/debrief_report.h"
#include "session/record.h"

namespace voltfall {
namespace {

int write_page(const std::string& page, const std::string& out) {
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
  fmt::print("Debrief: {}\n", out);
  return 0;
}

}  // namespace

int debrief_command(const std::filesystem::path& record, const std::string& html) {
  const Replay played = replay(record, told_tables());
  for (const Problem& problem : played.problems) fmt::print(stderr, "{}\n", problem.text());
  if (!played.session) return 2;
  if (!played.finished) {
    fmt::print(stderr, "{}: the job is not closed; allowed: the record of a vehicle that was handed back\n",
               record.string());
    return 1;
  }
  const DebriefContents contents = debrief_contents(*played.session, english());
  if (!html.empty()) return write_page(debrief_as_html(contents), html);
  print_score(std::cout, *played.session);
  print_debrief(std::cout, contents);
  return 0;
}

}  // namespace voltfall
