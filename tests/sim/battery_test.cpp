#include "electrical/battery.h"

#include <gtest/gtest.h>

#include <cmath>

#include "support/tolerance.h"

namespace voltfall {
namespace {

double loaded_V(const BatteryFigures& figures, BatteryState& state, double current_A, double for_s, double dt_s) {
  double posts_V = 0.0;
  for (long step = 0; step < std::lround(for_s / dt_s); ++step) {
    const BatteryStep now = battery_step(figures, state, dt_s);
    posts_V = now.emf_V - now.series_ohm * current_A - starving_loss(figures, state, current_A, dt_s).loss_V;
    state = battery_after(figures, state, current_A, dt_s);
  }
  return posts_V;
}

TEST(Battery, RestsAtItsOpenCircuitVolts) {
  const BatteryParameters battery;
  const BatteryFigures figures = battery_figures(battery, 0.8, 20.0);
  BatteryState state = rested_battery({.charge = 0.8}, 20.0);
  EXPECT_NEAR(loaded_V(figures, state, 0.0, 5.0, 0.01), open_circuit_V(battery, 0.8, 20.0), rounding(12.0));
}

// The first instant shows the ohmic part, seconds later both polarisation branches as well; by hand
// I (R0 + Rfast + Rslow) and the acid's loss, with charge held.
TEST(Battery, SagsByItsThreeResistancesAndThePlatesHunger) {
  const BatteryFigures figures = battery_figures({}, 1.0, 20.0);
  BatteryState state = rested_battery({}, 20.0);
  constexpr double load_A = 200.0;
  EXPECT_NEAR(loaded_V(figures, state, load_A, 1.0e-5, 1.0e-5), figures.open_circuit_V - load_A * figures.ohmic_ohm,
              0.001);  // 10 us of 30 ms and 2 s branches
  const double later_V = loaded_V(figures, state, load_A, 60.0, 0.01);
  const double drop_V = load_A * (figures.ohmic_ohm + figures.fast_ohm + figures.slow_ohm);
  const double hunger_V = starving_loss(figures, state, load_A, 0.01).loss_V;
  EXPECT_GT(hunger_V, 0.0);
  EXPECT_NEAR(later_V, figures.open_circuit_V - drop_V - hunger_V, 1.0e-5);  // the last of the slow branch's settling
}

TEST(Battery, CountsAmpereHours) {
  const BatteryFigures figures = battery_figures({}, 1.0, 20.0);
  BatteryState state = rested_battery({}, 20.0);
  loaded_V(figures, state, 62.0, 360.0, 0.1);  // a tenth of an hour at a 62nd of capacity
  EXPECT_NEAR(state.charge, 0.9, 1.0e-9);
  loaded_V(figures, state, -31.0, 360.0, 0.1);
  EXPECT_NEAR(state.charge, 0.95, 1.0e-9);
}

TEST(Battery, RecoversWhenTheLoadIsTakenOff) {
  const BatteryFigures figures = battery_figures({}, 1.0, 20.0);
  BatteryState state = rested_battery({}, 20.0);
  const double loaded = loaded_V(figures, state, 300.0, 5.0, 0.01);
  const double at_once = loaded_V(figures, state, 0.0, 0.1, 0.01);
  const double later = loaded_V(figures, state, 0.0, 60.0, 0.01);
  EXPECT_GT(at_once, loaded + 0.5);
  EXPECT_GT(later, at_once + 0.1);
}

// The slope handed to Newton's method is the derivative of the loss.
TEST(StarvingLoss, GivesItsOwnSlope) {
  const BatteryFigures figures = battery_figures({}, 0.2, 20.0);
  for (const double acid : {0.2, 0.02, 0.001}) {
    const BatteryState state{.charge = 0.2,
                             .between_plates_acid = 0.2,
                             .near_plate_acid = acid,
                             .fast_V = 0.0,
                             .slow_V = 0.0,
                             .surface_V = 0.0,
                             .temperature_C = 20.0};
    const double above_V = starving_loss(figures, state, 101.0, 1.0e-3).loss_V;
    const double below_V = starving_loss(figures, state, 99.0, 1.0e-3).loss_V;
    const double slope_ohm = starving_loss(figures, state, 100.0, 1.0e-3).ohm;
    EXPECT_NEAR((above_V - below_V) / 2.0, slope_ohm, 0.02 * slope_ohm);
  }
}

// Design document section 4: below about a quarter of its charge 200 A collapses the volts within seconds.
TEST(StarvingLoss, CollapsesAFlatBatteryWithinSeconds) {
  const auto posts_V = [](double charge) {
    const BatteryFigures figures = battery_figures({}, charge, 20.0);
    BatteryState state = rested_battery({.charge = charge}, 20.0);
    return loaded_V(figures, state, 200.0, 10.0, 0.01);
  };
  EXPECT_GT(posts_V(0.5), 9.6);
  EXPECT_LT(posts_V(0.1), 6.0);
}

TEST(BatteryResistance, GrowsWithColdAgeAndDischarge) {
  const double new_warm_full = ohmic_ohm({}, 1.0, 25.0);
  EXPECT_GT(ohmic_ohm({}, 1.0, -18.0), 1.2 * new_warm_full);
  EXPECT_GT(ohmic_ohm({}, 0.3, 25.0), 1.2 * new_warm_full);
  EXPECT_NEAR(ohmic_ohm({.health = 0.5}, 1.0, 25.0), 2.0 * new_warm_full, rounding(1.0));
  EXPECT_NEAR(ohmic_ohm({.internal_ohm = 0.01}, 1.0, 25.0), new_warm_full + 0.01, rounding(1.0));
}

}  // namespace
}  // namespace voltfall
