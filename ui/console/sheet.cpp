#include "console/commands.h"
#include "console/files.h"
#include "console/key_file.h"
#include "service_sheet/sheet_contents.h"

namespace voltfall {

int sheet_command(const std::filesystem::path& scenario, const std::filesystem::path& key, const std::string& out) {
  const ReadScenario read = read_job_to_show(scenario, key);
  if (!read.scenario) return explain(read.problems);
  return write_page("Service sheet", sheet_as_html(sheet_contents(*read.scenario, english())), out);
}

}  // namespace voltfall
