#include "dealing/deal.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <sstream>

#include "console/commands.h"
#include "console/files.h"
#include "console/given_files.h"
#include "console/key_file.h"
#include "console/told_table.h"
#include "key_sheet/key_sheet.h"

namespace voltfall {
namespace {

namespace fs = std::filesystem;

/// Every file or none of them is a promise that a folder can't keep; what was written is named, what was not is too.
bool write_jobs(const Deal& dealt, const InstructorKey& key, const DealOptions& options) {
  const fs::path pupils = options.into / "pupils";
  std::error_code failed;
  fs::create_directories(pupils, failed);
  for (const DealtJob& job : dealt.jobs) {
    const std::string sealed = sealed_job_text(job.scenario.id, job.text, job.code, key);
    if (!write_whole_file(pupils / (job.code + ".vfjob"), sealed)) return false;
  }
  std::string codes;
  for (const DealtJob& job : dealt.jobs) codes += job.code + "\n";
  return write_whole_file(options.into / "codes.txt", codes) &&
         write_whole_file(options.into / "key_sheet.html", key_sheet_as_html(dealt, options.seed, english()));
}

/// The codes of an earlier deal, one on a line, so that a pupil keeps his own.
std::vector<std::string> codes_in(const fs::path& file, std::vector<Problem>& problems) {
  constexpr std::size_t largest_bytes = std::size_t{1} << 20;
  const ReadText read = read_small_file(file, largest_bytes, "the codes.txt of an earlier deal");
  if (read.problem) problems.push_back(*read.problem);
  std::istringstream lines(read.text);
  std::vector<std::string> codes;
  for (std::string code; lines >> code;) {
    const bool twice = std::find(codes.begin(), codes.end(), code) != codes.end();
    if (twice || !is_pupil_code(code)) {
      problems.push_back({file.string(), static_cast<int>(codes.size()) + 1, 1,
                          fmt::format("'{}' is {}; allowed: one code on a line, of letters, digits and hyphens", code,
                                      twice ? "there twice" : "no code")});
    }
    codes.push_back(std::move(code));
  }
  return codes;
}

}  // namespace

int deal_command(const DealOptions& options) {
  const auto [key, key_problems] = read_key(options.key);
  if (!key) return explain(key_problems);
  std::error_code failed;
  if (fs::exists(options.into, failed) && !fs::is_empty(options.into, failed)) {
    return explain(
        {{options.into.string(), 0, 0, "is not empty; allowed: a new folder, so that no other deal is written over"}});
  }
  std::vector<Problem> problems;
  DealRequest request{{}, options.count, options.seed, {}};
  if (!options.codes.empty()) {
    request.codes = codes_in(options.codes, problems);
    request.count = static_cast<int>(request.codes.size());
  }
  for (const fs::path& file : given_files({options.scenario}, ".toml", Depth::right_inside, problems)) {
    ReadScenario read = read_scenario(file);
    problems.insert(problems.end(), read.problems.begin(), read.problems.end());
    if (read.scenario) request.pool.push_back(std::move(*read.scenario));
  }
  if (!problems.empty()) return explain(problems);
  const Deal dealt = deal(request, told_tables(), [](const auto& faults) { return debrief_for(faults, english()); });
  for (const std::string& problem : dealt.problems) fmt::print(stderr, "{}: {}\n", options.scenario.string(), problem);
  if (!dealt.problems.empty()) return 1;
  if (!write_jobs(dealt, *key, options)) return 1;
  fmt::print("Sealed jobs, one for each pupil: {}\nKey sheet, for you alone: {}\n", (options.into / "pupils").string(),
             (options.into / "key_sheet.html").string());
  return 0;
}

}  // namespace voltfall
