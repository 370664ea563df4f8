#include "console/commands.h"
#include "console/files.h"
#include "console/given_files.h"
#include "console/key_file.h"
#include "console/table_place.h"
#include "tally/tally_report.h"

namespace voltfall {
int tally_command(const TallyOptions& options) {
  const SealOpener opener = opener_with(options.key);
  if (!opener) return 2;
  std::vector<Problem> problems;
  const auto records = given_files({options.folder}, ".vfrec", Depth::all_below, problems);
  if (!problems.empty()) return explain(problems);
  const TallyContents contents = tally_contents(mark_records(records, table_store().source(), opener), english());
  if (!options.html.empty() && write_page("Class", tally_as_html(contents, english()), options.html) != 0) return 1;
  if (!options.csv.empty() && write_page("Table", tally_as_csv(contents), options.csv) != 0) return 1;
  return 0;
}

}  // namespace voltfall
