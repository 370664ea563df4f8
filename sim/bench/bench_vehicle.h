#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "bench/bench_knobs.h"
#include "faults/catalogue.h"

namespace voltfall {

/// A fault put on at the bench, in the open.
struct BenchFault {
  const Fault* fault = nullptr;
  double severity = 0.0;
};

/// The vehicle on the bench: a healthy one, what was turned on it, and the faults put on top.
class BenchVehicle {
 public:
  explicit BenchVehicle(const RigParameters& healthy);

  const RigParameters& healthy() const { return healthy_; }
  const RigParameters& parameters() const { return now_; }

  /// What the knob stands at, faults left out.
  double value(const BenchKnob& knob) const { return knob.value_in(turned_); }
  bool is_changed(const BenchKnob& knob) const;
  void turn(const BenchKnob& knob, double value);
  /// Sets what need not have a knob, to any value in its documented range.
  void set(const Settable& settable, double value);
  /// What was set so and has no knob.
  const std::vector<const Settable*>& set_without_knob() const { return set_without_knob_; }
  /// Back to the healthy value, in full: not to the nearest step.
  void put_back(const BenchKnob& knob);
  /// All knobs and faults.
  void put_back_healthy();
  bool is_healthy() const;

  const std::vector<BenchFault>& faults() const { return faults_; }
  bool has(const Fault& fault) const;
  /// Puts it on, or changes how bad it is; takes off what can't be there with it. Held within its range.
  void put_on(const Fault& fault, double severity);
  void take_off(const Fault& fault);

 private:
  void work_out();

  RigParameters healthy_, turned_, now_;
  std::vector<BenchFault> faults_;
  std::vector<const Settable*> set_without_knob_;
};

}  // namespace voltfall
