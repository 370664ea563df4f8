#pragma once

#include <atomic>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <vector>

#include "diagnosis/signature.h"

namespace voltfall {

/// For one scenario's vehicle: what every hypothesis would show, in every condition.
struct SignatureTable {
  Hypotheses hypotheses;
  std::vector<Signature> signatures;  ///< one for each of `hypotheses.all`
  Signature truth;                    ///< of what the scenario hides, at its own severity
};

/// How far a table is; may be looked at and stopped from another thread.
struct TableProgress {
  std::atomic<int> done{0}, of{0};
  std::atomic<bool> stop{false};
};

/// Simulates every hypothesis once, on as many threads as the machine has cores; the table is the same whatever their
/// number. Empty when it was stopped.
std::optional<SignatureTable> build_table(const Scenario& scenario, TableProgress& progress);

/// Names everything the table depends on: the vehicle, the hypotheses, the conditions, and the model itself by what a
/// healthy vehicle shows (to the bit). Two scenarios alike in all of it share a table.
std::uint64_t table_hash(const Scenario& scenario);

/// Writes beside the target and renames, so that nobody reads half a table. False when it can't be written.
bool save_table(const SignatureTable& table, const Scenario& scenario, const std::filesystem::path& file);

/// Empty when the file is not there, is damaged, or belongs to another vehicle or another model.
std::optional<SignatureTable> load_table(const Scenario& scenario, const std::filesystem::path& file);

}  // namespace voltfall
