#pragma once

#include <future>
#include <memory>
#include <stdexcept>
#include <thread>

#include "diagnosis/signature_table.h"

namespace voltfall {

/// Somebody stopped the work on a table that another waited for.
struct TableStopped : std::runtime_error {
  TableStopped() : std::runtime_error("the table of signatures was stopped") {}
};

/// One scenario's table of signatures, worked out beside the screen from the moment a job is opened. Goes out of the
/// way of everything else that wants a processor. Ends with its owner.
class TableAtWork {
 public:
  explicit TableAtWork(Scenario scenario);
  ~TableAtWork() { stop(); }
  TableAtWork(const TableAtWork&) = delete;
  TableAtWork& operator=(const TableAtWork&) = delete;

  bool ready() const;
  /// Waits for it. Throws TableStopped.
  std::shared_ptr<const SignatureTable> table() const;

  int done() const { return progress_.done; }
  int of() const { return progress_.of; }  ///< 0: not known yet
  void stop() { progress_.stop = true; }

 private:
  TableProgress progress_;
  std::shared_future<std::shared_ptr<const SignatureTable>> table_;
  std::jthread worker_;
};

/// Where a session gets its table from when the work on it is only begun once the session is there.
class TableHolder {
 public:
  void begin(const Scenario& scenario) { *work_ = std::make_shared<TableAtWork>(scenario); }
  /// Null before it was begun.
  std::shared_ptr<TableAtWork> work() const { return *work_; }
  TableSource source() const;

 private:
  std::shared_ptr<std::shared_ptr<TableAtWork>> work_ = std::make_shared<std::shared_ptr<TableAtWork>>();
};

}  // namespace voltfall
