#include "mechanical/engine.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "support/tolerance.h"

namespace voltfall {
namespace {

constexpr double atmosphere_Pa = 101325.0;

// Leak and walls so slow that they play no part.
constexpr EngineParameters tight{.wall_time_s = 1.0e9, .leak_time_s = 1.0e9};

TEST(CylinderVolume, SweepsWhatBoreAndStrokeSay) {
  const EngineParameters engine;
  const CylinderVolume volume(engine);
  const double swept_m3 = 0.25 * std::numbers::pi * 0.1016 * 0.1016 * 0.0762;
  EXPECT_NEAR(volume.swept_m3(), swept_m3, rounding(1.0));
  EXPECT_NEAR(volume.volume_m3(std::numbers::pi) / volume.volume_m3(0.0), 8.5, 1.0e-9);
}

// By hand: a tight cylinder closed from `intake_closes_deg` after bottom centre follows p V^n up to top centre.
TEST(Compression, FollowsThePolytropicLaw) {
  const CylinderVolume volume(tight);
  EngineState state = rested_engine(tight, volume, 540.0);  // cylinder 1 at the bottom, before its compression
  constexpr double step_rad = 1.0e-3;
  const double top_rad = 4.0 * std::numbers::pi;
  while (state.crank_angle_rad + step_rad < top_rad && state.crank_angle_rad > 1.0) {
    turn_engine(tight, volume, state, state.crank_angle_rad + step_rad, false, 1.0e-4);
  }
  const double closes_rad = std::numbers::pi * (540.0 + tight.intake_closes_deg) / 180.0;
  const double expected_Pa =
      atmosphere_Pa *
      std::pow(volume.volume_m3(closes_rad) / volume.volume_m3(state.crank_angle_rad), tight.compression_index);
  EXPECT_NEAR(state.pressure_Pa[0], expected_Pa, 0.005 * expected_Pa);  // the valve shuts at a step's end
}

// What the crank puts in through the gas torque is what the gas takes: over a compression, step by step.
TEST(Compression, TakesItsWorkFromTheCrank) {
  const EngineParameters engine;
  const CylinderVolume volume(engine);
  EngineState state = rested_engine(engine, volume, 45.0);
  constexpr double step_rad = 2.0e-3;
  double crank_J = 0.0, gas_J = 0.0;
  for (int step = 0; step < 1500; ++step) {
    crank_J -= gas_torque_Nm(engine, volume, state, 0.5 * step_rad, 0.5e-4) * step_rad;
    gas_J += turn_engine(engine, volume, state, state.crank_angle_rad + step_rad, false, 1.0e-4).work_on_gas_J;
  }
  EXPECT_GT(gas_J, 10.0);
  EXPECT_NEAR(crank_J, gas_J, 0.01 * gas_J);
}

TEST(Compression, LeaksAwayOnAStandingEngine) {
  const EngineParameters engine;
  const CylinderVolume volume(engine);
  EngineState state = rested_engine(engine, volume, 700.0);
  for (int step = 0; step < 100; ++step)
    turn_engine(engine, volume, state, state.crank_angle_rad + 0.003, false, 1.0e-3);
  const double squeezed_Pa = state.pressure_Pa[0];
  for (int step = 0; step < 10000; ++step) turn_engine(engine, volume, state, state.crank_angle_rad, false, 1.0e-3);
  EXPECT_GT(squeezed_Pa, 1.2 * atmosphere_Pa);
  EXPECT_NEAR(state.pressure_Pa[0], atmosphere_Pa, 0.01 * atmosphere_Pa);
}

// Humps of the gas torque in one cycle, counted as it rises through a few newton-metres.
int torque_humps(const EngineParameters& engine) {
  constexpr double step_rad = 1.0e-3, threshold_Nm = 10.0;
  const CylinderVolume volume(engine);
  EngineState state = rested_engine(engine, volume, 45.0);
  const long steps_in_cycle = std::lround(4.0 * std::numbers::pi / step_rad);
  int humps = 0;
  double before_Nm = 0.0;
  for (long step = 0; step < 2 * steps_in_cycle; ++step) {
    turn_engine(engine, volume, state, state.crank_angle_rad + step_rad, false, 5.0e-5);
    const double torque_Nm = gas_torque_Nm(engine, volume, state, 0.0, 0.0);
    if (step >= steps_in_cycle && before_Nm < threshold_Nm && torque_Nm >= threshold_Nm) ++humps;
    before_Nm = torque_Nm;
  }
  return humps;
}

TEST(WeakCylinder, LosesOneHumpOfEight) {
  EXPECT_EQ(torque_humps({}), 8);
  EXPECT_EQ(torque_humps({.cylinders = 6.0}), 6);
  EXPECT_EQ(torque_humps({.weak_cylinder = 1.0}), 7);
}

TEST(RestingAngle, LiesBetweenTopCentres) {
  EXPECT_NEAR(resting_angle_deg({}, 0, 0.0), 45.0, rounding(45.0));
  EXPECT_NEAR(resting_angle_deg({}, 3, -10.0), 305.0, rounding(305.0));
  EXPECT_NEAR(resting_angle_deg({.cylinders = 6.0}, 1, 0.0), 180.0, rounding(180.0));
}

TEST(CylinderCount, TakesTheNearestBelow) {
  EXPECT_EQ(cylinder_count({.cylinders = 4.0}), 4);
  EXPECT_EQ(cylinder_count({.cylinders = 5.9}), 4);
  EXPECT_EQ(cylinder_count({.cylinders = 7.0}), 6);
  EXPECT_EQ(cylinder_count({.cylinders = 8.0}), 8);
}

}  // namespace
}  // namespace voltfall
