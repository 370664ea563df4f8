#include "marking/marking.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <map>

#include "session/record.h"
#include "work/on_all_cores.h"

namespace voltfall {
namespace {

constexpr std::size_t most_told = 5;  // differences; more of them tell nothing new

void doubt(Marked& marked, std::string reason) {
  if (marked.verdict == MarkVerdict::counted) marked.verdict = MarkVerdict::for_a_person;
  marked.reasons.push_back(std::move(reason));
}

void refuse(Marked& marked, std::string reason) {
  marked.verdict = MarkVerdict::refused;
  marked.session = nullptr;
  marked.reasons.push_back(std::move(reason));
}

/// What a replay that could not go to its end tells: with a whole chain the program itself wrote what it can't replay.
void judge_unplayed(const Replay& played, bool left_the_record, Marked& marked) {
  for (const Problem& problem : played.problems) {
    const std::string place = problem.line > 0 ? fmt::format("line {}: ", problem.line) : std::string();
    if (left_the_record) {
      doubt(marked, fmt::format("the replay can't follow the record: {}{}", place, problem.what));
    } else {
      refuse(marked, place + problem.what);
    }
  }
}

void judge_score(const Replay& played, Marked& marked) {
  const auto score = marked.session->score();
  if (!played.recorded_total || !score || *played.recorded_total == score->total) return;
  doubt(marked, fmt::format("the record says {:.1f} points, the replay {:.1f}", *played.recorded_total, score->total));
}

void judge_played(const Replay& played, Marked& marked) {
  for (std::size_t i = 0; i < std::min(most_told, played.differences.size()); ++i) {
    doubt(marked, "more than two counts away on replay: " + played.differences[i]);
  }
  if (played.differences.size() > most_told) {
    doubt(marked, fmt::format("{} more differ", played.differences.size() - most_told));
  }
  if (played.resumed_unseen > 0) {
    doubt(marked, fmt::format("gone on with {} times on a machine that had not seen it before, or has lost its ledger",
                              played.resumed_unseen));
  }
  judge_score(played, marked);
  for (const std::string& taken_back : played.taken_back) refuse(marked, taken_back);
}

Marked marked_alone(const std::filesystem::path& file, const TableSource& tables, const SealOpener& opener,
                    const std::shared_ptr<KnownJobs>& known_jobs) {
  Marked marked;
  marked.file = file;
  Replay played = replay(file, tables, opener, known_jobs);
  marked.record_id = played.record_id;
  marked.attempt = played.attempt;
  marked.readings = played.readings;
  marked.closed = played.finished;
  marked.verdict = MarkVerdict::counted;
  if (played.scenario) {
    marked.job = played.scenario->id;
    if (played.scenario->seal) marked.pupil_code = played.scenario->seal->code;
  }
  if (!played.session) {
    judge_unplayed(played, played.whole_chain && played.scenario, marked);
    return marked;
  }
  marked.session = std::make_shared<const Session>(std::move(*played.session));
  judge_played(played, marked);
  return marked;
}

// ---- records beside each other
// ---------------------------------------------------------------------------------------

using Group = std::vector<Marked*>;

/// How one copy of a record stands to another.
enum class Copy { same, shorter, longer, parts_ways };

struct Compared {
  Copy copy;
  int line;  ///< the first that is not in both
};

Compared compared(const std::filesystem::path& one, const std::filesystem::path& other) {
  std::ifstream of_one(one, std::ios::binary), of_other(other, std::ios::binary);
  std::string line_of_one, line_of_other;
  for (int line = 1;; ++line) {
    const bool has_one = static_cast<bool>(std::getline(of_one, line_of_one));
    const bool has_other = static_cast<bool>(std::getline(of_other, line_of_other));
    if (!has_one && !has_other) return {Copy::same, line};
    if (!has_one) return {Copy::shorter, line};
    if (!has_other) return {Copy::longer, line};
    if (line_of_one != line_of_other) return {Copy::parts_ways, line};
  }
}

/// Of two copies the longer counts; a record that parts ways with itself was taken back and done again.
void judge_copy(Marked& marked, const Marked& other, bool first) {
  const auto [copy, line] = compared(marked.file, other.file);
  const std::string name = other.file.string();
  if (copy == Copy::parts_ways) {
    return refuse(marked, fmt::format("rewound: {} is the same record up to line {} and goes another way from there",
                                      name, line - 1));
  }
  if (copy == Copy::shorter) return refuse(marked, fmt::format("cut: {} is the same record, and longer", name));
  if (copy == Copy::same && !first) refuse(marked, fmt::format("handed in twice: {} is the same record", name));
}

void judge_same_record(const Group& group) {
  for (std::size_t i = 0; i < group.size(); ++i) {
    for (std::size_t k = 0; k < group.size(); ++k) {
      if (k != i) judge_copy(*group[i], *group[k], i < k);
    }
  }
}

/// Two records that each say they are this attempt of one pupil at one job.
void judge_same_attempt(const Group& group) {
  for (Marked* marked : group) {
    for (const Marked* other : group) {
      if (other == marked || other->record_id == marked->record_id) continue;
      doubt(*marked, fmt::format("{} also says it is attempt {} at this job under code {}", other->file.string(),
                                 marked->attempt, marked->pupil_code));
    }
  }
}

void judge_together(std::vector<Marked>& all) {
  std::map<std::string, Group> by_record, by_attempt;
  for (Marked& marked : all) {
    if (marked.verdict == MarkVerdict::refused) continue;
    by_record[marked.record_id].push_back(&marked);
    if (marked.pupil_code.empty()) continue;
    by_attempt[fmt::format("{}\n{}\n{}", marked.pupil_code, marked.job, marked.attempt)].push_back(&marked);
  }
  for (const auto& [id, group] : by_record) judge_same_record(group);
  for (const auto& [key, group] : by_attempt) judge_same_attempt(group);
}

}  // namespace

std::vector<Marked> mark_records(const std::vector<std::filesystem::path>& records, const TableSource& tables,
                                 const SealOpener& opener) {
  std::vector<Marked> all(records.size());
  const auto known_jobs = std::make_shared<KnownJobs>();
  on_all_cores(records.size(),
               [&](std::size_t index) { all[index] = marked_alone(records[index], tables, opener, known_jobs); });
  judge_together(all);
  return all;
}

}  // namespace voltfall
