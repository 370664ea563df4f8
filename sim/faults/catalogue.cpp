#include "faults/catalogue.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "faults/catalogue_rows.h"

// Every fault the program knows, as data. To add one: a row in one of the catalogue_*.cpp, its words in assets/wording,
// and a repair. Ranges are trade practice for a 12 V car with a separate relay; each starts near where a driver would
// first complain. "trade.md 17" is row 17 of that document's part A.

namespace voltfall {
namespace {

using enum FaultClass;
constexpr std::array classes{battery, joint, cable, relay, control, ground, starter_electrical, starter_mechanical,
                             engine};
constexpr std::array<std::string_view, classes.size()> class_ids{
    "battery", "joint", "cable", "relay", "control", "ground", "starter_electrical", "starter_mechanical", "engine"};

const std::vector<Fault>& faults() {
  static const std::vector<Fault> table = [] {
    std::vector<Fault> all;
    for (auto* const rows :
         {catalogue::battery_faults, catalogue::joint_faults, catalogue::cable_faults, catalogue::relay_faults,
          catalogue::control_faults, catalogue::ground_faults, catalogue::starter_electrical_faults,
          catalogue::starter_mechanical_faults, catalogue::engine_faults}) {
      const std::vector<Fault> part = rows();
      all.insert(all.end(), part.begin(), part.end());
    }
    return all;
  }();
  return table;
}

}  // namespace

std::span<const FaultClass> all_fault_classes() {
  return classes;
}

std::string_view id_of(FaultClass fault_class) {
  return class_ids[static_cast<std::size_t>(fault_class)];
}

std::span<const Fault> all_faults() {
  return faults();
}

const Fault* fault_named(std::string_view id) {
  const auto found = std::find_if(faults().begin(), faults().end(), [&](const Fault& fault) { return fault.id == id; });
  return found == faults().end() ? nullptr : &*found;
}

double Fault::severity_at(double share) const {
  return lowest > 0.0 ? lowest * std::pow(highest / lowest, share) : lowest + (highest - lowest) * share;
}

double Fault::share_of(double severity) const {
  if (highest <= lowest) return 0.0;
  return lowest > 0.0 ? std::log(severity / lowest) / std::log(highest / lowest)
                      : (severity - lowest) / (highest - lowest);
}

}  // namespace voltfall
