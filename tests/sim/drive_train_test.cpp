#include "mechanical/drive_train.h"

#include <gtest/gtest.h>

#include <cmath>

#include "support/tolerance.h"

namespace voltfall {
namespace {

constexpr double dt_s = 1.0e-4;
constexpr double armature_kg_m2 = 1.1e-3;

struct Wheels {
  DriveParameters drive;
  DriveTrainState state;
  double crank_rad_per_s = 0.0;
  double clutch_Nm = 0.0, heat_J = 0.0, work_J = 0.0;
  bool slipped = false;

  void run(double motor_Nm, DriveTrainLoads loads, double for_s) {
    for (long step = 0; step < std::lround(for_s / dt_s); ++step) {
      loads.crank_rad_per_s = crank_rad_per_s;
      const DriveTrainStep open = begin_drive_train_step(drive, state, loads, motor_Nm, dt_s);
      const DriveTrainMove move = finish_drive_train_step(drive, state, loads, open, motor_Nm, dt_s);
      slipped = slipped || open.clutch_slips;
      work_J += motor_Nm * move.armature_mean_rad_per_s * dt_s;
      heat_J +=
          move.clutch_heat_J + move.tooth_heat_J + move.load_work_J + move.armature_friction_J + move.crank_friction_J;
      clutch_Nm = move.clutch_Nm;
      state = move.after;
      crank_rad_per_s = move.crank_rad_per_s;
    }
  }
  double kinetic_J(double crank_kg_m2) const {
    return 0.5 * (armature_kg_m2 * state.armature_rad_per_s * state.armature_rad_per_s +
                  drive.pinion_inertia_kg_m2 * state.pinion_rad_per_s * state.pinion_rad_per_s +
                  crank_kg_m2 * crank_rad_per_s * crank_rad_per_s);
  }
};

DriveTrainLoads on_the_stand() {
  DriveTrainLoads loads{};
  loads.armature_inertia_kg_m2 = armature_kg_m2;
  loads.crank_inertia_kg_m2 = 0.22;
  return loads;
}

DriveTrainLoads meshed() {
  DriveTrainLoads loads = on_the_stand();
  loads.ring_meshed = true;
  return loads;
}

// By hand: 1 N·m on armature and pinion together (1.16e-3 kg·m2) for 0.1 s.
TEST(DriveTrain, SpinsUpFreely) {
  Wheels wheels;
  wheels.run(1.0, on_the_stand(), 0.1);
  const double expected = 0.1 / (armature_kg_m2 + wheels.drive.pinion_inertia_kg_m2);
  EXPECT_NEAR(wheels.state.armature_rad_per_s, expected, 0.001 * expected);
  EXPECT_NEAR(wheels.state.pinion_rad_per_s, wheels.state.armature_rad_per_s, 0.01 * expected);
}

// 164 teeth over 10: the crank turns 16.4 times slower, and a friction of 41 N·m on it takes 2.5 N·m of the motor.
TEST(DriveTrain, GearsDownByTheTeeth) {
  Wheels wheels;
  DriveTrainLoads loads = meshed();
  loads.crank_friction_Nm_s = 41.0 / 20.0;
  wheels.run(2.5, loads, 3.0);
  EXPECT_NEAR(wheels.crank_rad_per_s, 20.0, 0.01 * 20.0);
  EXPECT_NEAR(wheels.state.armature_rad_per_s, 16.4 * 20.0, 0.01 * 328.0);
  EXPECT_NEAR(wheels.clutch_Nm, 2.5, 0.01 * 2.5);
}

TEST(DriveTrain, OverrunsWhenTheEngineRunsAway) {
  Wheels wheels;
  wheels.crank_rad_per_s = 60.0;
  DriveTrainLoads loads = meshed();
  loads.crank_inertia_kg_m2 = 1.0e3;  // an engine that fires
  wheels.run(0.0, loads, 0.05);
  EXPECT_GT(wheels.state.pinion_rad_per_s, 900.0);   // 60 x 16.4 = 984
  EXPECT_LT(wheels.state.armature_rad_per_s, 50.0);  // drag of 0.05 N·m for 0.05 s
  EXPECT_NEAR(wheels.clutch_Nm, -wheels.drive.clutch_drag_Nm, 0.01);
}

TEST(DriveTrain, SlipsAboveTheClutchesLimit) {
  Wheels wheels;
  wheels.drive.clutch_slip_Nm = 5.0;
  DriveTrainLoads loads = on_the_stand();
  loads.pinion_held = true;
  wheels.run(8.0, loads, 0.2);
  EXPECT_TRUE(wheels.slipped);
  EXPECT_NEAR(wheels.clutch_Nm, 5.0, rounding(5.0));
  EXPECT_GT(wheels.state.armature_rad_per_s, 100.0);  // 3 N·m left over
  EXPECT_NEAR(wheels.state.pinion_rad_per_s, 0.0, 1.0e-3);
}

TEST(DriveTrain, BooksEveryJoule) {
  Wheels wheels;
  DriveTrainLoads loads = meshed();
  loads.armature_friction_Nm_s = 1.0e-3;
  loads.crank_friction_Nm_s = 0.5;
  wheels.run(4.0, loads, 1.0);
  const double stored_J = wheels.kinetic_J(0.22) + drive_train_spring_J(wheels.drive, wheels.state, true);
  EXPECT_GT(wheels.work_J, 100.0);
  EXPECT_NEAR(wheels.work_J, wheels.heat_J + stored_J, 1.0e-6 * wheels.work_J);
}

}  // namespace
}  // namespace voltfall
