#pragma once

#include <optional>

#include "instruments/averaged_figure.h"
#include "rig/test_points.h"
#include "rig/wiring.h"

namespace voltfall {

/// Temperature of what stands at a test point: the joint, and the cable end beside it where that is hotter.
double temperature_at(TestPoint point, const PartTemperatures& parts);
/// Of the starter's shell: it follows the windings by a part.
double starter_shell_C(const PartTemperatures& parts);

/// Share of the rise above the surroundings that an infrared thermometer set for dull surfaces sees there: bright metal
/// sends out less than it should and mirrors the room instead.
double seen_share(TestPoint point);

/// Infrared, aimed by hand: half-degree steps, and low on bright metal.
class Thermometer {
 public:
  explicit Thermometer(double air_C) : air_C_(air_C) {}
  void aim(std::optional<TestPoint> at);
  std::optional<TestPoint> at() const { return at_; }
  void watch(const PartTemperatures& parts, double time_s, double dt_s);
  MeterDisplay display() const;
  std::optional<double> shown_at_s() const { return at_ ? figure_.shown_at_s() : std::nullopt; }

 private:
  double air_C_;
  std::optional<TestPoint> at_;
  AveragedFigure figure_{0.25};
};

}  // namespace voltfall
