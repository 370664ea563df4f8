#include "instruments/battery_testers.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "electrical/battery.h"

namespace voltfall {
namespace {

BatteryState at(double charge, double temperature_C) {
  BatteryParameters battery;
  battery.charge = charge;
  return rested_battery(battery, temperature_C);
}

double shown_CCA(const BatteryParameters& battery, double charge, double temperature_C = 20.0) {
  return conductance_display(inferred_CCA_A(battery, at(charge, temperature_C))).value;
}

TEST(ConductanceTester, ReadsTheRatingOfASoundFullBatteryWhateverTheWeather) {
  for (const double rated_A : {360.0, 640.0, 850.0}) {
    BatteryParameters battery;
    battery.rated_CCA_A = rated_A;
    for (const double temperature_C : {-10.0, 20.0, 35.0})
      EXPECT_NEAR(shown_CCA(battery, 1.0, temperature_C), rated_A, 2.5);
  }
}

// values.md 1.4: real resistance of a healthy 12 V battery about 3000/CCA mohm at 25 °C (from memory there, 70 %), of
// which a small fast signal sees the ohmic part.
TEST(ConductanceTester, InfersFromAConductanceOfTheOrderThatHandHeldTestersSee) {
  BatteryParameters battery;
  const double ohm = ohmic_ohm(battery, 1.0, 25.0);
  EXPECT_GT(ohm, 0.6 * 3.0 / battery.rated_CCA_A);
  EXPECT_LT(ohm, 1.1 * 3.0 / battery.rated_CCA_A);
}

TEST(ConductanceTester, FailsAnAgedBatteryInProportion) {
  BatteryParameters battery;
  battery.health = 0.5;
  EXPECT_NEAR(shown_CCA(battery, 1.0), 0.5 * battery.rated_CCA_A, 5.0);
}

TEST(ConductanceTester, IsFooledByAFlatBatteryWithSoundPlates) {
  const BatteryParameters battery;
  EXPECT_GT(shown_CCA(battery, 0.75), 0.8 * battery.rated_CCA_A);
  EXPECT_LT(shown_CCA(battery, 0.15), 0.8 * battery.rated_CCA_A);
}

// values.md section 0 / army battery manual: 1.265 full, 1.225 at 75 %, 1.190 half, 1.155 at a quarter, 1.120 flat.
TEST(Hydrometer, ReadsTheArmysTableOfGravity) {
  const BatteryParameters battery;
  EXPECT_NEAR(gravity_display(cell_gravity(battery, at(1.0, 26.7), 1, {})).value, 1.265, 1e-9);
  EXPECT_NEAR(gravity_display(cell_gravity(battery, at(0.75, 26.7), 1, {})).value, 1.225, 0.0051);
  EXPECT_NEAR(gravity_display(cell_gravity(battery, at(0.5, 26.7), 3, {})).value, 1.190, 0.0051);
  EXPECT_NEAR(gravity_display(cell_gravity(battery, at(0.0, 26.7), 6, {})).value, 1.120, 1e-9);
  EXPECT_EQ(gravity_display(1.2234).text_with_unit(), "1.225");
}

TEST(Hydrometer, FindsTheOneShortedCell) {
  BatteryParameters battery;
  battery.shorted_cells = 1.0;
  int low = 0;
  for (int cell = 1; cell <= battery_cells; ++cell) {
    // trade.md row 4: one cell low by more than 0.05.
    low += cell_gravity(battery, at(0.9, 20.0), cell, {100.0, 0.2}) < specific_gravity(0.9) - 0.05 ? 1 : 0;
  }
  EXPECT_EQ(low, 1);
}

TEST(FrozenBattery, IsOneWhoseAcidIsColderThanItFreezes) {
  const BatteryParameters battery;
  EXPECT_FALSE(is_frozen(battery, at(1.0, -30.0)));  // values.md section 0: full freezes at -59.5 °C, flat at -9.4
  EXPECT_TRUE(is_frozen(battery, at(0.0, -15.0)));
}

}  // namespace
}  // namespace voltfall
