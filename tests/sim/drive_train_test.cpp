#include "mechanical/drive_train.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

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

// trade.md fault 61: a seized clutch has no overrun, so that the engine takes the armature along.
TEST(DriveTrain, DrivesTheArmatureThroughASeizedClutchAndBooksIt) {
  Wheels wheels;
  wheels.drive.clutch_seized = 1.0;
  wheels.crank_rad_per_s = 60.0;
  DriveTrainLoads loads = meshed();
  loads.crank_inertia_kg_m2 = 1.0e3;  // an engine that fires
  const double before_J = wheels.kinetic_J(1.0e3);
  wheels.run(0.0, loads, 0.5);
  EXPECT_NEAR(wheels.state.armature_rad_per_s, wheels.state.pinion_rad_per_s, 10.0);
  EXPECT_GT(wheels.state.armature_rad_per_s, 900.0);  // 60 x 16.4 = 984
  const double held_J = wheels.kinetic_J(1.0e3) + drive_train_spring_J(wheels.drive, wheels.state, true);
  EXPECT_NEAR(before_J - held_J, wheels.heat_J, 1.0e-6 * before_J);
  EXPECT_GT(wheels.heat_J, 0.0);
}

// Clutch and ring in a row: the weaker one lets go, the ring's torque brought to the pinion by the teeth.
TEST(DriveTrain, LetsGoWhereItIsWeakest) {
  DriveParameters drive;
  EXPECT_DOUBLE_EQ(slip_at_pinion_Nm(drive), drive.clutch_slip_Nm);
  drive.ring_slip_Nm = 164.0;
  EXPECT_DOUBLE_EQ(slip_at_pinion_Nm(drive), 10.0);
}

// A pinion without two of its ten teeth is out of mesh for one and a half pitches of its ten.
TEST(DriveTrain, LosesMeshOncePerTurnOfAChippedPinion) {
  DriveParameters drive;
  drive.pinion_missing_teeth = 2.0;
  int out_of_mesh = 0;
  constexpr int places = 1000;
  for (int place = 0; place < places; ++place) {
    const double pinion_rad = 2.0 * std::numbers::pi * (place + 0.5) / places;
    out_of_mesh += gap_at_pinion(drive, 0.0, pinion_rad) ? 1 : 0;
  }
  EXPECT_NEAR(out_of_mesh, 0.15 * places, 1.0);
  EXPECT_TRUE(gap_at_pinion(drive, 0.0, 0.0));
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
