#pragma once

#include <atomic>
#include <cstddef>
#include <future>
#include <memory>
#include <string>

#include "session/record.h"

namespace voltfall {

/// Plays a record to any entry of its job's log, beside the screen. Forward it plays on; backward it begins anew.
class ReplayReader {
 public:
  /// @param record  its text
  ReplayReader(std::string record, std::string name) : record_(std::move(record)), name_(std::move(name)) {}
  ~ReplayReader() { stop_ = true; }
  ReplayReader(const ReplayReader&) = delete;
  ReplayReader& operator=(const ReplayReader&) = delete;

  /// Sets out for the moment when the log had so many entries; what was under way is given up. A crank is shown at its
  /// end, anything else as it was done; the hand-back as the vehicle stood just before it.
  void go_to(std::size_t entries);

  /// True while the session belongs to the work: nobody may look at it then.
  bool busy();

  /// Null while busy, and when the record can't be played.
  const Session* session();

 private:
  void play_to(std::size_t entries);
  std::size_t entries_so_far() const;

  std::string record_, name_;
  std::unique_ptr<RecordPlayer> player_;
  bool rolled_on_ = false;  ///< past the entry it was played to
  std::atomic<bool> stop_{false};
  std::future<void> work_;
};

}  // namespace voltfall
