#include "console/record_place.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>

#include "console/files.h"
#include "console/user_folders.h"
#include "sealing/bytes.h"
#include "wording/filled.h"

namespace voltfall {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t largest_release_bytes = std::size_t{1} << 20;
constexpr std::string_view release_kind = "a release (.vfrelease)";

fs::path ledger_folder() {
  return data_folder() / "ledger";
}

std::string job_of(const Scenario& scenario) {
  return scenario.seal ? scenario.seal->job : hex(digest(scenario.source_text));
}

/// One file for each record ever begun: `JOB LINES HEAD`.
struct Entry {
  std::string job;
  ChainPlace place;
};

std::optional<Entry> entry_in(const fs::path& file) {
  std::ifstream in(file);
  Entry entry;
  entry.place.record = file.filename().string();
  if (!(in >> entry.job >> entry.place.lines >> entry.place.head)) return std::nullopt;
  return entry;
}

/// A ledger that can't be written must not stop anybody's work: the record then shows that none knew it.
LineWritten into_ledger(const std::string& job) {
  std::error_code failed;
  fs::create_directories(ledger_folder(), failed);
  return [job](const ChainPlace& place) {
    problem_writing(ledger_folder() / place.record, fmt::format("{} {} {}\n", job, place.lines, place.head));
  };
}

int attempts_begun(const std::string& job) {
  int begun = 0;
  std::error_code failed;
  for (const auto& file : fs::directory_iterator(ledger_folder(), failed)) {
    const auto entry = entry_in(file.path());
    if (entry && entry->job == job) ++begun;
  }
  return begun;
}

void add_releases_in(const fs::path& folder, std::vector<Release>& releases) {
  std::error_code failed;
  for (const auto& file : fs::directory_iterator(folder, failed)) {
    if (file.path().extension() != ".vfrelease") continue;
    const ReadText read = read_small_file(file.path(), largest_release_bytes, release_kind);
    if (auto release = release_in(read.text)) releases.push_back(std::move(*release));
  }
}

}  // namespace

fs::path records_folder() {
  return data_folder() / "records";
}

RecordPlace next_record_place(const Scenario& scenario) {
  const std::string code = scenario.seal ? "-" + scenario.seal->code : std::string();
  for (int attempt = 1 + attempts_begun(job_of(scenario));; ++attempt) {
    fs::path path = records_folder() / fmt::format("{}{}-{}.vfrec", scenario.id, code, attempt);
    std::error_code error;
    if (!fs::exists(path, error)) return {std::move(path), attempt};
  }
}

std::optional<Problem> begin_kept_record(const RecordPlace& place, Session& session) {
  return begin_record(place.path, place.attempt, session, into_ledger(job_of(session.scenario())));
}

std::optional<Problem> resume_kept_record(const fs::path& record, Session& session) {
  std::ifstream in(record, std::ios::binary);
  std::string first;
  std::getline(in, first);
  const auto head = record_head(first);
  const auto entry = head ? entry_in(ledger_folder() / head->record_id) : std::nullopt;
  return resume_record(record, session, entry ? std::optional(entry->place) : std::nullopt,
                       into_ledger(job_of(session.scenario())));
}

SealOpener by_releases_at_hand(const fs::path& beside) {
  std::vector<Release> releases;
  add_releases_in(records_folder(), releases);
  if (!beside.empty()) add_releases_in(beside, releases);
  return by_releases(std::move(releases));
}

std::vector<std::string> what_follows_a_sealed_job(const Wording& words, const fs::path& record) {
  return {std::string(words.text("sealed.not_released")),
          filled(words, "sealed.send_record", fmt::arg("record", record.string())),
          filled(words, "sealed.put_release", fmt::arg("folder", records_folder().string()))};
}

std::optional<Problem> keep_release(const fs::path& file) {
  const ReadText read = read_small_file(file, largest_release_bytes, release_kind);
  if (read.problem) return read.problem;
  if (!release_in(read.text)) {
    return Problem{file.string(), 0, 0, "is no release, or was changed; allowed: the file as the instructor made it"};
  }
  std::error_code failed;
  fs::create_directories(records_folder(), failed);
  const fs::path kept = records_folder() / fmt::format("{}.vfrelease", hex(digest(read.text)).substr(0, 16));
  if (std::string problem = problem_writing(kept, read.text); !problem.empty()) {
    return Problem{kept.string(), 0, 0, std::move(problem)};
  }
  return std::nullopt;
}

}  // namespace voltfall
