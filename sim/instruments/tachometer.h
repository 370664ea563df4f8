#pragma once

#include "instruments/averaged_figure.h"
#include "rig/readings.h"

namespace voltfall {

/// Reads a mark on the crank pulley: whole revolutions a minute, averaged over half a second, so that single
/// compressions do not show. It can't tell backwards from forwards.
class Tachometer {
 public:
  static constexpr double window_s = 0.5;

  void watch(const Readings& readings, double dt_s);
  MeterDisplay display() const;
  std::optional<double> shown_at_s() const { return figure_.shown_at_s(); }

 private:
  AveragedFigure figure_{window_s};
};

}  // namespace voltfall
