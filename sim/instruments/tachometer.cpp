#include "instruments/tachometer.h"

#include <cmath>

namespace voltfall {

void Tachometer::watch(const Readings& readings, double dt_s) {
  figure_.add(std::abs(readings.crank_rpm), readings.time_s, dt_s);
}

MeterDisplay Tachometer::display() const {
  if (!figure_.shown()) return {MeterDisplay::Kind::settling, 0.0, 0, ""};
  return {MeterDisplay::Kind::value, std::round(*figure_.shown()), 0, "rpm"};
}

}  // namespace voltfall
