#include "electrical/battery.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace voltfall {
namespace {

constexpr double fast_time_s = 0.03;
constexpr double slow_time_s = 1.0;
constexpr double diffusion_time_s = 3.5;
constexpr double starving_scale_V = 0.25;
constexpr double starved_acid = 0.005;  // below this the logarithm goes on as its tangent

// Share of the rating's volts: resistance = share / CCA. Chosen so that a new battery passes both definitions of
// values.md 0: 7.2 to 7.8 V after 30 s at its rating at -18 °C, 9.6 to 10.8 V after 15 s at half of it at 21 °C.
constexpr double ohmic_V = 2.35;
constexpr double fast_V = 0.35;
constexpr double slow_V = 1.00;

double rated_A(const BatteryParameters& battery) {
  return battery.rated_CCA_A * battery.health;
}

// Cold slows the ions: x1.4 at -18 °C against 25 °C, as far as the two load tests leave room.
double cold_factor(double temperature_C) {
  return std::exp(0.008 * std::clamp(25.0 - temperature_C, -40.0, 80.0));
}

double flat_factor(double charge) {
  const double missing = 1.0 - std::clamp(charge, 0.0, 1.0);
  return 1.0 + 0.35 * missing + 1.1 * missing * missing * missing;
}

// The limiting current of a full battery at 25 °C is about 1.7 times its rating; it falls faster than its charge.
double acid_drawn_per_As(const BatteryParameters& battery, double charge, double temperature_C) {
  const double pores = std::pow(std::clamp(charge, 0.01, 1.0), 0.3);
  const double limiting_A = 1.7 * rated_A(battery) * pores / std::sqrt(cold_factor(temperature_C));
  return 1.0 / (limiting_A * diffusion_time_s);
}

double acid_after(const BatteryFigures& figures, const BatteryState& state, double current_A, double dt_s) {
  const double gained_per_s = state.charge / diffusion_time_s - current_A * figures.acid_per_As;
  return (state.near_plate_acid + dt_s * gained_per_s) / (1.0 + dt_s / diffusion_time_s);
}

}  // namespace

BatteryState rested_battery(const BatteryParameters& battery, double temperature_C) {
  return {battery.charge, battery.charge, 0.0, 0.0, temperature_C};
}

double open_circuit_V(const BatteryParameters& battery, double charge, double temperature_C) {
  constexpr std::array<double, 5> rested_V{11.89, 12.06, 12.24, 12.45, 12.65};  // at 0, 25, 50, 75, 100 %
  const double place = std::clamp(charge, 0.0, 1.0) * 4.0;
  const auto below = std::min<std::size_t>(static_cast<std::size_t>(place), 3);
  const double between = place - static_cast<double>(below);
  const double sound_V =
      rested_V[below] + between * (rested_V[below + 1] - rested_V[below]) + 0.002 * (temperature_C - 25.0);
  return sound_V * (6.0 - battery.shorted_cells) / 6.0;
}

double ohmic_ohm(const BatteryParameters& battery, double charge, double temperature_C) {
  return ohmic_V / rated_A(battery) * cold_factor(temperature_C) * flat_factor(charge) + battery.internal_ohm;
}

BatteryFigures battery_figures(const BatteryParameters& battery, double charge, double temperature_C) {
  return {.open_circuit_V = open_circuit_V(battery, charge, temperature_C),
          .ohmic_ohm = ohmic_ohm(battery, charge, temperature_C),
          .fast_ohm = fast_V / rated_A(battery),
          .slow_ohm = slow_V / rated_A(battery) * flat_factor(charge),
          .acid_per_As = acid_drawn_per_As(battery, charge, temperature_C),
          .rested_acid = std::max(charge, starved_acid),
          .capacity_As = 3600.0 * battery.capacity_Ah * battery.health};
}

BatteryStep battery_step(const BatteryFigures& figures, const BatteryState& state, double dt_s) {
  const double fast_gain = 1.0 / (1.0 + dt_s / fast_time_s);
  const double slow_gain = 1.0 / (1.0 + dt_s / slow_time_s);
  return {figures.open_circuit_V - state.fast_V * fast_gain - state.slow_V * slow_gain,
          figures.ohmic_ohm + figures.fast_ohm * fast_gain * dt_s / fast_time_s +
              figures.slow_ohm * slow_gain * dt_s / slow_time_s};
}

StarvingLoss starving_loss(const BatteryFigures& figures, const BatteryState& state, double current_A, double dt_s) {
  const double acid = acid_after(figures, state, current_A, dt_s);
  const double acid_per_A = -dt_s * figures.acid_per_As / (1.0 + dt_s / diffusion_time_s);
  if (acid > starved_acid) {
    return {-starving_scale_V * std::log(acid / figures.rested_acid), -starving_scale_V / acid * acid_per_A};
  }
  const double beyond = (starved_acid - acid) / starved_acid;
  return {starving_scale_V * (std::log(figures.rested_acid / starved_acid) + beyond),
          -starving_scale_V / starved_acid * acid_per_A};
}

BatteryState battery_after(const BatteryFigures& figures, const BatteryState& state, double current_A, double dt_s) {
  BatteryState after = state;
  after.near_plate_acid = acid_after(figures, state, current_A, dt_s);
  after.fast_V = (state.fast_V + current_A * figures.fast_ohm * dt_s / fast_time_s) / (1.0 + dt_s / fast_time_s);
  after.slow_V = (state.slow_V + current_A * figures.slow_ohm * dt_s / slow_time_s) / (1.0 + dt_s / slow_time_s);
  after.charge = std::clamp(state.charge - current_A * dt_s / figures.capacity_As, 0.0, 1.0);
  return after;
}

}  // namespace voltfall
