#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "desktop/table_at_work.h"
#include "scenario/problem.h"
#include "session/session.h"

namespace voltfall {

/// A job ready to work, its record being written and its table under way; or the problems that kept it from opening.
struct OpenedJob {
  std::unique_ptr<Session> session;
  std::vector<Problem> problems;
  std::shared_ptr<TableAtWork> table;
  std::filesystem::path record;
};

/// Starts a scenario. An empty record path means one beside the user's other records.
OpenedJob open_job(const std::filesystem::path& scenario, const std::filesystem::path& record);

/// Plays a record again and goes on writing it where it stopped.
OpenedJob resume_job(const std::filesystem::path& record);

/// A scenario as the start page lists it.
struct JobOffer {
  std::filesystem::path file;
  int sheet = 0;
  std::string title, complaint, level;
  std::string code;  ///< of a sealed job
};

/// The sealed jobs that were dealt to this user, then every readable work order in the scenarios folder, by sheet
/// number; walks (sheet 100 and up) are left out.
std::vector<JobOffer> jobs_on_offer();

std::filesystem::path scenarios_folder();

/// Where the guided experiments lie; an instructor adds to them.
std::filesystem::path walks_folder();

/// Where a sealed job has to be put to be on offer: in the user's data folder.
std::filesystem::path dealt_jobs_folder();

/// The newest record whose job is not closed.
struct UnfinishedJob {
  std::filesystem::path record;
  std::string title;
};
std::optional<UnfinishedJob> unfinished_job();

}  // namespace voltfall
