#include "electrical/pole.h"

#include <gtest/gtest.h>

#include <cmath>

#include "support/tolerance.h"

namespace voltfall {
namespace {

constexpr PoleParameters pole{.area_m2 = 1.2e-3, .iron_gap_m = 5.0e-4, .saturation_T = 1.7};

TEST(Pole, SlopeIsTheDerivativeOfItsAmpereTurns) {
  for (const double flux_Wb : {0.0, 5.0e-4, 1.5e-3, 1.95e-3}) {
    constexpr double apart_Wb = 1.0e-8;
    const double rise = ampere_turns(pole, flux_Wb + apart_Wb, 4.0e-4) - ampere_turns(pole, flux_Wb - apart_Wb, 4.0e-4);
    const double slope = ampere_turns_per_Wb(pole, flux_Wb, 4.0e-4);
    EXPECT_NEAR(rise / (2.0 * apart_Wb), slope, 1.0e-5 * slope);
  }
}

// One energy behind all: dW/dflux at constant gap is F, and -dW/dgap at constant flux is the pull.
TEST(Pole, PullAndAmpereTurnsComeFromOneEnergy) {
  constexpr double gap_m = 2.0e-3;
  for (const double flux_Wb : {3.0e-4, 1.0e-3, 1.9e-3}) {
    constexpr double apart_Wb = 1.0e-8, apart_m = 1.0e-8;
    const double per_Wb =
        (stored_J(pole, flux_Wb + apart_Wb, gap_m) - stored_J(pole, flux_Wb - apart_Wb, gap_m)) / (2.0 * apart_Wb);
    EXPECT_NEAR(per_Wb, ampere_turns(pole, flux_Wb, gap_m), 1.0e-5 * per_Wb);
    const double per_m =
        (stored_J(pole, flux_Wb, gap_m + apart_m) - stored_J(pole, flux_Wb, gap_m - apart_m)) / (2.0 * apart_m);
    EXPECT_NEAR(per_m, pull_N(pole, flux_Wb), 1.0e-5 * per_m);
  }
}

// The unsaturated flux follows a step of ampere-turns with the eddy turn's time constant: 63.2 % after one of them.
TEST(Pole, LagsByItsEddyTurn) {
  constexpr double lag_s = 0.012, gap_m = 4.0e-4, dt_s = 1.0e-5, small_At = 10.0;
  const PoleStep pole_step(pole, eddy_ohm(pole, gap_m, lag_s), dt_s);
  double flux_Wb = 0.0;
  for (int step = 0; step < 1200; ++step) {
    flux_Wb = pole_step.flux_after(gap_m, flux_Wb, small_At, flux_Wb).flux_Wb;
  }
  const double final_Wb = small_At / ampere_turns_per_Wb(pole, 0.0, gap_m);
  const double expected_Wb = final_Wb * (1.0 - std::exp(-1.0));
  EXPECT_NEAR(flux_Wb, expected_Wb, stepping(expected_Wb, dt_s, lag_s) + 1.0e-4 * expected_Wb);  // slight saturation
}

TEST(Pole, StaysBelowSaturationUnderAnyAmpereTurns) {
  const PoleStep pole_step(pole, eddy_ohm(pole, 4.0e-4, 0.012), 1.0e-3);
  for (const double applied : {1.0e4, 1.0e6, -1.0e6}) {
    double flux_Wb = 0.0;
    for (int step = 0; step < 500; ++step) {
      flux_Wb = pole_step.flux_after(4.0e-4, flux_Wb, applied, flux_Wb).flux_Wb;
    }
    EXPECT_LT(std::abs(flux_Wb), pole.area_m2 * pole.saturation_T);
    EXPECT_NEAR(ampere_turns(pole, flux_Wb, 4.0e-4), applied, 1.0e-3 * std::abs(applied));
  }
}

}  // namespace
}  // namespace voltfall
