#pragma once

#include <filesystem>
#include <optional>
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

/// FNV-1a, 64 bits, as 16 hex digits: tells whether a scenario's text is the one recorded. Not a seal.
std::string text_hash(std::string_view text);

}  // namespace voltfall
