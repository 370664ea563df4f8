#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

#include "electrical/conductor.h"
#include "electrical/lamp.h"
#include "support/tolerance.h"

namespace voltfall {
namespace {

struct Gauge {
  double AWG, area_mm2, solid_ohm_per_km, stranded_ohm_per_km;
  double area_digit, solid_digit;
};

// values.md section 2: area from circular mils, solid copper at 20 °C, and NEC chapter 9 table 8 stranded, brought from
// 75 to 20 °C. 0 is 1/0, -1 is 2/0.
constexpr std::array<Gauge, 6> gauges{{{6, 13.30, 1.296, 1.325, 0.01, 0.001},
                                       {4, 21.15, 0.815, 0.831, 0.01, 0.001},
                                       {2, 33.63, 0.513, 0.523, 0.01, 0.001},
                                       {1, 42.41, 0.4066, 0.416, 0.01, 0.0001},
                                       {0, 53.5, 0.3224, 0.329, 0.1, 0.0001},
                                       {-1, 67.4, 0.2557, 0.261, 0.1, 0.0001}}};

TEST(CableTable, GivesTheGaugesTheirAreas) {
  for (const Gauge& gauge : gauges) {
    EXPECT_NEAR(1.0e6 * AWG_area_m2(gauge.AWG), gauge.area_mm2, datasheet(gauge.area_digit) + 3.0e-4 * gauge.area_mm2)
        << gauge.AWG;  // the mil table rounds too: 66360 circular mils for 2 AWG is 33.63, the series 33.62
  }
}

// The table says of itself that 17.241 / area reproduces it to 0.03 %.
TEST(CableTable, GivesSolidCopperItsResistance) {
  for (const Gauge& gauge : gauges) {
    const double solid_ohm_per_km = stranded_ohm_at_20C(gauge.AWG, 1000.0) / 1.02;
    EXPECT_NEAR(solid_ohm_per_km, gauge.solid_ohm_per_km, datasheet(gauge.solid_digit) + 5.0e-4 * solid_ohm_per_km)
        << gauge.AWG;
  }
}

// NEC prints three digits at 75 °C (0.4 % of 0.122): half of that, and 0.25 % for its own rounding of the areas.
TEST(CableTable, GivesStrandedCableItsResistance) {
  for (const Gauge& gauge : gauges) {
    const double ohm_per_km = stranded_ohm_at_20C(gauge.AWG, 1000.0);
    EXPECT_NEAR(ohm_per_km, gauge.stranded_ohm_per_km, 0.0045 * ohm_per_km) << gauge.AWG;
  }
}

struct MetricRow {
  double area_mm2, most_ohm_per_km;
};

// values.md section 2, marked H: IEC 60228, plain copper at 20 °C, at most.
constexpr std::array<MetricRow, 7> fine_strands{
    {{10, 1.91}, {16, 1.21}, {25, 0.780}, {35, 0.554}, {50, 0.386}, {70, 0.272}, {95, 0.206}}};  // class 5
constexpr std::array<MetricRow, 5> stiff_strands{
    {{16, 1.15}, {25, 0.727}, {35, 0.524}, {50, 0.387}, {70, 0.268}}};  // classes 1 and 2

// The gauge number that has this area, by its own series.
double AWG_of(double area_mm2) {
  const double diameter_mm = std::sqrt(4.0 * area_mm2 / std::numbers::pi);
  return 36.0 - 39.0 * std::log(diameter_mm / 0.127) / std::log(92.0);
}

// A cable keeps the standard's limit. Solid copper of the nominal area with the standard's own stranding factor (1.02
// to 1.04 for stiff strands, 1.05 to 1.08 for fine ones) lies 2 to 12 % under it: the limit also allows for a maker's
// area.
TEST(CableTable, KeepsTheMetricLimits) {
  const auto expect_kept = [](const MetricRow& row, double least_share) {
    const double ohm_per_km = stranded_ohm_at_20C(AWG_of(row.area_mm2), 1000.0);
    EXPECT_LE(ohm_per_km, row.most_ohm_per_km) << row.area_mm2;
    EXPECT_GE(ohm_per_km, least_share * row.most_ohm_per_km) << row.area_mm2;
  };
  for (const MetricRow& row : stiff_strands) expect_kept(row, 0.90);
  for (const MetricRow& row : fine_strands) expect_kept(row, 0.89);
}

// IEC 60228's copper, 17.241 ohm mm²/km, with a stranding factor from 1.02 (the least of class 2) to 1.08 (the most of
// class 5).
TEST(CableTable, StrandsWithinTheStandardsFactors) {
  for (const MetricRow& row : fine_strands) {
    const double factor = stranded_ohm_at_20C(AWG_of(row.area_mm2), 1000.0) * row.area_mm2 / 17.241;
    EXPECT_GE(factor, 1.02 - rounding(1.0));
    EXPECT_LE(factor, 1.08);
  }
}

// values.md section 2: 10.37 ohm for a foot of one circular mil of copper at 20 °C. The model's cables are stranded, 2
// % over that.
TEST(CableTable, GivesACircularMilFootItsResistance) {
  constexpr double mil_m = 2.54e-5, foot_m = 0.3048;
  for (const Gauge& gauge : gauges) {
    const double circular_mils = AWG_area_m2(gauge.AWG) / (0.25 * std::numbers::pi * mil_m * mil_m);
    EXPECT_NEAR(stranded_ohm_at_20C(gauge.AWG, foot_m) * circular_mils / 1.02, 10.37, datasheet(0.01)) << gauge.AWG;
  }
}

// values.md section 2: alpha of copper is 0.00393 per kelvin referred to 20 °C.
TEST(CopperFactor, RisesByThePublishedShareOf20C) {
  EXPECT_NEAR(copper_factor(21.0) - copper_factor(20.0), 0.00393, rounding(1.0));
  EXPECT_NEAR(copper_factor(20.0), 1.0, rounding(1.0));
}

// IEC 60228's table Kt brings a reading at T to 20 °C (values.md section 2 and trap 2). It goes by a rounded 0.4 % per
// kelvin (1 / (1 + 55 x 0.004) = 0.820), so its three digits may be off by the other 0.007 % per kelvin too.
TEST(CopperFactor, UndoesThePublishedCorrection) {
  struct Row {
    double temperature_C, to_20C;
  };
  for (const Row& row : std::array<Row, 5>{{{5, 1.064}, {40, 0.926}, {60, 0.862}, {75, 0.820}, {100, 0.758}}}) {
    EXPECT_NEAR(1.0 / copper_factor(row.temperature_C), row.to_20C,
                datasheet(0.001) + 7.0e-5 * std::abs(row.temperature_C - 20.0))
        << row.temperature_C;
  }
}

// 0.323 % per kelvin referred to 75 °C is the same thing as 0.393 % referred to 20 °C (values.md section 2).
TEST(CopperFactor, HasTheSameSlopeReferredTo75C) {
  const double slope = (copper_factor(76.0) - copper_factor(75.0)) / copper_factor(75.0);
  EXPECT_NEAR(slope, 0.00323, datasheet(0.00001));
}

// values.md section 8: current (V/Vd)^0.55, light ^3.4 to 3.5, power ^1.6 with +-0.05 for the sources' own
// disagreement.
TEST(FilamentLamp, FollowsTheRerateExponents) {
  constexpr double rated_W = 120.0, rated_V = 12.8, less_V = 9.6;
  const auto current_A = [&](double volts) { return volts / lamp_ohm(rated_W, volts); };
  const double span = std::log(less_V / rated_V);
  EXPECT_NEAR(std::log(current_A(less_V) / current_A(rated_V)) / span, 0.55, datasheet(0.01));
  EXPECT_NEAR(std::log(lamp_light(less_V) / lamp_light(rated_V)) / span, 3.45, 0.05);
  EXPECT_NEAR(std::log(less_V * current_A(less_V) / (rated_V * current_A(rated_V))) / span, 1.6, 0.05 + rounding(1.6));
}

}  // namespace
}  // namespace voltfall
