#include "electrical/conductor.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace voltfall {

double copper_factor(double temperature_C) {
  return 1.0 + 0.00393 * (temperature_C - 20.0);
}

double AWG_area_m2(double AWG) {
  const double diameter_m = 0.127e-3 * std::pow(92.0, (36.0 - AWG) / 39.0);
  return 0.25 * std::numbers::pi * diameter_m * diameter_m;
}

std::string gauge_text(double AWG) {
  const int size = static_cast<int>(std::lround(AWG));
  const double area_mm2 = 1.0e6 * AWG_area_m2(size);
  return size > 0 ? fmt::format("{} AWG, {:.0f} mm\u00B2", size, area_mm2)
                  : fmt::format("{}/0 AWG, {:.0f} mm\u00B2", 1 - size, area_mm2);
}

double stranded_ohm_at_20C(double AWG, double length_m) {
  constexpr double copper_ohm_m = 17.241e-9;
  constexpr double stranding = 1.02;
  return copper_ohm_m * stranding * length_m / AWG_area_m2(AWG);
}

double copper_heat_J_per_K(double AWG, double length_m) {
  constexpr double copper_J_per_m3_K = 3.45e6;  // 8960 kg/m³ x 385 J/(kg·K), from memory
  return copper_J_per_m3_K * AWG_area_m2(AWG) * length_m;
}

}  // namespace voltfall
