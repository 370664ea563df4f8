#pragma once

#include <memory>
#include <optional>
#include <thread>

#include "sweep/sweep.h"

namespace voltfall {

/// A sweep, or a map, worked out beside the screen. Cancelled when it goes.
class SweepWork {
 public:
  struct Order {
    SweepSubject subject;
    Knob across;
    int columns = 2;
    std::optional<Knob> up;  ///< with it: a map
    int rows = 2;
  };
  struct Result {
    std::vector<SweepCrank> swept;
    std::vector<Threshold> thresholds;
    EngagementMap map;
  };

  explicit SweepWork(const Order& order);
  ~SweepWork() { cancel(); }
  SweepWork(const SweepWork&) = delete;
  SweepWork& operator=(const SweepWork&) = delete;

  void cancel() { progress_.cancelled = true; }
  bool cancelled() const { return progress_.cancelled; }
  int cranks_done() const { return progress_.cranks_done; }
  int cranks() const { return order_.up ? order_.columns * order_.rows : order_.columns; }
  /// Null while it is at work. What was cancelled holds what was done till then.
  const Result* result() const { return done_ ? &result_ : nullptr; }
  const Order& order() const { return order_; }

 private:
  void work();

  Order order_;
  SweepProgress progress_;
  Result result_;
  std::atomic<bool> done_{false};
  std::jthread worker_;
};

}  // namespace voltfall
