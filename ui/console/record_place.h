#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "session/record.h"
#include "wording/wording.h"

namespace voltfall {

// Where records are kept, and the ledger beside them: how far each record had come when this machine last wrote to it,
// so that one which was taken back to an earlier line shows.

/// Where a new record goes when nobody says: the user's own data folder, `voltfall/records`, one file per attempt.
struct RecordPlace {
  std::filesystem::path path;
  int attempt;  ///< 1 for the first time this job is worked by this user
};

/// The file is called after the scenario, the pupil's code if there is one, and the attempt. Attempts count by the
/// ledger: a record that was thrown away still counts.
RecordPlace next_record_place(const Scenario& scenario);

std::filesystem::path records_folder();

/// `begin_record` and `resume_record` with this user's ledger.
std::optional<Problem> begin_kept_record(const RecordPlace& place, Session& session);
std::optional<Problem> resume_kept_record(const std::filesystem::path& record, Session& session);

/// Opens the score of sealed jobs for which a release (`.vfrelease`) lies beside the records or in `beside`.
SealOpener by_releases_at_hand(const std::filesystem::path& beside = {});

/// What a pupil is told who has handed a sealed job back: where the record lies and where a release goes.
std::vector<std::string> what_follows_a_sealed_job(const Wording& words, const std::filesystem::path& record);

/// Keeps a release with the records, so that it is at hand. A problem when it is none.
std::optional<Problem> keep_release(const std::filesystem::path& file);

}  // namespace voltfall
