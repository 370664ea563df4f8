#pragma once

#include <atomic>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <vector>

#include "diagnosis/signature.h"

namespace voltfall {

/// What every hypothesis about a vehicle would show, in every condition. Made from what is typical of it, never from
/// the scatter that only this one has: what nobody can know must not be held against anybody.
struct SignatureTable {
  Hypotheses hypotheses;
  std::vector<Signature> signatures;  ///< one for each of `hypotheses.all`; the first is the healthy vehicle's
  Signature truth;                    ///< of what the scenario hides, at its own severity
};

/// How far a table is; may be looked at and stopped from another thread.
struct TableProgress {
  std::atomic<int> done{0}, of{0};
  std::atomic<bool> stop{false};
};

/// Simulates every hypothesis once, on as many threads as the machine has cores; the table is the same whatever their
/// number. Without the truth. Empty when it was stopped.
std::optional<SignatureTable> build_table(const Scenario& scenario, TableProgress& progress);

/// The same with what this scenario hides, simulated now.
SignatureTable with_truth(SignatureTable table, const Scenario& scenario);

/// Names everything the table depends on but the truth: the vehicle, the hypotheses, the conditions, and the model
/// itself: its code, and what a healthy vehicle shows to the bit, which libraries have a say in. Two scenarios alike in
/// all of it share a table.
std::uint64_t table_hash(const Scenario& scenario);

/// Writes beside the target and renames, so that nobody reads half a table. False when it can't be written.
bool save_table(const SignatureTable& table, std::uint64_t hash, const std::filesystem::path& file);

/// Without the truth. Empty when the file is not there, is damaged, or belongs to another vehicle or another model.
std::optional<SignatureTable> load_table(const Scenario& scenario, std::uint64_t hash,
                                         const std::filesystem::path& file);

/// Where a session gets its scenario's table from. May be slow; never empty.
using TableSource = std::function<std::shared_ptr<const SignatureTable>(const Scenario& scenario)>;

/// Simulates it on the spot, every time.
std::shared_ptr<const SignatureTable> table_on_the_spot(const Scenario& scenario);

/// Keeps every table it was asked for in a folder, and the latest ones at hand. Where the folder can't be written the
/// tables are made anew. May be asked from several threads.
class TableStore {
 public:
  explicit TableStore(std::filesystem::path folder) : folder_(std::move(folder)) {}
  /// Empty only when it was stopped.
  std::shared_ptr<const SignatureTable> get(const Scenario& scenario, TableProgress& progress);
  TableSource source();

 private:
  using Tables = std::map<std::uint64_t, std::shared_ptr<const SignatureTable>>;
  std::shared_ptr<const SignatureTable> without_truth(const Scenario& scenario, TableProgress& progress);
  std::shared_ptr<const SignatureTable> at_hand(const Tables& tables, std::uint64_t key);
  std::shared_ptr<const SignatureTable> keep(Tables& tables, std::uint64_t key, SignatureTable table);

  std::filesystem::path folder_;
  std::mutex mutex_;                   ///< over what is at hand
  std::mutex building_;                ///< one at a time: it takes every core
  Tables of_vehicles_, of_scenarios_;  ///< at hand, without the truth and with it
};

}  // namespace voltfall
