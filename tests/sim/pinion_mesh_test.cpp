#include "mechanical/pinion_mesh.h"

#include <gtest/gtest.h>

#include <cmath>

namespace voltfall {
namespace {

constexpr double dt_s = 2.0e-5;

struct Meeting {
  explicit Meeting(double tooth_phase) : mesh(drive, shoe, 0.22) {
    state = {.pinion_travel_m = meet_m - 1.0e-4,
             .pinion_axial_m_per_s = 0.5,
             .pinion_m_per_s = 0.0,
             .ring_m_per_s = 0.0,
             .tooth_position_m = tooth_phase * drive.circular_pitch_m};
    mesh.enter(state);
  }
  void push(double for_s, double pinion_N) {
    const MeshForces forces{
        .axial_N = 100.0, .axial_friction_N = 3.0, .pinion_N = pinion_N, .ring_N = 0.0, .ring_friction_N = 100.0};
    for (long step = 0; step < std::lround(for_s / dt_s); ++step) {
      const MeshMove move = mesh.step(forces, dt_s);
      state = move.after;
      tooth_heat_J += move.tooth_heat_J;
      touched = touched || move.touching;
    }
  }
  DriveParameters drive;
  ShoeParameters shoe;
  double meet_m = drive.teeth_meet_at * shoe.travel_m * drive.lever_ratio;
  double full_m = shoe.travel_m * drive.lever_ratio;
  PinionMesh mesh;
  MeshState state{};
  double tooth_heat_J = 0.0;
  bool touched = false;
};

TEST(PinionMesh, StandsOnTheFaceToothAgainstTooth) {
  Meeting meeting(0.0);
  meeting.push(0.05, 0.0);
  EXPECT_TRUE(meeting.touched);
  EXPECT_NEAR(meeting.state.pinion_travel_m, meeting.meet_m, 1.0e-4);
}

TEST(PinionMesh, GoesHomeToothAgainstSpace) {
  Meeting meeting(0.5);
  meeting.push(0.05, 0.0);
  EXPECT_NEAR(meeting.state.pinion_travel_m, meeting.full_m, 1.0e-4);
}

// Abutted teeth come free when the armature turns the pinion by the width of a land.
TEST(PinionMesh, SlidesInOnceThePinionTurns) {
  Meeting meeting(0.0);
  meeting.push(0.02, 0.0);
  ASSERT_LT(meeting.state.pinion_travel_m, meeting.meet_m + 2.0e-4);
  meeting.push(0.10, 40.0);
  EXPECT_NEAR(meeting.state.pinion_travel_m, meeting.full_m, 2.0e-4);
}

// Impact and sliding can only take energy from what moves.
TEST(PinionMesh, TeethNeverGiveEnergy) {
  for (const double phase : {0.0, 0.12, 0.2, 0.3, 0.5, 0.8}) {
    Meeting meeting(phase);
    meeting.push(0.05, 30.0);
    EXPECT_GE(meeting.tooth_heat_J, -1.0e-3) << phase;
    EXPECT_TRUE(std::isfinite(meeting.state.pinion_travel_m));
  }
}

}  // namespace
}  // namespace voltfall
