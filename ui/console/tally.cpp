#include <fmt/format.h>

#include <algorithm>

#include "console/commands.h"
#include "console/files.h"
#include "console/key_file.h"
#include "console/table_place.h"
#include "tally/tally_report.h"

namespace voltfall {
namespace {

namespace fs = std::filesystem;

std::vector<fs::path> records_below(const fs::path& folder) {
  std::vector<fs::path> records;
  std::error_code failed;
  for (auto at = fs::recursive_directory_iterator(folder, failed); at != fs::recursive_directory_iterator();
       at.increment(failed)) {
    if (at->path().extension() == ".vfrec") records.push_back(at->path());
  }
  std::sort(records.begin(), records.end());
  return records;
}

}  // namespace

int tally_command(const TallyOptions& options) {
  const SealOpener opener = opener_with(options.key);
  if (!opener) return 2;
  const std::vector<fs::path> records = records_below(options.folder);
  if (records.empty()) {
    return explain(
        {{options.folder.string(), 0, 0, "holds no record; allowed: a folder with .vfrec files in it or below it"}});
  }
  const TallyContents contents = tally_contents(mark_records(records, table_store().source(), opener), english());
  if (!options.html.empty() && write_page("Class", tally_as_html(contents, english()), options.html) != 0) return 1;
  if (!options.csv.empty() && write_page("Table", tally_as_csv(contents), options.csv) != 0) return 1;
  return 0;
}

}  // namespace voltfall
