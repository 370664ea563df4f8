#include "electrical/conductor.h"

#include <gtest/gtest.h>

#include "support/tolerance.h"

namespace voltfall {
namespace {

TEST(Conductor, IsUnchangedAt20C) {
  EXPECT_NEAR(copper_factor(20.0), 1.0, rounding(1.0));
  EXPECT_NEAR(copper_factor(120.0), 1.393, rounding(1.393));
}

// By hand: 2 AWG, 33.63 mm2: 17.241 x 1.02 / 33.63 mohm per metre.
TEST(Conductor, GoesWithLengthOverArea) {
  EXPECT_NEAR(stranded_ohm_at_20C(2.0, 1.0), 5.229e-4, 0.001 * 5.229e-4);
  EXPECT_NEAR(stranded_ohm_at_20C(2.0, 3.0), 3.0 * stranded_ohm_at_20C(2.0, 1.0), rounding(1.0));
}

// The gauge's own rule: 39 steps are a factor of 92 in diameter, six are about two.
TEST(Conductor, GaugeIsAGeometricSeries) {
  EXPECT_NEAR(AWG_area_m2(-3.0) / AWG_area_m2(36.0), 92.0 * 92.0, rounding(92.0 * 92.0) * 10.0);
  EXPECT_NEAR(AWG_area_m2(0.0) / AWG_area_m2(6.0), 4.0, 0.03);
}

// By hand: a metre of 33.6 mm2 weighs 0.301 kg at 385 J/(kg K), 116 J/K.
TEST(Conductor, HoldsHeatByItsMass) {
  EXPECT_NEAR(copper_heat_J_per_K(2.0, 1.0), 116.0, 1.0);
}

}  // namespace
}  // namespace voltfall
