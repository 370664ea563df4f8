#include "electrical/lamp.h"

#include <algorithm>
#include <cmath>

namespace voltfall {
namespace {

constexpr double rated_V = 12.8;
constexpr double filament_time_s = 0.06;

}  // namespace

double lamp_ohm(double rated_W, double filament_V) {
  const double hot_ohm = rated_V * rated_V / std::max(rated_W, 1.0e-3);
  return hot_ohm * std::max(std::pow(std::abs(filament_V) / rated_V, 0.45), 1.0 / 12.0);
}

double lamp_light(double filament_V) {
  return std::pow(std::abs(filament_V) / rated_V, 3.4);
}

double filament_after_V(double filament_V, double lamp_V, double dt_s) {
  const double share = dt_s / filament_time_s;
  return (filament_V + share * std::abs(lamp_V)) / (1.0 + share);
}

}  // namespace voltfall
