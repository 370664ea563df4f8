#include "instruments/battery_testers.h"

#include <algorithm>
#include <cmath>

#include "electrical/battery.h"

namespace voltfall {

// CCA = K / R; K from a battery as it should be, so that such a one reads its own rating.
double inferred_CCA_A(const BatteryParameters& battery, const BatteryState& state) {
  constexpr double unit_A = 1000.0;
  BatteryParameters sound;
  sound.rated_CCA_A = unit_A;
  const double sound_ohm = ohmic_ohm(sound, 1.0, state.temperature_C);
  return unit_A * sound_ohm / ohmic_ohm(battery, state.charge, state.temperature_C);
}

MeterDisplay conductance_display(double cold_A) {
  constexpr double step_A = 5.0, most_A = 2000.0;
  if (cold_A > most_A) return {MeterDisplay::Kind::overload, 0.0, 0, "A"};
  return {MeterDisplay::Kind::value, std::round(cold_A / step_A) * step_A, 0, "A"};
}

double cell_gravity(const BatteryParameters& battery, const BatteryState& state, int cell, const RestingPlace& rest) {
  constexpr double dead_cell_gravity = 1.080;  // from memory: well below that of a merely flat cell
  const int first_dead = static_cast<int>(std::abs(rest.crank_angle_deg)) % battery_cells;
  const int place = (cell - 1 - first_dead + battery_cells) % battery_cells;
  const bool dead = place < static_cast<int>(std::lround(battery.shorted_cells));
  return dead ? dead_cell_gravity : specific_gravity(state.charge);
}

MeterDisplay gravity_display(double gravity) {
  constexpr double step = 0.005;
  return {MeterDisplay::Kind::value, std::round(gravity / step) * step, 3, ""};
}

bool is_frozen(const BatteryParameters& battery, const BatteryState& state) {
  constexpr double some_ice = 0.02;
  return battery.ice > some_ice || state.temperature_C < freezing_point_C(state.charge);
}

}  // namespace voltfall
