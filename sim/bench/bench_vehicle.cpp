#include "bench/bench_vehicle.h"

#include <algorithm>
#include <cmath>

namespace voltfall {

BenchVehicle::BenchVehicle(const RigParameters& healthy) : healthy_(healthy), turned_(healthy), now_(healthy) {}

bool BenchVehicle::is_changed(const BenchKnob& knob) const {
  return knob.value_in(turned_) != knob.value_in(healthy_);
}

void BenchVehicle::turn(const BenchKnob& knob, double value) {
  knob.turn(turned_, value);
  work_out();
}

void BenchVehicle::set(const Settable& settable, double value) {
  settable.in(turned_) = std::clamp(value, settable.lowest, settable.highest);
  const auto knobs = all_bench_knobs();
  const bool has_knob =
      std::any_of(knobs.begin(), knobs.end(), [&](const BenchKnob& knob) { return knob.path == settable.path; });
  std::erase(set_without_knob_, &settable);
  if (!has_knob) set_without_knob_.push_back(&settable);
  work_out();
}

void BenchVehicle::put_back(const BenchKnob& knob) {
  knob.settable().in(turned_) = knob.settable().value_in(healthy_);
  work_out();
}

void BenchVehicle::put_back_healthy() {
  turned_ = healthy_;
  faults_.clear();
  set_without_knob_.clear();
  work_out();
}

bool BenchVehicle::is_healthy() const {
  const auto knobs = all_bench_knobs();
  return faults_.empty() && set_without_knob_.empty() &&
         std::none_of(knobs.begin(), knobs.end(), [&](const BenchKnob& knob) { return is_changed(knob); });
}

bool BenchVehicle::has(const Fault& fault) const {
  return std::any_of(faults_.begin(), faults_.end(), [&](const BenchFault& on) { return on.fault == &fault; });
}

void BenchVehicle::put_on(const Fault& fault, double severity) {
  if (!fault.can_be_on(healthy_)) return;
  std::erase_if(faults_,
                [&](const BenchFault& on) { return on.fault == &fault || !shared_path(*on.fault, fault).empty(); });
  faults_.push_back({&fault, std::clamp(severity, fault.lowest, fault.highest)});
  work_out();
}

void BenchVehicle::take_off(const Fault& fault) {
  std::erase_if(faults_, [&](const BenchFault& on) { return on.fault == &fault; });
  work_out();
}

void BenchVehicle::work_out() {
  now_ = turned_;
  for (const BenchFault& on : faults_) now_ = with_fault(now_, *on.fault, on.severity);
}

}  // namespace voltfall
