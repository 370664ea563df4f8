#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>

#include "mechanical/pinion_mesh.h"
#include "support/cranks.h"

// The contact world against closed forms (physics.md section 2: one unit is a millimetre, a kilogram, a second). Three
// things of Box2D's own show at this scale and are named where they do: positions are floats (a nanometre in 10 mm);
// polygons touch through a skin and may overlap by its linear slop, 5 micrometres; and a meeting slower than its
// velocity threshold, one unit a second, here 1 mm/s, does not rebound.

namespace voltfall {
namespace {

constexpr double skin_m = 2.0e-5;  // two skins of 10 micrometres each
constexpr double threshold_m_per_s = 1.0e-3;
constexpr double restitution = 0.15;  // of the teeth, see sim/mechanical/pinion_mesh.cpp
constexpr double held_N = 1.0e5;      // dry friction that no force here overcomes
constexpr double solver_share =
    1.0e-4;                            // what the rounds of Box2D's solver and its floats leave, of the force or speed
constexpr double heavy_kg_m2 = 1.0e4;  // an engine that no tooth moves

struct Bench {
  Bench() : mesh(drive, shoe, heavy_kg_m2) {}

  double axial_kg() const { return shoe.mass_kg / (drive.lever_ratio * drive.lever_ratio) + drive.pinion_mass_kg; }
  double pinion_kg() const { return drive.pinion_inertia_kg_m2 / std::pow(pinion_radius_m(drive), 2); }
  double meet_m() const { return drive.teeth_meet_at * shoe.travel_m * drive.lever_ratio; }
  double full_m() const { return shoe.travel_m * drive.lever_ratio; }

  void begin(double travel_m, double axial_m_per_s, double tooth_position_m, double pinion_m_per_s = 0.0) {
    state = {.pinion_travel_m = travel_m,
             .pinion_axial_m_per_s = axial_m_per_s,
             .pinion_m_per_s = pinion_m_per_s,
             .ring_m_per_s = 0.0,
             .tooth_position_m = tooth_position_m};
    mesh.enter(state);
  }
  void push(double axial_N, double pinion_N, double dt_s, long steps = 1) {
    for (long step = 0; step < steps; ++step) {
      const MeshMove move = mesh.step(
          {.axial_N = axial_N, .axial_friction_N = 0.0, .pinion_N = pinion_N, .ring_N = 0.0, .ring_friction_N = held_N},
          dt_s);
      state = move.after;
      touched = touched || move.touching;
    }
  }

  DriveParameters drive;
  ShoeParameters shoe;
  PinionMesh mesh;
  MeshState state{};
  bool touched = false;
};

// x = v t + F t^2 / 2m. Box2D moves by the speed at a step's end, which adds half a step of the force:
// x = v t + F t (t + dt) / 2m. What is left is the rounding of some hundred floats.
TEST(ToothContact, FliesFreelyAlongTheShaft) {
  constexpr double start_m_per_s = 0.05, force_N = 2.0;
  constexpr double dt_s = 1.0e-4;
  constexpr int steps = 250;
  constexpr double rounding_m = 1.0e-7;
  Bench bench;
  bench.begin(0.0, start_m_per_s, 0.0);
  bench.push(force_N, 0.0, dt_s, steps);
  const double t_s = steps * dt_s;
  const double closed_m = start_m_per_s * t_s + force_N * t_s * t_s / (2.0 * bench.axial_kg());
  const double half_step_m = force_N * t_s * dt_s / (2.0 * bench.axial_kg());
  ASSERT_FALSE(bench.touched);
  EXPECT_NEAR(bench.state.pinion_travel_m, closed_m + half_step_m, rounding_m);
  EXPECT_NEAR(bench.state.pinion_travel_m, closed_m, half_step_m + rounding_m);
  EXPECT_NEAR(bench.state.pinion_axial_m_per_s, start_m_per_s + force_N * t_s / bench.axial_kg(), 1.0e-6);
}

TEST(ToothContact, FliesFreelyAlongThePitchLine) {
  constexpr double force_N = 3.0, dt_s = 1.0e-4;
  constexpr int steps = 200;
  Bench bench;
  bench.begin(1.0e-3, 0.0, 0.0);
  bench.push(0.0, force_N, dt_s, steps);
  const double t_s = steps * dt_s;
  EXPECT_NEAR(bench.state.pinion_m_per_s, force_N * t_s / bench.pinion_kg(), 1.0e-6);
  EXPECT_NEAR(bench.state.tooth_position_m, force_N * t_s * (t_s + dt_s) / (2.0 * bench.pinion_kg()), 1.0e-7);
  EXPECT_NEAR(bench.state.pinion_travel_m, 1.0e-3, 1.0e-7);
}

// Period of the carriage on a spring whose force is fed back step by step, from ten zero crossings.
double spring_period_s(double N_per_m, double dt_s) {
  constexpr double middle_m = 2.0e-3, swing_m = 1.0e-3;
  constexpr int periods = 10;
  Bench bench;
  bench.begin(middle_m + swing_m, 0.0, 0.0);
  double first_s = 0.0, last_s = 0.0;
  int crossings = 0;
  for (long step = 1; crossings <= periods && step < 1000000; ++step) {
    const double before_m = bench.state.pinion_travel_m - middle_m;
    bench.push(-N_per_m * before_m, 0.0, dt_s);
    const double after_m = bench.state.pinion_travel_m - middle_m;
    if (!(before_m > 0.0 && after_m <= 0.0)) continue;
    last_s = (static_cast<double>(step) - after_m / (after_m - before_m)) * dt_s;
    if (crossings++ == 0) first_s = last_s;
  }
  return (last_s - first_s) / periods;
}

// T = 2 pi sqrt(m/k). Stepped as Box2D does, force at the old place and move by the new speed, the motion is a sine of
// exactly  sin(pi dt / T) = w dt / 2: a period shorter by (w dt)^2 / 24.
TEST(ToothContact, SwingsOnASpringWithTheSchemesPeriod) {
  constexpr double N_per_m = 4.0e5;
  const double w = std::sqrt(N_per_m / Bench().axial_kg());
  const double closed_s = 2.0 * std::numbers::pi / w;
  // A zero crossing between two steps is taken on a straight line: wrong by at most (w dt)^2 / 8 of a step.
  for (const double dt_s : {2.0e-4, 1.0e-4, 5.0e-5}) {
    const double period_s = spring_period_s(N_per_m, dt_s);
    const double scheme_s = std::numbers::pi * dt_s / std::asin(0.5 * w * dt_s);
    EXPECT_NEAR(period_s, scheme_s, std::pow(w * dt_s, 2) / 8.0 * dt_s / 10.0 + 1.0e-6 * closed_s) << dt_s;
    EXPECT_NEAR(period_s, closed_s, std::pow(w * dt_s, 2) / 20.0 * closed_s) << dt_s;
  }
}

// Face on face, the ring held: the pinion's teeth carry carriage and all back at 0.15 of the approach.
TEST(ToothContact, ReboundsFromAFace) {
  for (const double approach_m_per_s : {0.05, 0.2, 0.8}) {
    Bench bench;
    bench.begin(bench.meet_m() - 1.0e-4, approach_m_per_s, 0.0);
    for (int step = 0; step < 1000 && bench.state.pinion_axial_m_per_s > 0.0; ++step) bench.push(0.0, 0.0, 2.0e-5);
    EXPECT_TRUE(bench.touched);
    // Eight rounds of the solver share the blow between pinion and carriage all but wholly.
    EXPECT_NEAR(-bench.state.pinion_axial_m_per_s / approach_m_per_s, restitution, solver_share * restitution)
        << approach_m_per_s;
  }
}

// Flank on flank, deep in mesh, along the pitch line.
TEST(ToothContact, ReboundsFromAFlank) {
  Bench bench;
  constexpr double approach_m_per_s = 0.3;
  bench.begin(bench.meet_m() + 5.0e-3, 0.0, 0.5 * bench.drive.circular_pitch_m, approach_m_per_s);
  for (int step = 0; step < 1000 && bench.state.pinion_m_per_s > 0.0; ++step) bench.push(0.0, 0.0, 2.0e-5);
  EXPECT_TRUE(bench.touched);
  EXPECT_NEAR(-bench.state.pinion_m_per_s / approach_m_per_s, restitution, solver_share * restitution);
}

TEST(ToothContact, DoesNotReboundBelowTheVelocityThreshold) {
  for (const double times : {0.8, 1.2}) {
    Bench bench;
    const double approach_m_per_s = times * threshold_m_per_s;
    bench.begin(bench.meet_m() - 1.0e-5, approach_m_per_s, 0.0);
    bench.push(0.0, 0.0, 1.0e-4, 1000);
    EXPECT_TRUE(bench.touched);
    const double rebound_m_per_s = times > 1.0 ? restitution * approach_m_per_s : 0.0;
    EXPECT_NEAR(-bench.state.pinion_axial_m_per_s, rebound_m_per_s, solver_share * approach_m_per_s) << times;
  }
}

// A pinion that stands on the ring's face, pressed and then pushed along the pitch line.
struct PressedOnAFace : Bench {
  explicit PressedOnAFace(double press_N) : pressed_N(press_N) {
    begin(meet_m() - 1.0e-5, 0.0, -5.0e-4);
    push(pressed_N, 0.0, dt_s, 500);
  }
  static constexpr double dt_s = 2.0e-5;
  double pressed_N;
};

// Coulomb: the teeth's 0.15 on both sides mix to their geometric mean, 0.15.
TEST(ToothContact, HoldsBelowTheFrictionLimit) {
  for (const double press_N : {40.0, 100.0, 300.0}) {
    PressedOnAFace bench(press_N);
    const double before_m = bench.state.tooth_position_m;
    bench.push(press_N, 0.97 * bench.drive.tooth_friction * press_N, PressedOnAFace::dt_s, 500);
    EXPECT_NEAR(bench.state.tooth_position_m, before_m, 5.0e-6) << press_N;
  }
}

TEST(ToothContact, SlidesAboveItByTheRestOfTheForce) {
  for (const double press_N : {40.0, 100.0, 300.0}) {
    for (const double times : {1.2, 2.0, 4.0}) {
      PressedOnAFace bench(press_N);
      const double limit_N = bench.drive.tooth_friction * press_N;
      const double expected_m_per_s2 = (times - 1.0) * limit_N / bench.pinion_kg();
      // Over half a millimetre: well within the lands.
      const auto steps = std::lround(std::sqrt(2.0 * 5.0e-4 / expected_m_per_s2) / PressedOnAFace::dt_s);
      const double before_m_per_s = bench.state.pinion_m_per_s;
      bench.push(press_N, times * limit_N, PressedOnAFace::dt_s, steps);
      const double gained = bench.state.pinion_m_per_s - before_m_per_s;
      EXPECT_NEAR(gained / (static_cast<double>(steps) * PressedOnAFace::dt_s), expected_m_per_s2,
                  solver_share * times * limit_N / bench.pinion_kg())
          << press_N << " N, " << times;
    }
  }
}

enum class Outcome { abutted, going_in };

// Thrown at the ring with nobody turning either; 4 ms later it has bounced off a face or is on its way in.
Outcome thrown_at(double tooth_position_m) {
  Bench bench;
  bench.begin(bench.meet_m() - 3.0e-5, 0.5, tooth_position_m);
  bench.push(100.0, 0.0, 5.0e-5, 80);
  return bench.state.pinion_travel_m < bench.meet_m() + 2.0e-4 ? Outcome::abutted : Outcome::going_in;
}

// Two flat ends, each 2 x land half wide, meet face to face when the teeth's middles are nearer than two halves, on
// either side: of a pitch, 4 x land half / pitch. Where corners meet within the skin either may happen.
TEST(ToothContact, AbutsAsOftenAsTheLandsAreWide) {
  constexpr int phases = checked_build ? 500 : 10000;
  const double pitch_m = DriveParameters{}.circular_pitch_m;
  std::mt19937 random(20240607);
  int abutted = 0, against_geometry = 0;
  for (int i = 0; i < phases; ++i) {
    const double phase = static_cast<double>(random()) / 4294967296.0 - 0.5;
    const double middles_m = std::abs(phase) * pitch_m;
    const bool stands = thrown_at(phase * pitch_m) == Outcome::abutted;
    abutted += stands ? 1 : 0;
    const bool corner_to_corner = std::abs(middles_m - 2.0 * tooth_land_half_m) < skin_m;
    if (!corner_to_corner && stands != (middles_m < 2.0 * tooth_land_half_m)) ++against_geometry;
  }
  EXPECT_EQ(against_geometry, 0);
  const double expected = 4.0 * tooth_land_half_m / pitch_m;
  const double sigma = std::sqrt(expected * (1.0 - expected) / phases);
  const double corners = 2.0 * skin_m / pitch_m;  // one skin on either side
  EXPECT_NEAR(static_cast<double>(abutted) / phases, expected, 4.0 * sigma + corners);
}

// Off the lands but not yet over a space, the chamfers meet: they push the pinion aside and it goes home.
TEST(ToothContact, SlidesOffTheChamfersAndGoesHome) {
  for (const double middles_m : {1.25e-3, 1.6e-3, 2.0e-3, 2.4e-3}) {
    for (const double side : {-1.0, 1.0}) {
      Bench bench;
      bench.begin(bench.meet_m() - 3.0e-5, 0.5, side * middles_m);
      bench.push(100.0, 0.0, 5.0e-5, 2000);
      EXPECT_TRUE(bench.touched);
      EXPECT_NEAR(bench.state.pinion_travel_m, bench.full_m(), 1.0e-4) << side * middles_m;
      EXPECT_GT(std::abs(bench.state.tooth_position_m), middles_m) << "pushed towards the space";
    }
  }
}

// Over a space it goes straight in and meets nothing.
TEST(ToothContact, MeetsNothingOverASpace) {
  Bench bench;
  bench.begin(bench.meet_m() - 3.0e-5, 0.5, 0.5 * bench.drive.circular_pitch_m);
  bench.push(100.0, 0.0, 5.0e-5, 2000);
  EXPECT_FALSE(bench.touched);
  EXPECT_NEAR(bench.state.pinion_travel_m, bench.full_m(), 1.0e-4);
}

}  // namespace
}  // namespace voltfall
