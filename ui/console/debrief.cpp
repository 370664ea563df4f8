#include <fmt/format.h>

#include <cstdio>
#include <iostream>

#include "console/commands.h"
#include "console/files.h"
#include "console/key_file.h"
#include "console/record_place.h"
#include "console/text_report.h"
#include "console/told_table.h"
#include "debrief/debrief_report.h"

namespace voltfall {

int debrief_command(const DebriefOptions& options) {
  const std::filesystem::path& record = options.record;
  if (!options.release.empty()) {
    if (const auto problem = keep_release(options.release)) return explain({*problem});
  }
  const SealOpener opener = options.key.empty() ? by_releases_at_hand(record.parent_path()) : opener_with(options.key);
  if (!opener) return 2;
  const Replay played = replay(record, told_tables(), opener);
  if (!played.session) return explain(played.problems);
  if (!played.finished) {
    fmt::print(stderr, "{}: the job is not closed; allowed: the record of a vehicle that was handed back\n",
               record.string());
    return 1;
  }
  if (!played.session->score()) {
    fmt::print(stderr, "{}: {}\n", record.string(), english().text("sealed.not_released"));
    return 1;
  }
  const DebriefContents contents = debrief_contents(*played.session, english());
  if (!options.html.empty()) return write_page("Debrief", debrief_as_html(contents), options.html);
  print_score(std::cout, *played.session);
  print_debrief(std::cout, contents);
  return 0;
}

}  // namespace voltfall
