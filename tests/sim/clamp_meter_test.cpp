#include "instruments/clamp_meter.h"

#include <gtest/gtest.h>

#include <cmath>

namespace voltfall {
namespace {

constexpr double dt_s = 1.0e-4;

class ClampRoundStarterCable : public ::testing::Test {
 protected:
  ClampRoundStarterCable() { clamp.put_round(HeavyCable::starter); }

  void run_at_A(double amps) {
    for (int step = 0; step < 4000; ++step) {
      Readings readings;
      readings.time_s = time_s += dt_s;
      readings.cable_A[static_cast<std::size_t>(HeavyCable::starter)] = amps;
      clamp.watch(readings, dt_s);
    }
  }

  ClampMeter clamp;
  double time_s = 0.0;
};

TEST(AmpsDisplay, HasTenthsBelowSixtyAndWholeAmperesAbove) {
  EXPECT_EQ(amps_display(59.94).text_with_unit(), "59.9 A");
  EXPECT_EQ(amps_display(59.96).text_with_unit(), "60 A");
  EXPECT_EQ(amps_display(-183.4).text_with_unit(), "-183 A");
  EXPECT_EQ(amps_display(1200.0).text(), "OL");
}

TEST_F(ClampRoundStarterCable, CarriesItsOffsetUntilItIsZeroed) {
  run_at_A(0.0);
  EXPECT_EQ(clamp.display().text_with_unit(), "1.4 A");
  clamp.zero();
  run_at_A(0.0);
  EXPECT_EQ(clamp.display().text_with_unit(), "0.0 A");
  run_at_A(192.0);
  run_at_A(192.0);
  EXPECT_EQ(clamp.display().text_with_unit(), "192 A");
}

TEST_F(ClampRoundStarterCable, ZeroedUnderLoadTakesTheLoadAwayToo) {
  run_at_A(20.0);
  clamp.zero();
  run_at_A(50.0);
  run_at_A(50.0);
  EXPECT_EQ(clamp.display().text_with_unit(), "30.0 A");
}

TEST_F(ClampRoundStarterCable, ZeroPressedBeforeAnyFigureTakesTheNext) {
  clamp.zero();
  run_at_A(0.0);
  EXPECT_EQ(clamp.display().text_with_unit(), "0.0 A");
}

TEST_F(ClampRoundStarterCable, SettlesAfterItIsMoved) {
  run_at_A(100.0);
  clamp.put_round(HeavyCable::negative);
  EXPECT_EQ(clamp.display().kind, MeterDisplay::Kind::settling);
}

TEST_F(ClampRoundStarterCable, ItsZeroWalksAwayByMoreThanADrainOfTwentyMilliamperes) {
  run_at_A(0.020);
  clamp.zero();
  run_at_A(0.020);
  EXPECT_EQ(clamp.display().text_with_unit(), "0.0 A");
  clamp.let_pass(15.0 * 60.0);
  run_at_A(0.020);
  run_at_A(0.020);
  EXPECT_GT(std::abs(clamp.display().value), 0.05);
  EXPECT_LT(std::abs(clamp.display().value), 0.6);  // and still of no account beside a starter's current
  clamp.zero();
  run_at_A(0.020);
  EXPECT_NEAR(clamp.display().value, 0.0, 0.1);
}

}  // namespace
}  // namespace voltfall
