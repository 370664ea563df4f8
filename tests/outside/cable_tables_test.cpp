#include <gtest/gtest.h>

#include <array>
#include <cmath>

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
