#pragma once

#include <exception>
#include <filesystem>
#include <functional>
#include <optional>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "scenario/read_scenario.h"
#include "sealing/line_chain.h"
#include "sealing/sealed_job.h"
#include "session/session.h"

namespace voltfall {

// A record (`.vfrec`) is JSON lines. The first names the scenario, holds its text or the sealed job, its digest, the
// attempt and the step size; every further line is one action with the step count it happened at. One that leaves a
// finding also stores what was seen; the closing line of a job whose score is open stores the result. Every line is
// chained to all before it (sealing/line_chain.h). `v` is the format's version.

inline constexpr int record_format = 3;
/// A day's work of somebody who presses a key every two seconds stays below this.
inline constexpr std::size_t largest_record_bytes = std::size_t{16} << 20;

/// Told after every line how far the record has come: for a ledger kept elsewhere.
using LineWritten = std::function<void(const ChainPlace&)>;

/// Starts a new record at `path` for `session`, which must not have acted yet: from now on every action is written as
/// it happens, one line each, flushed. Folders are made; an existing file is left alone, and that is a problem.
std::optional<Problem> begin_record(const std::filesystem::path& path, int attempt, Session& session,
                                    LineWritten written = {});

/// Goes on writing at the end of the record whose replay gave `session`: a resumed job. The record notes that it was
/// resumed, and how far `ledger` has seen it come.
std::optional<Problem> resume_record(const std::filesystem::path& path, Session& session,
                                     const std::optional<ChainPlace>& ledger = {}, LineWritten written = {});

/// A record played again.
struct Replay {
  std::vector<Problem> problems;     ///< broken chain, a scenario that can't be read, a replay that leaves the record
  std::optional<Session> session;    ///< as it stood after the last action; empty when there are problems
  std::optional<Scenario> scenario;  ///< of its first line, once that was read
  bool whole_chain = false;          ///< every line is as the program wrote it
  int attempt = 0;
  std::string record_id;
  bool finished = false;                 ///< the job was closed
  int readings = 0;                      ///< findings compared
  std::vector<std::string> differences;  ///< findings more than two counts from the record on replay, in words
  std::vector<std::string> taken_back;   ///< where it was gone on with from an earlier line than had been written
  int resumed_unseen = 0;                ///< times it was gone on with where no ledger knew it
  std::optional<double> recorded_total;  ///< points as the record has them
};

/// What a learner read is what counts: a finding that replays a count or two away stands as recorded, as a last bit
/// may differ between machines. Never throws for a bad file: what is wrong with it is in `problems`, with its line.
/// @param opener      of a sealed job in it
/// @param known_jobs  shared by a class's records; may be null
Replay replay(const std::filesystem::path& record, TableSource tables = table_on_the_spot,
              const SealOpener& opener = by_program(), std::shared_ptr<KnownJobs> known_jobs = nullptr);

/// The same from text in memory; `name` stands in messages.
Replay replay_text(std::string_view text, std::string_view name, TableSource tables = table_on_the_spot,
                   const SealOpener& opener = by_program());

/// What the first line of a record says of it; empty when it says nothing.
struct RecordHead {
  int attempt = 0;
  std::string record_id;
  ReadScenario scenario;  ///< with its seal, opened by the program
};
std::optional<RecordHead> record_head(std::string_view first_line);

/// Plays a record one line at a time, so that the job can be looked at as it stood anywhere on the way.
class RecordPlayer {
 public:
  /// @param name    stands in messages
  /// @param opener  of a sealed job in it
  RecordPlayer(std::string_view text, std::string name, TableSource tables = table_on_the_spot,
               const SealOpener& opener = by_program());

  void share(std::shared_ptr<KnownJobs> known_jobs) { known_jobs_ = std::move(known_jobs); }

  /// False when nothing was played: the record has ended, or there is a problem.
  bool play_line();

  /// The next line hands the vehicle back.
  bool closes_next() const;

  /// Lets the vehicle's time go by up to the next action of the record, which is not carried out.
  void run_to_next_action();

  /// The line played last, from 1: the first holds the scenario. 0 before it.
  int line() const { return line_; }

  const Replay& so_far() const { return replay_; }
  Replay take() { return std::move(replay_); }

 private:
  void read_next();
  void play(const std::string& line);
  void complain(int line, const std::exception& error);

  std::istringstream lines_;
  std::optional<std::string> next_;  ///< the line to be played next
  std::string name_;
  TableSource tables_;
  SealOpener opener_;
  std::shared_ptr<KnownJobs> known_jobs_;
  Replay replay_;
  int line_ = 0;
};

/// The job as it stood when that line of the record had been played, or at its end if it has fewer lines.
Replay replay_until(std::string_view text, std::string_view name, int line, TableSource tables = table_on_the_spot,
                    const SealOpener& opener = by_program());

}  // namespace voltfall
