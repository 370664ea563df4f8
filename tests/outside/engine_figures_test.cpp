#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "mechanical/engine.h"
#include "support/tolerance.h"

namespace voltfall {
namespace {

constexpr double atmosphere_psi = 14.7;

double gauge_psi(const EngineParameters& engine, double rpm) {
  const CylinderVolume volume(engine);
  EngineState state = rested_engine(engine, volume, 0.0);
  constexpr double dt_s = 1.0e-4;
  const double step_rad = rpm * std::numbers::pi / 30.0 * dt_s;
  double highest_Pa = 0.0;
  for (double turned_rad = 0.0; turned_rad < 16.0 * std::numbers::pi; turned_rad += step_rad) {
    turn_engine(engine, volume, state, state.crank_angle_rad + step_rad, false, dt_s);
    highest_Pa = std::max(highest_Pa, state.pressure_Pa[0]);
  }
  return highest_Pa / 6894.757 - atmosphere_psi;
}

// values.md section 6: gauges 100-200 psi over eight makers; the index on the geometric ratio 1.07-1.19.
TEST(CompressionGauge, ReadsLikeOtherEngines) {
  const EngineParameters engine;
  const double gauge = gauge_psi(engine, 200.0);
  EXPECT_GE(gauge, 100.0);
  EXPECT_LE(gauge, 200.0);
  const double index = std::log((gauge + atmosphere_psi) / atmosphere_psi) / std::log(engine.compression_ratio);
  EXPECT_GE(index, 1.07);
  EXPECT_LE(index, 1.19);
}

// values.md section 6, gauges by geometric ratio: 8.0 156 psi, 9.0 171, 9.5 199, 10.0 157-185, 11 194-232; they belong
// to engines of other makes and valve timing, so each is met by the index band its own section draws from
// them, 1.07-1.19, and a higher ratio reads higher.
TEST(CompressionGauge, RisesWithTheRatioWithinTheBandOfOtherEngines) {
  double below_psi = 0.0;
  for (const double ratio : {8.0, 9.0, 9.5, 10.0, 11.0}) {
    const double gauge = gauge_psi({.compression_ratio = ratio}, 200.0);
    const double index = std::log((gauge + atmosphere_psi) / atmosphere_psi) / std::log(ratio);
    EXPECT_GE(index, 1.07) << ratio;
    EXPECT_LE(index, 1.19) << ratio;
    EXPECT_GT(gauge, below_psi) << ratio;
    below_psi = gauge;
  }
}

// SAE J300 (values.md section 6): most cranking viscosity of each winter grade at its own temperature, and least
// kinematic viscosity at 100 °C; the model's oil just meets both, and Walther's rule carries it between them. The
// double logarithm and back costs a few parts in 10^10.
TEST(Oil, MeetsJ300AtBothEnds) {
  struct Row {
    double grade_W, cold_C, cold_mPas, hot_cSt;
  };
  for (const Row& row : std::array<Row, 6>{{{0, -35, 6200, 3.8},
                                            {5, -30, 6600, 3.8},
                                            {10, -25, 7000, 4.1},
                                            {15, -20, 7000, 5.6},
                                            {20, -15, 9500, 5.6},
                                            {25, -10, 13000, 9.3}}}) {
    EXPECT_NEAR(oil_viscosity_mPas(row.grade_W, row.cold_C), row.cold_mPas, 1.0e-8 * row.cold_mPas) << row.grade_W;
    EXPECT_NEAR(oil_viscosity_mPas(row.grade_W, 100.0), 0.87 * row.hot_cSt, 1.0e-8) << row.grade_W;
  }
}

// The order of the grades: at any frost a higher W number is thicker and asks for more effort.
TEST(Oil, FollowsTheOrderOfItsGrades) {
  for (const double oil_C : {-35.0, -25.0, -15.0, -5.0}) {
    for (const double grade_W : {5.0, 10.0, 15.0, 20.0, 25.0}) {
      EXPECT_GT(oil_grade_effort(grade_W, oil_C), oil_grade_effort(grade_W - 5.0, oil_C)) << grade_W << "W, " << oil_C;
    }
  }
}

// trade.md fault 72 and section 0.3: at -18 °C a 20W oil takes 2 to 2.5 times the load of the right one.
TEST(Oil, OfTheWrongGradeDoublesTheLoadInFrost) {
  EXPECT_GE(oil_grade_effort(20.0, -18.0), 2.0);
  EXPECT_LE(oil_grade_effort(20.0, -18.0), 2.5);
  EXPECT_EQ(oil_grade_effort(10.0, -18.0), 1.0);
}

// Common practice: a slow crank reads lower, for the charge has longer to leak and to cool.
TEST(CompressionGauge, ReadsLowerOnASlowCrank) {
  EXPECT_LT(gauge_psi({}, 80.0), gauge_psi({}, 200.0) - 5.0);
}

TEST(CompressionGauge, ReadsNothingWithPlugsOut) {
  EXPECT_NEAR(gauge_psi({.plugs_out = 1.0}, 200.0), 0.0, 0.01);
}

// values.md section 0: cranking effort 100/155/210/350 % at 27/0/-18/-29 °C. Where the whole effort is friction it is
// the factor itself; the source prints whole per cents.
TEST(CrankingEffort, FollowsTheServiceTable) {
  struct Row {
    double oil_C, effort;
  };
  for (const Row& row : std::array<Row, 4>{{{27, 1.00}, {0, 1.55}, {-18, 2.10}, {-29, 3.50}}}) {
    EXPECT_NEAR(friction_effort(row.oil_C), row.effort, datasheet(0.01)) << row.oil_C;
  }
  EXPECT_LT(friction_effort(90.0), friction_effort(27.0));
}

// values.md C1: bore 95.25, stroke 98.93, rod 150 mm, 1.0 MPa gauge; torque to 0.01 N·m, travel to 0.001 mm. The
// cylinder's table of 1/1440 turn or finer leaves less than 0.05 N·m.
TEST(SliderCrank, GivesTheWorkedTorques) {
  const EngineParameters engine{.bore_m = 0.09525, .stroke_m = 0.09893, .rod_m = 0.150};
  const CylinderVolume volume(engine);
  const double area_m2 = 0.25 * std::numbers::pi * engine.bore_m * engine.bore_m;
  EXPECT_NEAR(1.0e6 * area_m2, 7125.57, datasheet(0.01));
  struct Row {
    double after_top_deg, torque_Nm, travel_mm;
  };
  for (const Row& row : std::array<Row, 5>{{{15, 120.39, 2.233},
                                            {30, 227.26, 8.680},
                                            {60, 357.76, 30.980},
                                            {90, 352.47, 57.856},
                                            {120, 252.73, 80.445}}}) {
    const double angle_rad = row.after_top_deg * std::numbers::pi / 180.0;
    EXPECT_NEAR(1.0e6 * volume.volume_m3_per_rad(angle_rad), row.torque_Nm, 0.05) << row.after_top_deg;
    const double travel_mm = 1000.0 * (volume.volume_m3(angle_rad) - volume.volume_m3(0.0)) / area_m2;
    EXPECT_NEAR(travel_mm, row.travel_mm, 0.002) << row.after_top_deg;
  }
}

}  // namespace
}  // namespace voltfall
