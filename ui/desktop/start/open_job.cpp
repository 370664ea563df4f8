#include "desktop/start/open_job.h"

#include <algorithm>
#include <fstream>
#include <tuple>

#include "console/record_place.h"
#include "console/user_folders.h"
#include "sealing/sealed_job.h"

namespace voltfall {
namespace {

constexpr int first_walk_sheet = 100;

OpenedJob refused(std::vector<Problem> problems) {
  return {nullptr, std::move(problems), nullptr, {}};
}

/// A sealed job is not scored here, unless it was released; a guided one is told of unwarranted namings all the same.
bool needs_table(const Scenario& scenario) {
  return !scenario.score_stays_closed() || scenario.level == Level::guided;
}

/// Title of an unfinished record with at least one action in it; empty when it is finished or can't be read.
std::optional<std::string> unfinished_title(const std::filesystem::path& record) {
  std::ifstream in(record);
  std::string first, line, last;
  std::getline(in, first);
  while (std::getline(in, line)) {
    if (!line.empty()) last = line;
  }
  if (last.empty() || last.find("close_job") != std::string::npos) return std::nullopt;
  const auto head = record_head(first);
  return head && head->scenario.scenario ? std::optional(head->scenario.scenario->title) : std::nullopt;
}

std::vector<std::filesystem::path> files_in(const std::filesystem::path& folder, std::string_view extension) {
  std::vector<std::filesystem::path> files;
  std::error_code error;
  for (const auto& entry : std::filesystem::directory_iterator(folder, error)) {
    if (entry.path().extension() == extension) files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

/// Below the working folder if it is there, else where the program was built.
std::filesystem::path shipped_folder(const std::filesystem::path& name) {
  std::error_code error;
  return std::filesystem::is_directory(name, error) ? name : std::filesystem::path(VOLTFALL_SOURCE_DIR) / name;
}

}  // namespace

OpenedJob open_job(const std::filesystem::path& scenario, const std::filesystem::path& record) {
  ReadScenario read = read_job(scenario, by_releases_at_hand(scenario.parent_path()));
  if (!read.scenario) return refused(std::move(read.problems));
  RecordPlace place = next_record_place(*read.scenario);
  if (!record.empty()) place.path = record;
  if (std::filesystem::exists(place.path)) return resume_job(place.path);
  TableHolder table;
  if (needs_table(*read.scenario)) table.begin(*read.scenario);
  OpenedJob opened{std::make_unique<Session>(std::move(*read.scenario), table.source()), {}, table.work(), place.path};
  if (const auto problem = begin_kept_record(place, *opened.session)) return refused({*problem});
  return opened;
}

OpenedJob resume_job(const std::filesystem::path& record) {
  TableHolder table;
  Replay played = replay(record, table.source(), by_releases_at_hand(record.parent_path()));
  if (!played.session) return refused(std::move(played.problems));
  if (needs_table(played.session->scenario())) table.begin(played.session->scenario());
  OpenedJob opened{std::make_unique<Session>(std::move(*played.session)), {}, table.work(), record};
  if (const auto problem = resume_kept_record(record, *opened.session)) return refused({*problem});
  return opened;
}

std::filesystem::path scenarios_folder() {
  return shipped_folder("scenarios");
}

std::filesystem::path walks_folder() {
  return shipped_folder("assets/walks");
}

std::filesystem::path dealt_jobs_folder() {
  return data_folder() / "jobs";
}

std::vector<JobOffer> jobs_on_offer() {
  std::vector<JobOffer> offers;
  auto files = files_in(scenarios_folder(), ".toml");
  const auto dealt = files_in(dealt_jobs_folder(), ".vfjob");
  files.insert(files.begin(), dealt.begin(), dealt.end());
  for (const auto& file : files) {
    const ReadScenario read = read_job(file, by_program());
    if (!read.scenario || read.scenario->sheet >= first_walk_sheet) continue;
    const Scenario& job = *read.scenario;
    offers.push_back({file, job.sheet, job.title, job.complaint, std::string(id_of(job.level)),
                      job.seal ? job.seal->code : std::string()});
  }
  std::stable_sort(offers.begin(), offers.end(), [](const JobOffer& a, const JobOffer& b) {
    return std::tuple(a.code.empty(), a.sheet) < std::tuple(b.code.empty(), b.sheet);
  });
  return offers;
}

std::optional<UnfinishedJob> unfinished_job() {
  auto records = files_in(records_folder(), ".vfrec");
  std::error_code error;
  std::sort(records.begin(), records.end(), [&](const auto& a, const auto& b) {
    return std::filesystem::last_write_time(a, error) > std::filesystem::last_write_time(b, error);
  });
  for (const auto& record : records) {
    if (auto title = unfinished_title(record)) return UnfinishedJob{record, std::move(*title)};
  }
  return std::nullopt;
}

}  // namespace voltfall
