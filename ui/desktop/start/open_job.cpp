#include "desktop/start/open_job.h"

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>

#include "console/record_place.h"
#include "scenario/read_scenario.h"
#include "session/record.h"

namespace voltfall {
namespace {

constexpr int first_walk_sheet = 100;

std::string_view level_text(Level level) {
  switch (level) {
    case Level::guided:
      return "guided";
    case Level::plain:
      return "plain";
    case Level::test:
      return "test";
  }
  return "";
}

OpenedJob refused(std::vector<Problem> problems) {
  return {nullptr, std::move(problems), nullptr, {}};
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
  const auto header = nlohmann::json::parse(first, nullptr, false);
  if (header.is_discarded() || !header.contains("scenario_text")) return std::nullopt;
  const ReadScenario read = read_scenario_text(header["scenario_text"].get<std::string>(), "record");
  return read.scenario ? std::optional(read.scenario->title) : std::nullopt;
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

}  // namespace

OpenedJob open_job(const std::filesystem::path& scenario, const std::filesystem::path& record) {
  ReadScenario read = read_scenario(scenario);
  if (!read.scenario) return refused(std::move(read.problems));
  RecordPlace place{record, 1};
  if (record.empty()) place = next_record_place(read.scenario->id);
  if (std::filesystem::exists(place.path)) return resume_job(place.path);
  TableHolder table;
  table.begin(*read.scenario);
  OpenedJob opened{std::make_unique<Session>(std::move(*read.scenario), table.source()), {}, table.work(), place.path};
  if (const auto problem = begin_record(place.path, place.attempt, *opened.session)) return refused({*problem});
  return opened;
}

OpenedJob resume_job(const std::filesystem::path& record) {
  TableHolder table;
  Replay played = replay(record, table.source());
  if (!played.session) return refused(std::move(played.problems));
  table.begin(played.session->scenario());
  OpenedJob opened{std::make_unique<Session>(std::move(*played.session)), {}, table.work(), record};
  if (const auto problem = resume_record(record, *opened.session)) return refused({*problem});
  return opened;
}

std::filesystem::path scenarios_folder() {
  std::error_code error;
  const std::filesystem::path here = "scenarios";
  return std::filesystem::is_directory(here, error) ? here : std::filesystem::path(VOLTFALL_SOURCE_DIR) / "scenarios";
}

std::vector<JobOffer> jobs_on_offer() {
  std::vector<JobOffer> offers;
  for (const auto& file : files_in(scenarios_folder(), ".toml")) {
    const ReadScenario read = read_scenario(file);
    if (!read.scenario || read.scenario->sheet >= first_walk_sheet) continue;
    const Scenario& job = *read.scenario;
    offers.push_back({file, job.sheet, job.title, job.complaint, std::string(level_text(job.level))});
  }
  std::sort(offers.begin(), offers.end(), [](const JobOffer& a, const JobOffer& b) { return a.sheet < b.sheet; });
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
