#pragma once

#include <optional>

#include "instruments/multimeter.h"
#include "rig/readings.h"
#include "rig/test_points.h"

namespace voltfall {

/// A DC clamp: 0.1 A steps below 60 A, 1 A steps above, averages over a third of a second; carries a small zero offset
/// until it is zeroed.
class ClampMeter {
 public:
  void put_round(std::optional<HeavyCable> cable);
  std::optional<HeavyCable> round() const;
  void zero();
  void watch(const Readings& readings, double dt_s);
  MeterDisplay display() const;
};

}  // namespace voltfall
