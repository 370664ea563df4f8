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
