#include "instruments/recorder.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>

namespace voltfall {
namespace {

constexpr double dt_s = 2.0e-4;

class RecorderOnPosts : public ::testing::Test {
 protected:
  RecorderOnPosts() {
    recorder.connect(1, {TestPoint::battery_positive_post, TestPoint::negative_post, {}});
    recorder.connect(2, {{}, {}, HeavyCable::positive});
  }

  void run_for_s(double seconds, const std::function<double(double)>& volts_at_s) {
    for (int step = 0; step < static_cast<int>(std::lround(seconds / dt_s)); ++step) {
      time_s += dt_s;
      Readings readings;
      readings.time_s = time_s;
      readings.node_V[static_cast<std::size_t>(TestPoint::battery_positive_post)] = volts_at_s(time_s);
      readings.cable_A[static_cast<std::size_t>(HeavyCable::positive)] = 100.0 * time_s;
      recorder.watch(readings, dt_s);
    }
  }

  Recorder recorder;
  double time_s = 0.0;
};

double sag(double t) {
  return t < 1.0 ? 12.6 : t < 1.2 ? 8.0 : 11.0;
}

TEST_F(RecorderOnPosts, CatchesTheFallWithATenthOfItsSpanFromBefore) {
  recorder.arm(10.0, false, 0.5);
  run_for_s(3.0, sag);
  ASSERT_EQ(recorder.state(), Recorder::State::captured);
  const Capture& capture = *recorder.capture();
  EXPECT_EQ(capture.samples[0].size(), 500U);
  EXPECT_EQ(capture.trigger_sample, 50U);
  EXPECT_NEAR(capture.triggered_at_s, 1.0, 0.002);
  EXPECT_DOUBLE_EQ(capture.samples[0][49], 12.6);
  EXPECT_LT(capture.samples[0][51], 10.0);
  EXPECT_NEAR(capture.peak(1), 12.6, 1e-9);
  EXPECT_NEAR(capture.lowest(1), 8.0, 1e-9);
  // The other channel, sample for sample: 100 A a second.
  EXPECT_NEAR(capture.samples[1][450] - capture.samples[1][50], 40.0, 1e-6);
}

TEST_F(RecorderOnPosts, DoesNotTriggerOnTheWrongSlopeOrAnUncrossedLevel) {
  recorder.arm(7.0, false, 0.5);
  run_for_s(3.0, sag);
  EXPECT_EQ(recorder.state(), Recorder::State::armed);
  EXPECT_FALSE(recorder.capture());
  recorder.arm(10.0, true, 0.5);
  run_for_s(1.0, [](double) { return 12.0; });  // above all along: never crossed
  EXPECT_EQ(recorder.state(), Recorder::State::armed);
}

TEST_F(RecorderOnPosts, EachSampleIsTheMeanOfItsMillisecond) {
  recorder.arm(5.0, true, 0.1);
  run_for_s(0.01, [](double) { return 0.0; });
  // 0.2 ms on, 0.2 ms off: of five steps in a millisecond two or three are on.
  run_for_s(0.2, [&](double t) { return std::lround(t / dt_s) % 2 == 0 ? 20.0 : 0.0; });
  ASSERT_TRUE(recorder.capture());
  EXPECT_NEAR(recorder.capture()->peak(1), 12.0, 1e-6);
  EXPECT_NEAR(recorder.capture()->samples[0][50], 10.0, 2.0 + 1e-6);
}

TEST_F(RecorderOnPosts, ClippedElsewhereItForgets) {
  recorder.arm(10.0, false, 0.1);
  run_for_s(2.0, sag);
  ASSERT_TRUE(recorder.capture());
  recorder.connect(2, {});
  EXPECT_FALSE(recorder.capture());
  EXPECT_EQ(recorder.state(), Recorder::State::idle);
}

}  // namespace
}  // namespace voltfall
