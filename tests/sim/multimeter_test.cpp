#include "instruments/multimeter.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>

namespace voltfall {
namespace {

constexpr double dt_s = 1.0e-4;

/// A made-up circuit: red on the positive post, black on the negative post, whatever volts the test wants between.
class MeterOnLeads : public ::testing::Test {
 protected:
  MeterOnLeads() {
    meter.put_red(TestPoint::battery_positive_post);
    meter.put_black(TestPoint::negative_post);
  }

  void run_for_s(double seconds, const std::function<double(double)>& volts_at_s) {
    for (int step = 0; step < static_cast<int>(std::lround(seconds / dt_s)); ++step) {
      time_s += dt_s;
      Readings readings;
      readings.time_s = time_s;
      readings.node_V[static_cast<std::size_t>(TestPoint::battery_positive_post)] = volts_at_s(time_s);
      meter.watch(readings, dt_s);
    }
  }

  /// A plain resistor between the leads of a dead circuit: the meter's own source is all there is.
  void run_on_resistor(double ohm) {
    run_for_s(4.0, [&](double) {
      const AttachedBranch branch = *meter.loading();
      return branch.source_A * branch.ohm * ohm / (branch.ohm + ohm);
    });
  }

  Multimeter meter;
  double time_s = 0.0;
};

TEST(VoltsDisplay, RoundsAsSixThousandCountsDo) {
  EXPECT_EQ(volts_display(0.0034).text_with_unit(), "3.4 mV");
  EXPECT_EQ(volts_display(0.5999).text_with_unit(), "599.9 mV");
  EXPECT_EQ(volts_display(0.61).text_with_unit(), "0.610 V");
  EXPECT_EQ(volts_display(-5.4321).text_with_unit(), "-5.432 V");
  EXPECT_EQ(volts_display(12.654).text_with_unit(), "12.65 V");
  EXPECT_EQ(volts_display(61.0).text(), "OL");
  EXPECT_EQ(volts_display(-0.00001).text(), "0.0");
}

TEST(VoltsDisplay, GivesTheFigureBackInVolts) {
  EXPECT_DOUBLE_EQ(volts_display(0.0034).base_value(), 0.0034);
  EXPECT_DOUBLE_EQ(volts_display(12.654).base_value(), 12.65);
}

TEST_F(MeterOnLeads, ShowsNothingUntilAWholeWindowIsIn) {
  EXPECT_EQ(meter.display().kind, MeterDisplay::Kind::settling);
  run_for_s(0.30, [](double) { return 12.6; });
  EXPECT_EQ(meter.display().kind, MeterDisplay::Kind::settling);
  run_for_s(0.05, [](double) { return 12.6; });
  EXPECT_EQ(meter.display().text_with_unit(), "12.60 V");
  meter.put_red(TestPoint::positive_clamp);
  EXPECT_EQ(meter.display().kind, MeterDisplay::Kind::settling);
}

TEST_F(MeterOnLeads, ShowsTheTrueAverageOfAThirdOfASecond) {
  // Half the time 10 V, half 12 V, at 100 Hz: 11 V, and 33 whole periods in the window leave at most 1/33 of 1 V over.
  run_for_s(0.4, [](double t) { return std::fmod(t, 0.01) < 0.005 ? 10.0 : 12.0; });
  EXPECT_NEAR(meter.display().base_value(), 11.0, 1.0 / 33.0);
}

TEST_F(MeterOnLeads, ReadsRedMinusBlack) {
  meter.put_red(TestPoint::negative_post);
  meter.put_black(TestPoint::battery_positive_post);
  run_for_s(0.4, [](double) { return 12.6; });
  EXPECT_EQ(meter.display().text_with_unit(), "-12.60 V");
}

TEST_F(MeterOnLeads, ALeadInTheAirShowsNoFigureAndLoadsNothing) {
  meter.put_black(std::nullopt);
  run_for_s(1.0, [](double) { return 12.6; });
  EXPECT_EQ(meter.display().kind, MeterDisplay::Kind::no_lead);
  EXPECT_EQ(meter.display().text_with_unit(), "- - -");
  EXPECT_FALSE(meter.loading());
}

TEST_F(MeterOnLeads, LoadsThePointsWithTenMegohmOnVolts) {
  ASSERT_TRUE(meter.loading());
  EXPECT_DOUBLE_EQ(meter.loading()->ohm, 1.0e7);
  EXPECT_DOUBLE_EQ(meter.loading()->source_A, 0.0);
}

TEST_F(MeterOnLeads, HoldsTheLowestFiftyMillisecondMeanAndWhenItWas) {
  meter.set_hold(MeterHold::lowest);
  const auto sag = [](double t) { return t > 0.20 && t <= 0.25 ? 6.0 : 12.6; };
  run_for_s(1.0, sag);
  EXPECT_NEAR(meter.display().base_value(), 6.0, 0.02);  // one 0.1 ms step at either end: 6.6 V x 1/500 each
  EXPECT_NEAR(*meter.shown_at_s(), 0.25, dt_s);
}

TEST_F(MeterOnLeads, ASpikeShorterThanTheMeanIsWashedOut) {
  meter.set_hold(MeterHold::highest);
  run_for_s(1.0, [](double t) { return t > 0.200 && t <= 0.205 ? 100.0 : 0.0; });
  // 5 ms at 100 V in a mean of 50 ms is 10 V; one step more or less at its edge is 0.2 V.
  EXPECT_NEAR(meter.display().base_value(), 10.0, 0.21);
}

TEST_F(MeterOnLeads, MovingAProbeForgetsTheHeldExtreme) {
  meter.set_hold(MeterHold::lowest);
  run_for_s(0.2, [](double) { return 3.0; });
  meter.put_red(TestPoint::battery_positive_post);
  run_for_s(0.2, [](double) { return 12.0; });
  EXPECT_EQ(meter.display().text_with_unit(), "12.00 V");
}

TEST_F(MeterOnLeads, OhmsFindTheirRange) {
  meter.set_function(MeterFunction::ohms);
  run_on_resistor(4.0);
  EXPECT_EQ(meter.display().text_with_unit(), "4.0 ohm");
  run_on_resistor(4700.0);
  EXPECT_EQ(meter.display().text_with_unit(), "4.700 kohm");
  run_on_resistor(2.2e6);
  EXPECT_EQ(meter.display().text_with_unit(), "2.200 Mohm");
  run_on_resistor(330.0);
  EXPECT_EQ(meter.display().text_with_unit(), "330.0 ohm");
  run_on_resistor(1.0e12);
  EXPECT_EQ(meter.display().text(), "OL");
}

TEST_F(MeterOnLeads, OhmsCantTellABadHeavyJointFromACleanOne) {
  meter.set_function(MeterFunction::ohms);
  run_on_resistor(0.00001);
  const std::string clean = meter.display().text_with_unit();
  run_on_resistor(0.010);
  EXPECT_EQ(meter.display().text_with_unit(), clean);
  EXPECT_EQ(clean, "0.0 ohm");
}

TEST_F(MeterOnLeads, OhmsOnALiveCircuitAreNonsense) {
  meter.set_function(MeterFunction::ohms);
  // By hand: 0.2 V of somebody else's at the leads; the 1 mA source with 3 kohm behind it still gives
  // 1 mA - 0.2 V / 3 kohm = 0.933 mA, and 0.2 V / 0.933 mA is 214.3 ohm, where there is no such resistor.
  run_for_s(1.0, [](double) { return 0.2; });
  EXPECT_EQ(meter.display().text_with_unit(), "214.3 ohm");
  run_for_s(4.0, [](double) { return 5.0; });
  EXPECT_EQ(meter.display().text(), "OL");
  EXPECT_FALSE(meter.fuse_blown());
}

TEST_F(MeterOnLeads, TheBatterysVoltsTakeTheFuseOfTheOhmRangesAndNotThatOfTheVolts) {
  meter.set_function(MeterFunction::ohms);
  run_for_s(1.0, [](double) { return 12.6; });
  EXPECT_TRUE(meter.fuse_blown());
  EXPECT_EQ(meter.display().text_with_unit(), "FUSE");
  EXPECT_FALSE(meter.loading());
  meter.set_function(MeterFunction::volts_dc);
  run_for_s(0.4, [](double) { return 12.6; });
  EXPECT_EQ(meter.display().text_with_unit(), "12.60 V");
  meter.replace_fuses();
  EXPECT_FALSE(meter.fuse_blown());
}

TEST_F(MeterOnLeads, BuzzesBelowThirtyOhmAndStaysInItsLowestRange) {
  meter.set_function(MeterFunction::continuity);
  run_on_resistor(25.0);
  EXPECT_TRUE(meter.buzzes());
  run_on_resistor(40.0);
  EXPECT_FALSE(meter.buzzes());
  EXPECT_EQ(meter.display().text_with_unit(), "40.0 ohm");
  run_on_resistor(4700.0);
  EXPECT_EQ(meter.display().text(), "OL");
}

TEST_F(MeterOnLeads, AmperesAreWhatTheShuntDrops) {
  meter.set_function(MeterFunction::amps_dc);
  ASSERT_TRUE(meter.loading());
  EXPECT_DOUBLE_EQ(meter.loading()->ohm, 0.010);
  run_for_s(0.4, [](double) { return 0.0312; });
  EXPECT_EQ(meter.display().text_with_unit(), "3.120 A");
  run_for_s(0.8, [](double) { return 0.0002; });
  EXPECT_EQ(meter.display().text_with_unit(), "0.020 A");  // a drain of 20 mA is plain here
}

TEST_F(MeterOnLeads, TheAmperesFuseBearsItsRatingAndGoesAtOnceAcrossABattery) {
  meter.set_function(MeterFunction::amps_dc);
  run_for_s(20.0, [](double) { return 0.10; });  // 10 A
  EXPECT_FALSE(meter.fuse_blown());
  // 800 A: 640 000 A²s a second against 200 to melt, so within 0.4 ms.
  run_for_s(0.0004, [](double) { return 8.0; });
  EXPECT_TRUE(meter.fuse_blown());
  EXPECT_GT(meter.highest_shunt_A(), 700.0);
  EXPECT_EQ(meter.display().kind, MeterDisplay::Kind::fuse_blown);
}

}  // namespace
}  // namespace voltfall
