#include <gtest/gtest.h>

#include <array>

#include "electrical/battery.h"
#include "support/tolerance.h"

namespace voltfall {
namespace {

// The battery alone on a steady load, from rest.
double loaded_V(const BatteryParameters& battery, double temperature_C, double current_A, double for_s) {
  constexpr double dt_s = 0.01;
  BatteryState state = rested_battery(battery, temperature_C);
  double posts_V = 0.0;
  for (double time_s = 0.0; time_s < for_s - 0.5 * dt_s; time_s += dt_s) {
    const BatteryFigures figures = battery_figures(battery, state.charge, temperature_C);
    const BatteryStep step = battery_step(figures, state, dt_s);
    posts_V = step.emf_V - step.series_ohm * current_A - starving_loss(figures, state, current_A, dt_s).loss_V;
    state = battery_after(figures, state, current_A, dt_s);
  }
  return posts_V;
}

class RatedBattery : public ::testing::TestWithParam<double> {
 protected:
  // A bigger battery of the same make holds more in proportion.
  BatteryParameters battery{.rated_CCA_A = GetParam(), .capacity_Ah = 62.0 / 640.0 * GetParam()};
};

// SAE J537: at its rating, -18 °C, at least 7.2 V after 30 s (values.md sections 0 and 1.3; physics.md section 4 caps
// it at 7.8 V, for a battery much better than its rating would carry a higher one).
TEST_P(RatedBattery, EndsTheColdTestJustAboveItsLimit) {
  const double posts_V = loaded_V(battery, -18.0, battery.rated_CCA_A, 30.0);
  EXPECT_GE(posts_V, 7.2);
  EXPECT_LE(posts_V, 7.8);
}

// Half the rating for 15 s at 21 °C: at least 9.6 V (values.md section 0; upper end from physics.md section 4).
TEST_P(RatedBattery, PassesTheHalfRatingLoadTest) {
  const double posts_V = loaded_V(battery, 21.0, 0.5 * battery.rated_CCA_A, 15.0);
  EXPECT_GE(posts_V, 9.6);
  EXPECT_LE(posts_V, 10.8);
}

// The same table's colder rows ask less; a new battery passes them all.
TEST_P(RatedBattery, PassesTheLoadTestInTheCold) {
  struct Row {
    double temperature_C, least_V;
  };
  for (const Row& row :
       std::array<Row, 7>{{{16, 9.5}, {10, 9.4}, {4, 9.3}, {-1, 9.1}, {-7, 8.9}, {-12, 8.7}, {-18, 8.5}}}) {
    EXPECT_GE(loaded_V(battery, row.temperature_C, 0.5 * battery.rated_CCA_A, 15.0), row.least_V) << row.temperature_C;
  }
}

INSTANTIATE_TEST_SUITE_P(Ratings, RatedBattery, ::testing::Values(400.0, 640.0, 900.0));

// Hours from rest until the posts fall to `stop_V` on a steady load.
double hours_to(const BatteryParameters& battery, double temperature_C, double current_A, double stop_V) {
  const double dt_s = 2.5 / current_A;  // some 100 000 steps for the whole charge
  BatteryState state = rested_battery(battery, temperature_C);
  double time_s = 0.0;
  for (; time_s < 30.0 * 3600.0; time_s += dt_s) {
    const BatteryFigures figures = battery_figures(battery, state.charge, temperature_C);
    const BatteryStep step = battery_step(figures, state, dt_s);
    const double posts_V =
        step.emf_V - step.series_ohm * current_A - starving_loss(figures, state, current_A, dt_s).loss_V;
    if (posts_V < stop_V) break;
    state = battery_after(figures, state, current_A, dt_s);
  }
  return time_s / 3600.0;
}

// values.md section 0: 100, 65, 40 and 20 % (shop tables 25 %) of the warm capacity at 26.7, 0, -17.8 and -28.8 °C. The
// source does not name its current; the model has to follow at those that shops and starters draw. Whole per cents in
// steps of five are printed, so half of a step and as much again for the current.
TEST(Capacity, FallsInTheColdAsTheServiceTableSays) {
  struct Row {
    double temperature_C, least, most;
  };
  for (const double current_A : {25.0, 150.0, 300.0}) {
    const double stop_V = current_A > 50.0 ? 7.2 : 10.5;
    const double warm_h = hours_to({}, 26.7, current_A, stop_V);
    for (const Row& row : std::array<Row, 3>{{{0.0, 0.60, 0.70}, {-17.8, 0.35, 0.45}, {-28.8, 0.15, 0.30}}}) {
      const double share = hours_to({}, row.temperature_C, current_A, stop_V) / warm_h;
      EXPECT_GE(share, row.least) << current_A << " A at " << row.temperature_C;
      EXPECT_LE(share, row.most) << current_A << " A at " << row.temperature_C;
    }
  }
}

// values.md section 1.4: reserve capacity is minutes at 25 A to 10.5 V at 27 °C. Common practice: a 60 Ah battery has
// 90 to 120 minutes.
TEST(Capacity, GivesItsReserveMinutes) {
  const double minutes = 60.0 * hours_to({}, 27.0, 25.0, 10.5);
  EXPECT_GE(minutes, 90.0);
  EXPECT_LE(minutes, 120.0);
}

// The 20 h rate is what the capacity is stated at: 62 Ah, 3.1 A. A tenth is left for the last of the acid.
TEST(Capacity, IsNearlyAllThereAtTheTwentyHourRate) {
  const double hours = hours_to({}, 26.7, 62.0 / 20.0, 10.5);
  EXPECT_GE(hours, 18.0);
  EXPECT_LE(hours, 20.0);
}

// values.md section 0: specific gravity and freezing point by charge; 1.2: cell volts = gravity + 0.84 at rest, which
// the open-circuit table of 1.1 follows to its own spread of 0.10 V.
TEST(Acid, HasThePublishedGravityAndFreezingPoint) {
  struct Row {
    double charge, gravity, freezes_C;
  };
  for (const Row& row : std::array<Row, 5>{{{1.0, 1.265, -59.5},
                                            {0.75, 1.225, -37.2},
                                            {0.5, 1.190, -26.1},
                                            {0.25, 1.155, -15.0},
                                            {0.0, 1.120, -9.4}}}) {
    EXPECT_NEAR(specific_gravity(row.charge), row.gravity, datasheet(0.001)) << row.charge;
    EXPECT_NEAR(freezing_point_C(row.charge), row.freezes_C, datasheet(0.1)) << row.charge;
    EXPECT_NEAR(6.0 * (specific_gravity(row.charge) + 0.84), open_circuit_V({}, row.charge, 25.0), 0.15) << row.charge;
  }
}

// A flat battery freezes where a full one does not, and then gives next to nothing (trade.md fault 7).
TEST(Acid, FrozenGivesNoCurrent) {
  BatteryParameters flat;
  flat.charge = 0.1;
  const double warm_ohm = ohmic_ohm(flat, flat.charge, 0.0);
  EXPECT_GT(ohmic_ohm(flat, flat.charge, -25.0), 20.0 * warm_ohm);
  EXPECT_LT(ohmic_ohm({}, 1.0, -25.0), 2.0 * ohmic_ohm({}, 1.0, 0.0));
}

// From -30 to 60 °C and from empty to full: more charge and more warmth never leave fewer volts under a load, and the
// figures stay finite (design document section 4).
TEST(Battery, IsSensibleOverItsWholeRange) {
  constexpr double load_ohm = 0.06;  // some 200 A: a resistance, for a flat battery can't keep a current up
  const auto posts_V = [&](double charge, double temperature_C) {
    BatteryParameters battery;
    battery.charge = charge;
    BatteryState state = rested_battery(battery, temperature_C);
    double current_A = 0.0;
    for (int tick = 0; tick < 5000; ++tick) {
      const BatteryFigures figures = battery_figures(battery, state.charge, temperature_C);
      const BatteryStep step = battery_step(figures, state, 1.0e-3);
      for (int round = 0; round < 40; ++round) {  // Newton on the loop: emf - loss - (r + load) i = 0
        const StarvingLoss loss = starving_loss(figures, state, current_A, 1.0e-3);
        current_A += (step.emf_V - loss.loss_V - (step.series_ohm + load_ohm) * current_A) /
                     (step.series_ohm + load_ohm + loss.ohm);
      }
      state = battery_after(figures, state, current_A, 1.0e-3);
    }
    return current_A * load_ohm;
  };
  for (double temperature_C = -30.0; temperature_C <= 60.0; temperature_C += 15.0) {
    double less_charged_V = 0.0;
    for (double charge = 0.0; charge <= 1.0; charge += 0.125) {
      const double volts = posts_V(charge, temperature_C);
      EXPECT_GE(volts, less_charged_V - 1.0e-9) << temperature_C << " °C, " << charge;
      EXPECT_LE(volts, 12.8) << temperature_C << " °C, " << charge;
      EXPECT_GE(posts_V(charge, temperature_C + 5.0), volts - 1.0e-9) << temperature_C << " °C, " << charge;
      less_charged_V = volts;
    }
  }
}

// values.md section 1.2: headlamps on for 15 s, then up to 5 min of waiting, before a reading is trusted. Two headlamps
// draw about 10 A.
TEST(SurfaceCharge, GoesWithTheHeadlampsAndAWait) {
  BatteryParameters charged;
  charged.surface_charge_V = 0.4;
  BatteryState state = rested_battery(charged, 25.0);
  const BatteryFigures figures = battery_figures(charged, 1.0, 25.0);
  const auto rested_V = [&] { return battery_step(figures, state, 1.0e-3).emf_V; };
  EXPECT_NEAR(rested_V() - figures.open_circuit_V, 0.4, 0.001);
  for (int tick = 0; tick < 1500; ++tick) state = battery_after(figures, state, 10.0, 0.01);
  state = battery_rested_for(state, 300.0);
  EXPECT_LT(rested_V() - figures.open_circuit_V, 0.05);
}

// Common practice: at 14.2 V a full battery takes an ampere or a few, a half-full one tens.
TEST(Charging, TapersAsTheBatteryFills) {
  const auto taken_A = [](double charge) {
    const BatteryFigures figures = battery_figures({}, charge, 25.0);
    return (14.2 - figures.open_circuit_V) / (figures.charging_ohm + figures.ohmic_ohm);
  };
  EXPECT_LE(taken_A(1.0), 5.0);
  EXPECT_GE(taken_A(0.5), 20.0);
  EXPECT_LE(taken_A(0.5), 80.0);
}

// values.md section 1.4: at most 5.4/CCA ohm at -18 °C (30 s) and 6.0/CCA ohm at 21 °C, from the definitions.
TEST(BatteryResistance, StaysUnderWhatTheRatingImplies) {
  const BatteryParameters battery;
  const BatteryFigures cold = battery_figures(battery, 1.0, -18.0);
  const BatteryFigures warm = battery_figures(battery, 1.0, 21.0);
  EXPECT_LE(cold.ohmic_ohm + cold.fast_ohm + cold.slow_ohm, 5.4 / battery.rated_CCA_A);
  EXPECT_LE(warm.ohmic_ohm + warm.fast_ohm + warm.slow_ohm, 6.0 / battery.rated_CCA_A);
}

// values.md section 1.1, three tables; they differ by up to 0.19 V, so it asks +-0.10 V from 100 to 25 % and +-0.20 V
// at 0 %.
TEST(OpenCircuitVolts, FollowThePublishedTables) {
  struct Row {
    double charge, bulletin_V, gravity_V, sign_maker_V, tolerance_V;
  };
  for (const Row& row : std::array<Row, 5>{{{1.00, 12.60, 12.65, 12.70, 0.10},
                                            {0.75, 12.40, 12.45, 12.41, 0.10},
                                            {0.50, 12.20, 12.24, 12.20, 0.10},
                                            {0.25, 12.00, 12.06, 11.95, 0.15},
                                            {0.00, 11.70, 11.89, 11.70, 0.20}}}) {
    const double rested_V = open_circuit_V({}, row.charge, 25.0);
    EXPECT_NEAR(rested_V, row.bulletin_V, row.tolerance_V) << row.charge;
    EXPECT_NEAR(rested_V, row.gravity_V, 0.10) << row.charge;
    EXPECT_NEAR(rested_V, row.sign_maker_V, row.tolerance_V) << row.charge;
  }
}

// values.md section 1.2: the slope against temperature is positive, 1 to 4.5 mV per kelvin of a 12 V battery.
TEST(OpenCircuitVolts, RiseALittleWithWarmth) {
  const double per_K = (open_circuit_V({}, 1.0, 40.0) - open_circuit_V({}, 1.0, 0.0)) / 40.0;
  EXPECT_GE(per_K, 1.0e-3);
  EXPECT_LE(per_K, 4.5e-3);
}

// trade.md, fault 4: a shorted cell leaves 10.4 to 10.6 V at rest.
TEST(OpenCircuitVolts, LoseASixthWithAShortedCell) {
  const double rested_V = open_circuit_V({.shorted_cells = 1.0}, 1.0, 25.0);
  EXPECT_GE(rested_V, 10.4);
  EXPECT_LE(rested_V, 10.6);
}

}  // namespace
}  // namespace voltfall
