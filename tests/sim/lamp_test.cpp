#include "electrical/lamp.h"

#include <gtest/gtest.h>

#include <cmath>

#include "support/tolerance.h"

namespace voltfall {
namespace {

TEST(Lamp, TakesItsRatedPowerAtItsRatedVolts) {
  EXPECT_NEAR(12.8 * 12.8 / lamp_ohm(120.0, 12.8), 120.0, rounding(120.0));
  EXPECT_NEAR(lamp_light(12.8), 1.0, rounding(1.0));
}

// Common practice: a cold filament draws about twelve times its hot current.
TEST(Lamp, IsAlmostAShortWhenCold) {
  EXPECT_NEAR(lamp_ohm(120.0, 12.8) / lamp_ohm(120.0, 0.0), 12.0, rounding(12.0));
}

TEST(Lamp, ComesUpAndDiesAwayWithALag) {
  double filament_V = 0.0;
  for (int step = 0; step < 100; ++step) filament_V = filament_after_V(filament_V, 12.0, 1.0e-3);
  EXPECT_GT(filament_V, 0.7 * 12.0);
  EXPECT_LT(filament_V, 12.0);
  for (int step = 0; step < 1000; ++step) filament_V = filament_after_V(filament_V, 0.0, 1.0e-3);
  EXPECT_LT(lamp_light(filament_V), 1.0e-6);
}

}  // namespace
}  // namespace voltfall
