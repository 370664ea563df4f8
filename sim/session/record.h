#pragma once

#include <exception>
#include <filesystem>
#include <optional>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "scenario/problem.h"
#include "session/session.h"

namespace voltfall {

// A record (`.vfrec`) is JSON lines. The first names the scenario, holds its text and hash, the attempt and the step
// size; every further line is one action with the step count it happened at. One that leaves a finding also stores what
// was seen; the closing line also stores the result. `v` is the format's version.

inline constexpr int record_format = 2;

/// Starts a new record at `path` for `session`, which must not have acted yet: from now on every action is written as
/// it happens, one line each, flushed. Folders are made; an existing file is left alone, and that is a problem.
std::optional<Problem> begin_record(const std::filesystem::path& path, int attempt, Session& session);

/// Goes on writing at the end of the record whose replay gave `session`: a resumed job.
std::optional<Problem> resume_record(const std::filesystem::path& path, Session& session);

/// A record played again.
struct Replay {
  std::vector<Problem> problems;   ///< damaged lines, a scenario that can't be read, a replay that leaves the record
  std::optional<Session> session;  ///< as it stood after the last action; empty when there are problems
  int attempt = 0;
  bool finished = false;                 ///< the job was closed
  int readings = 0;                      ///< findings compared
  std::vector<std::string> differences;  ///< findings that came out otherwise on replay, in words
  std::optional<double> recorded_total;  ///< points as the record has them
};

/// Never throws for a bad file: what is wrong with it is in `problems`, with its line.
Replay replay(const std::filesystem::path& record, TableSource tables = table_on_the_spot);

/// The same from text in memory; `name` stands in messages.
Replay replay_text(std::string_view text, std::string_view name, TableSource tables = table_on_the_spot);

/// Plays a record one line at a time, so that the job can be looked at as it stood anywhere on the way.
class RecordPlayer {
 public:
  /// @param name  stands in messages
  RecordPlayer(std::string_view text, std::string name, TableSource tables = table_on_the_spot);

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
  Replay replay_;
  int line_ = 0;
};

/// The job as it stood when that line of the record had been played, or at its end if it has fewer lines.
Replay replay_until(std::string_view text, std::string_view name, int line, TableSource tables = table_on_the_spot);

/// FNV-1a, 64 bits, as 16 hex digits: tells whether a scenario's text is the one recorded. Not a seal.
std::string text_hash(std::string_view text);

}  // namespace voltfall
