#include "rig/heat.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "electrical/conductor.h"
#include "support/tolerance.h"

namespace voltfall {
namespace {

double warmest_after(const PartTemperatures& parts, Resistor resistor) {
  return parts.resistor_C[static_cast<std::size_t>(resistor)];
}

TEST(Heat, StaysAtAmbientWithoutHeat) {
  const PartTemperatures after = temperatures_after({}, PartTemperatures(22.0), {}, 60.0);
  EXPECT_NEAR(after.drive_C, 22.0, rounding(22.0));
  EXPECT_NEAR(warmest_after(after, Resistor::positive_clamp), 22.0, rounding(22.0));
}

// By hand: 0.9 m of 2 AWG holds 104 J/K; 1040 J in a tenth of a second warm it by 10 K, before any of it leaves.
TEST(Heat, WarmsACableByItsMass) {
  const RigParameters parameters;
  PartHeat heat;
  const double J_per_K = copper_heat_J_per_K(parameters.cables.positive.AWG, parameters.cables.positive.length_m);
  heat.resistor_J[static_cast<std::size_t>(Resistor::positive_cable)] = 10.0 * J_per_K;
  const PartTemperatures after = temperatures_after(parameters, PartTemperatures(22.0), heat, 0.1);
  EXPECT_NEAR(warmest_after(after, Resistor::positive_cable), 32.0, 0.01);  // 0.1 s of minutes of cooling
}

TEST(Heat, CoolsTowardsAmbient) {
  PartTemperatures hot(22.0);
  hot.drive_C = hot.armature_C = 120.0;
  const PartTemperatures soon = temperatures_after({}, hot, {}, 60.0);
  const PartTemperatures late = temperatures_after({}, hot, {}, 7200.0);
  EXPECT_LT(soon.drive_C, 120.0);
  EXPECT_GT(soon.drive_C, 80.0);
  EXPECT_NEAR(late.armature_C, 22.0, 0.1);
  EXPECT_NEAR(hottest_winding_C(soon), std::max(soon.drive_C, soon.armature_C), rounding(100.0));
}

// A bad joint is where the heat is: 15 mohm at 200 A is 600 W.
TEST(Heat, NamesTheHottestJoint) {
  PartHeat heat;
  heat.resistor_J[static_cast<std::size_t>(Resistor::starter_terminal)] = 6000.0;
  const PartTemperatures after = temperatures_after({}, PartTemperatures(22.0), heat, 10.0);
  EXPECT_NEAR(hottest_joint_C(after), warmest_after(after, Resistor::starter_terminal), rounding(100.0));
  EXPECT_GT(hottest_joint_C(after), 60.0);
}

}  // namespace
}  // namespace voltfall
