#include "electrical/battery.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "numbers/straight_lines.h"

namespace voltfall {
namespace {

constexpr double fast_time_s = 0.03;
constexpr double slow_time_s = 1.0;
constexpr double pores_time_s = 3.5;
constexpr double between_plates_time_s = 2200.0;
constexpr double surface_time_s = 1800.0;
constexpr double surface_As_per_Ah = 1.0;
constexpr double starving_scale_V = 0.25;
constexpr double starved_acid = 0.005;  // below this the logarithm goes on as its tangent

// Share of the rating's volts: resistance = share / CCA. Chosen so that a new battery passes both definitions of
// values.md 0: 7.2 to 7.8 V after 30 s at its rating at -18 °C, 9.6 to 10.8 V after 15 s at half of it at 21 °C.
constexpr double ohmic_V = 2.45;
constexpr double fast_V = 0.35;
constexpr double slow_V = 1.0;

double rated_A(const BatteryParameters& battery) {
  return battery.rated_CCA_A * battery.health * battery.acid_level;
}

// Cold slows the ions: x1.4 at -18 °C against 25 °C, as far as the two load tests leave room.
double cold_factor(double temperature_C) {
  return std::exp(0.008 * std::clamp(25.0 - temperature_C, -40.0, 80.0));
}

// Ice takes the acid out of the way over some degrees below the freezing point.
double ice_share(const BatteryParameters& battery, double charge, double temperature_C) {
  constexpr double slush_K = 8.0;
  return std::clamp((freezing_point_C(charge) - temperature_C) / slush_K, battery.ice, 1.0);
}

double flat_factor(double charge) {
  const double missing = 1.0 - std::clamp(charge, 0.0, 1.0);
  return 1.0 + 0.35 * missing + 1.1 * missing * missing * missing;
}

// The limiting current of a full battery at 25 °C is some four times its rating for a moment; it falls with its charge.
double acid_drawn_per_As(const BatteryParameters& battery, double charge, double temperature_C) {
  const double ice = ice_share(battery, charge, temperature_C);
  const double open_pores = std::pow(std::clamp(charge, 0.01, 1.0), 0.75) * (1.0 - ice);
  const double limiting_A =
      4.0 * rated_A(battery) * std::max(open_pores, 1.0e-3) / std::sqrt(cold_factor(temperature_C));
  return 1.0 / (limiting_A * pores_time_s);
}

// A heavy load gets at the acid between the plates only: what it draws there goes this many times faster than the
// charge. In the cold the rest follows more slowly yet: 100, 65, 40 and 20 to 25 % of the warm capacity at 26.7, 0,
// -17.8 and -28.8 °C (values.md section 0).
double drawn_between_plates(double temperature_C) {
  constexpr std::array<TablePoint, 5> times{{{-40.0, 14.0}, {-28.8, 9.8}, {-17.8, 5.7}, {0.0, 3.7}, {26.7, 2.3}}};
  return on_straight_lines(times, temperature_C);
}

// At 14.2 V a full battery of 62 Ah takes an ampere or two, a half-full one some 30 A (common practice).
double charging_ohm(const BatteryParameters& battery, double charge) {
  const double Ah = battery.capacity_Ah * battery.health * battery.acid_level;
  return 1.25 / Ah / (1.02 - std::clamp(charge, 0.0, 1.0));
}

double pores_after(const BatteryFigures& figures, const BatteryState& state, double current_A, double dt_s) {
  const double gained_per_s = state.between_plates_acid / pores_time_s - current_A * figures.acid_per_As;
  return (state.near_plate_acid + dt_s * gained_per_s) / (1.0 + dt_s / pores_time_s);
}

// Discharging takes surface charge away, charging builds it up to half a volt.
double surface_after_V(const BatteryFigures& figures, double surface_V, double current_A, double dt_s) {
  constexpr double most_V = 0.5, charging_share = 0.1;
  const double surface_As = surface_As_per_Ah * figures.capacity_As / 3600.0;
  const double off_per_s = std::max(current_A, 0.0) / surface_As + 1.0 / surface_time_s;
  const double on_per_s = charging_share * std::max(-current_A, 0.0) / surface_As;
  return (surface_V + dt_s * on_per_s * most_V) / (1.0 + dt_s * (off_per_s + on_per_s));
}

}  // namespace

BatteryState rested_battery(const BatteryParameters& battery, double temperature_C) {
  return {.charge = battery.charge,
          .between_plates_acid = battery.charge,
          .near_plate_acid = battery.charge,
          .fast_V = 0.0,
          .slow_V = 0.0,
          .surface_V = battery.surface_charge_V,
          .temperature_C = temperature_C};
}

BatteryState battery_rested_for(const BatteryState& state, double wait_s) {
  BatteryState after = state;
  after.fast_V *= std::exp(-wait_s / fast_time_s);
  after.slow_V *= std::exp(-wait_s / slow_time_s);
  after.surface_V *= std::exp(-wait_s / surface_time_s);
  after.between_plates_acid +=
      (state.charge - state.between_plates_acid) * (1.0 - std::exp(-wait_s / between_plates_time_s));
  after.near_plate_acid +=
      (after.between_plates_acid - state.near_plate_acid) * (1.0 - std::exp(-wait_s / pores_time_s));
  return after;
}

double specific_gravity(double charge) {
  constexpr std::array<TablePoint, 5> gravity{{{0.0, 1.120}, {0.25, 1.155}, {0.5, 1.190}, {0.75, 1.225}, {1.0, 1.265}}};
  return on_straight_lines(gravity, charge);
}

double freezing_point_C(double charge) {
  constexpr std::array<TablePoint, 5> freezing_C{
      {{0.0, -9.4}, {0.25, -15.0}, {0.5, -26.1}, {0.75, -37.2}, {1.0, -59.5}}};
  return on_straight_lines(freezing_C, charge);
}

double open_circuit_V(const BatteryParameters& battery, double charge, double temperature_C) {
  constexpr std::array<TablePoint, 5> rested_V{
      {{0.0, 11.89}, {0.25, 12.06}, {0.5, 12.24}, {0.75, 12.45}, {1.0, 12.65}}};
  const double sound_V = on_straight_lines(rested_V, charge) + 0.002 * (temperature_C - 25.0);
  return sound_V * (6.0 - battery.shorted_cells) / 6.0;
}

double ohmic_ohm(const BatteryParameters& battery, double charge, double temperature_C) {
  constexpr double frozen_times = 60.0;
  const double ice = 1.0 + (frozen_times - 1.0) * ice_share(battery, charge, temperature_C);
  return ohmic_V / rated_A(battery) * cold_factor(temperature_C) * flat_factor(charge) * ice + battery.internal_ohm;
}

BatteryFigures battery_figures(const BatteryParameters& battery, double charge, double temperature_C) {
  const double capacity_As = 3600.0 * battery.capacity_Ah * battery.health * battery.acid_level;
  return {.open_circuit_V = open_circuit_V(battery, charge, temperature_C),
          .ohmic_ohm = ohmic_ohm(battery, charge, temperature_C),
          .fast_ohm = fast_V / rated_A(battery),
          .slow_ohm = slow_V / rated_A(battery) * flat_factor(charge),
          .charging_ohm = charging_ohm(battery, charge),
          .acid_per_As = acid_drawn_per_As(battery, charge, temperature_C),
          .between_plates_acid_per_As = drawn_between_plates(temperature_C) / capacity_As,
          .rested_acid = std::max(charge, starved_acid),
          .capacity_As = capacity_As};
}

BatteryStep battery_step(const BatteryFigures& figures, const BatteryState& state, double dt_s) {
  const double fast_gain = 1.0 / (1.0 + dt_s / fast_time_s);
  const double slow_gain = 1.0 / (1.0 + dt_s / slow_time_s);
  return {figures.open_circuit_V + state.surface_V - state.fast_V * fast_gain - state.slow_V * slow_gain,
          figures.ohmic_ohm + figures.fast_ohm * fast_gain * dt_s / fast_time_s +
              figures.slow_ohm * slow_gain * dt_s / slow_time_s};
}

StarvingLoss starving_loss(const BatteryFigures& figures, const BatteryState& state, double current_A, double dt_s) {
  if (current_A < 0.0) {
    const StarvingLoss at_rest = starving_loss(figures, state, 0.0, dt_s);
    return {at_rest.loss_V + figures.charging_ohm * current_A, figures.charging_ohm};
  }
  const double acid = pores_after(figures, state, current_A, dt_s);
  const double acid_per_A = -dt_s * figures.acid_per_As / (1.0 + dt_s / pores_time_s);
  if (acid > starved_acid) {
    return {-starving_scale_V * std::log(acid / figures.rested_acid), -starving_scale_V / acid * acid_per_A};
  }
  const double beyond = (starved_acid - acid) / starved_acid;
  return {starving_scale_V * (std::log(figures.rested_acid / starved_acid) + beyond),
          -starving_scale_V / starved_acid * acid_per_A};
}

BatteryState battery_after(const BatteryFigures& figures, const BatteryState& state, double current_A, double dt_s) {
  BatteryState after = state;
  const double between_gained_per_s =
      state.charge / between_plates_time_s - current_A * figures.between_plates_acid_per_As;
  after.between_plates_acid =
      (state.between_plates_acid + dt_s * between_gained_per_s) / (1.0 + dt_s / between_plates_time_s);
  after.surface_V = surface_after_V(figures, state.surface_V, current_A, dt_s);
  after.near_plate_acid = pores_after(figures, state, current_A, dt_s);
  after.fast_V = (state.fast_V + current_A * figures.fast_ohm * dt_s / fast_time_s) / (1.0 + dt_s / fast_time_s);
  after.slow_V = (state.slow_V + current_A * figures.slow_ohm * dt_s / slow_time_s) / (1.0 + dt_s / slow_time_s);
  after.charge = std::clamp(state.charge - current_A * dt_s / figures.capacity_As, 0.0, 1.0);
  return after;
}

}  // namespace voltfall
