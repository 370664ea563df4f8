#include "vetting/vet.h"

#include <fmt/format.h>

#include <cstdio>

#include "console/commands.h"
#include "console/given_files.h"
#include "console/key_file.h"
#include "console/told_table.h"
#include "vetting_report/vet_report_json.h"
#include "vetting_report/vet_report_text.h"
#include "work/on_all_cores.h"

namespace voltfall {
namespace {

namespace fs = std::filesystem;

struct Vetted {
  ReadScenario read;
  std::optional<VetReport> report;
};

std::vector<Vetted> vetted(const std::vector<fs::path>& files, const SealOpener& opener) {
  std::vector<Vetted> all(files.size());
  const TableSource tables = told_tables();
  on_all_cores(files.size(), [&](std::size_t index) {
    all[index].read = read_job(files[index], opener);
    const auto& scenario = all[index].read.scenario;
    if (scenario) all[index].report = vet(*scenario, tables(*scenario));
  });
  return all;
}

}  // namespace

int vet_command(const std::vector<fs::path>& given, const fs::path& key, bool json) {
  const SealOpener opener = opener_with(key);
  if (!opener) return 2;
  std::vector<Problem> problems;
  bool all_sound = true;
  std::vector<VetReport> reports;
  for (Vetted& one : vetted(given_files(given, ".toml", Depth::right_inside, problems), opener)) {
    problems.insert(problems.end(), one.read.problems.begin(), one.read.problems.end());
    if (!one.report) continue;
    all_sound = all_sound && one.report->sound();
    if (!json) fmt::print("{}", vet_report_as_text(*one.report, english()));
    reports.push_back(std::move(*one.report));
  }
  if (json) fmt::print("{}\n", vet_reports_as_json(reports));
  explain(problems);
  if (!problems.empty()) return 2;
  return all_sound ? 0 : 1;
}

}  // namespace voltfall
