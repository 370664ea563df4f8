#pragma once

#include <string>

namespace voltfall {

/// Copper's resistance over its value at 20 °C: +0.393 % per kelvin (values.md section 2).
double copper_factor(double temperature_C);

/// Copper area of an AWG size; the gauge is a geometric series: diameter 0.127 mm x 92^((36 - AWG) / 39).
double AWG_area_m2(double AWG);

/// As the trade writes a size, to the nearest whole one, on either side of the ocean: `1/0 AWG, 53 mm²`
std::string gauge_text(double AWG);

/// A stranded copper cable at 20 °C: 17.241 ohm mm²/km and 2 % for the lay of the strands (values.md section 2).
double stranded_ohm_at_20C(double AWG, double length_m);

/// Heat capacity of the copper in a cable, J/K.
double copper_heat_J_per_K(double AWG, double length_m);

}  // namespace voltfall
