#include <fmt/format.h>

#include <cstdio>
#include <set>
#include <stdexcept>

#include "console/commands.h"
#include "console/files.h"
#include "console/given_files.h"
#include "console/key_file.h"

namespace voltfall {
namespace fs = std::filesystem;

int key_command(const fs::path& out) {
  std::error_code failed;
  if (fs::exists(out, failed)) {
    return explain(
        {{out.string(), 0, 0, "is there already; a key is never written over, for what it sealed would be lost"}});
  }
  if (!write_secret_file(out, InstructorKey::made().text())) return 1;
  fmt::print("Key: {}\nKeep it from your pupils, and keep a copy: without it nothing that it sealed can be marked.\n",
             out.string());
  return 0;
}

int seal_command(const SealOptions& options) {
  const auto [key, key_problems] = read_key(options.key);
  if (!key) return explain(key_problems);
  const ReadScenario read = read_scenario(options.scenario);
  if (!read.scenario) return explain(read.problems);
  fs::path out = options.out;
  if (out.empty()) {
    out = options.scenario.parent_path() / fmt::format("{}-{}.vfjob", options.scenario.stem().string(), options.code);
  }
  try {
    const std::string sealed = sealed_job_text(read.scenario->id, read.scenario->source_text, options.code, *key);
    if (!write_whole_file(out, sealed)) return 1;
  } catch (const std::invalid_argument& wrong) {
    fmt::print(stderr, "voltfall seal: --code {}\n", wrong.what());
    return 2;
  }
  fmt::print("Sealed job: {}\n", out.string());
  return 0;
}

int release_command(const std::vector<fs::path>& jobs, const fs::path& key, const fs::path& out) {
  const auto [own_key, key_problems] = read_key(key);
  if (!own_key) return explain(key_problems);
  std::vector<Problem> problems;
  const std::vector<fs::path> files = given_files(jobs, ".vfjob", Depth::all_below, problems);
  if (!problems.empty()) return explain(problems);
  const SealOpener opener = by_key(*own_key);
  std::set<std::string> released;
  for (const fs::path& file : files) {
    const ReadScenario read = read_job(file, opener);
    if (!read.scenario) return explain(read.problems);
    if (read.scenario->seal) released.insert(read.scenario->seal->job);
  }
  if (released.empty()) return explain({{jobs.front().string(), 0, 0, "holds no sealed job; allowed: .vfjob files"}});
  if (!write_whole_file(out, release_text(released, *own_key))) return 1;
  fmt::print("Release of {} sealed jobs: {}\n", released.size(), out.string());
  return 0;
}

}  // namespace voltfall
