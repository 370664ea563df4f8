#include <fmt/format.h>

#include <cstdio>
#include <iostream>

#include "console/commands.h"
#include "console/files.h"
#include "console/text_report.h"
#include "console/told_table.h"
#include "debrief/debrief_report.h"
#include "session/record.h"

namespace voltfall {
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
  if (!html.empty()) return write_page("Debrief", debrief_as_html(contents), html);
  print_score(std::cout, *played.session);
  print_debrief(std::cout, contents);
  return 0;
}

}  // namespace voltfall
