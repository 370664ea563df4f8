#include "electrical/pole.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace voltfall {
namespace {

constexpr double mu0 = 4.0e-7 * std::numbers::pi;  // H/m

}  // namespace

double ampere_turns(const PoleParameters& pole, double flux_Wb, double air_gap_m) {
  const double density_T = flux_Wb / pole.area_m2;
  const double fullness = density_T / pole.saturation_T;
  return density_T / mu0 * (air_gap_m + pole.iron_gap_m / (1.0 - fullness * fullness));
}

double ampere_turns_per_Wb(const PoleParameters& pole, double flux_Wb, double air_gap_m) {
  const double fullness = flux_Wb / (pole.area_m2 * pole.saturation_T);
  const double square = fullness * fullness;
  const double left = 1.0 - square;
  return (air_gap_m + pole.iron_gap_m * (1.0 + square) / (left * left)) / (mu0 * pole.area_m2);
}

double stored_J(const PoleParameters& pole, double flux_Wb, double air_gap_m) {
  const double density_T = flux_Wb / pole.area_m2;
  const double fullness = density_T / pole.saturation_T;
  const double iron = -pole.iron_gap_m * pole.saturation_T * pole.saturation_T * std::log1p(-fullness * fullness);
  return pole.area_m2 / (2.0 * mu0) * (density_T * density_T * air_gap_m + iron);
}

double pull_N(const PoleParameters& pole, double flux_Wb) {
  return flux_Wb * flux_Wb / (2.0 * mu0 * pole.area_m2);
}

double eddy_ohm(const PoleParameters& pole, double air_gap_m, double time_constant_s) {
  return mu0 * pole.area_m2 / ((air_gap_m + pole.iron_gap_m) * time_constant_s);
}

PoleStep::PoleStep(const PoleParameters& pole, double eddy_turn_ohm, double dt_s)
    : iron_gap_m_(pole.iron_gap_m),
      most_Wb_(pole.area_m2 * pole.saturation_T),
      per_most_(1.0 / most_Wb_),
      gain_(dt_s * eddy_turn_ohm),
      gain_per_m_(gain_ / (mu0 * pole.area_m2)) {}

FluxStep PoleStep::flux_after(double air_gap_m, double flux_before_Wb, double applied_ampere_turns,
                              double guess_Wb) const {
  // The left side rises steadily with flux and runs to infinity at saturation, so Newton from inside converges; a step
  // that would leave the iron's range goes half of the way to its end instead. The iron's law is written out once more
  // with one division for both F and dF/dflux, since this is called a dozen times a step.
  constexpr double settled_share = 1.0e-7;  // Newton: what is left after such a move is below rounding
  double flux_Wb = guess_Wb;
  double slope = 1.0;
  const auto lengths_m = [&](double& rising_m) {  // F and dF/dflux as lengths of air
    const double fullness = flux_Wb * per_most_;
    const double square = fullness * fullness;
    const double swell = 1.0 / (1.0 - square);
    rising_m = air_gap_m + iron_gap_m_ * (1.0 + square) * swell * swell;
    return air_gap_m + iron_gap_m_ * swell;
  };
  const double target_Wb = flux_before_Wb + gain_ * applied_ampere_turns;
  double rising_m = 0.0;
  for (int tries = 0; tries < 60; ++tries) {
    const double length_m = lengths_m(rising_m);
    slope = 1.0 + gain_per_m_ * rising_m;
    double next_Wb = flux_Wb - (flux_Wb * (1.0 + gain_per_m_ * length_m) - target_Wb) / slope;
    if (next_Wb >= most_Wb_) next_Wb = 0.5 * (flux_Wb + most_Wb_);
    if (next_Wb <= -most_Wb_) next_Wb = 0.5 * (flux_Wb - most_Wb_);
    const double moved_Wb = std::abs(next_Wb - flux_Wb);
    flux_Wb = next_Wb;
    if (moved_Wb < settled_share * most_Wb_) break;
  }
  lengths_m(rising_m);
  return {flux_Wb, gain_ / (1.0 + gain_per_m_ * rising_m)};
}

}  // namespace voltfall
