#include <fmt/format.h>
#include <fmt/ostream.h>

#include <iostream>

#include "console/commands.h"
#include "console/text_report.h"
#include "console/told_table.h"
#include "session/record.h"

namespace voltfall {
namespace {

void print_readings_check(const Replay& played) {
  if (played.differences.empty()) {
    fmt::print("Readings: all {} replayed as recorded\n", played.readings);
    return;
  }
  fmt::print("Readings: {} of {} differ from the record\n", played.differences.size(), played.readings);
  for (const std::string& difference : played.differences) fmt::print("Differs: {}\n", difference);
}

bool mark_one(const std::filesystem::path& record) {
  const Replay played = replay(record, told_tables());
  for (const Problem& problem : played.problems) fmt::print(stderr, "{}\n", problem.text());
  if (!played.session) return false;
  const Session& session = *played.session;
  fmt::print("Record: {}\n", record.string());
  fmt::print("Scenario: {} ({}), attempt {}\n", session.scenario().title, session.scenario().id, played.attempt);
  if (!played.finished)
    fmt::print("Unfinished: the job was not closed; {:.1f} minutes so far\n", session.job_minutes());
  std::cout.flush();
  print_score(std::cout, session);
  std::cout.flush();
  print_readings_check(played);
  if (!played.recorded_total) return true;
  const bool same = *played.recorded_total == session.score()->total;
  if (!same) fmt::print("Score: the record says {}, the replay {}\n", *played.recorded_total, session.score()->total);
  return same && played.differences.empty();
}

}  // namespace

int mark_command(const std::vector<std::filesystem::path>& records) {
  bool all_well = true;
  for (const std::filesystem::path& record : records) all_well = mark_one(record) && all_well;
  return all_well ? 0 : 1;
}

}  // namespace voltfall
