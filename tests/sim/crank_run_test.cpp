#include "rig/crank_run.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "support/cranks.h"
#include "support/tolerance.h"

namespace voltfall {
namespace {

TEST(CrankState, SaysWhatItIs) {
  const auto state = [](bool relay, double closings, bool seated, bool meshed, double crank_rpm, double motor_rpm) {
    return crank_state_of(Load::engine, relay, closings, seated, meshed, crank_rpm, motor_rpm);
  };
  EXPECT_EQ(state(true, 0.0, true, true, 200.0, 3280.0), CrankState::cranking);
  EXPECT_EQ(state(true, 0.0, true, true, 20.0, 328.0), CrankState::labouring);
  EXPECT_EQ(state(true, 0.0, true, true, 0.0, 0.0), CrankState::stalled);
  EXPECT_EQ(state(true, 0.0, false, false, 0.0, 3.0), CrankState::not_engaged);
  EXPECT_EQ(state(true, 15.0, false, false, 0.0, 3.0), CrankState::chattering);
  EXPECT_EQ(state(true, 0.0, false, false, 0.0, 9000.0), CrankState::free_spin);
  EXPECT_EQ(state(false, 0.0, false, false, 0.0, 0.0), CrankState::no_relay);
}

// The default run averages whole 720-degree cycles: its window is a whole number of turns at the mean speed.
TEST(Settled, AveragesWholeEngineCycles) {
  const CrankResult cranked = crank({});
  ASSERT_TRUE(cranked.settled.converged);
  const double cycles = cranked.settled.window_s * cranked.settled.crank_rpm.mean / 120.0;
  EXPECT_NEAR(cycles, std::round(cycles), 0.01);
  EXPECT_GE(cycles, 1.99);
}

// A locked armature warms by some 3 K/s: waiting until the current stood still would read a hot motor.
TEST(Settled, ReadsABlockedMotorBeforeItWarms) {
  const CrankResult blocked = run_crank({}, {}, {.kind = Load::locked, .supply_V = 5.0}, {});
  EXPECT_TRUE(blocked.settled.converged);
  EXPECT_EQ(blocked.settled.state, CrankState::stalled);
  EXPECT_LT(blocked.ran_s, 2.0);
}

// Four cycles at 200 rpm take 2.4 s: a run cut short of them is its last second, and says that it did not settle.
TEST(Settled, IsTheLastSecondOfARunCutShort) {
  const CrankResult brief = run_crank({}, {}, {}, {.for_s = 1.5});
  EXPECT_FALSE(brief.settled.converged);
  EXPECT_NEAR(brief.settled.window_s, 1.0, 2.0 * Rig::step_s);
}

// The clunk at the starter: the shoe is heard as it flies, before it seats, and not at all when it can't be pulled.
TEST(Events, TheShoeIsHeardOnlyWhenItFlies) {
  const auto time_of = [](const CrankResult& result, RigEventKind kind) {
    const auto found = std::find_if(result.events.begin(), result.events.end(),
                                    [&](const RigEvent& event) { return event.kind == kind; });
    return found == result.events.end() ? -1.0 : found->time_s;
  };
  const CrankResult healthy = run_crank({}, {}, {}, {.for_s = 0.5});
  EXPECT_GT(time_of(healthy, RigEventKind::shoe_moved), time_of(healthy, RigEventKind::relay_closed));
  EXPECT_LT(time_of(healthy, RigEventKind::shoe_moved), time_of(healthy, RigEventKind::shoe_seated));
  RigParameters starved;
  starved.joints.starter_terminal.added_ohm = 0.05;
  EXPECT_LT(time_of(run_crank(starved, {}, {}, {.for_s = 0.5}), RigEventKind::shoe_moved), 0.0);
}

// A slow crank's window must not reach back into the engagement: the closed relay drops contact_ohm x current.
TEST(Settled, HoldsNothingOfTheStart) {
  const RigParameters slow = vehicle_with({{"joints.starter_terminal.added_ohm", 0.015}});
  const CrankResult cranked = crank(slow);
  const double relay_V = volts_between(cranked, TestPoint::relay_battery_stud, TestPoint::relay_motor_stud);
  EXPECT_NEAR(relay_V, (slow.relay.contact_ohm + slow.relay.constriction_ohm) * cranked.settled.loop_A.mean,
              0.03 * relay_V);  // coil and dash: 4 A
}

TEST(Settled, MeansLieBetweenTheirExtremes) {
  const Settled settled = crank({}).settled;
  for (const Spread& spread : settled.points) {
    EXPECT_LE(spread.lowest, spread.mean + rounding(spread.mean));
    EXPECT_GE(spread.highest, spread.mean - rounding(spread.mean));
  }
  EXPECT_LT(settled.loop_A.lowest, settled.loop_A.mean - 3.0);  // compression's ripple
  EXPECT_GT(settled.loop_A.highest, settled.loop_A.mean + 3.0);
}

TEST(CrankRun, RunsAsLongAsAskedAndShowsEveryStep) {
  long steps = 0;
  double last_s = 0.0;
  const CrankResult cranked = run_crank({}, {}, {}, {.for_s = 0.3}, [&](const Readings& now) {
    ++steps;
    last_s = now.time_s;
  });
  EXPECT_EQ(steps, std::lround(0.3 / Rig::step_s));
  EXPECT_NEAR(last_s, 0.3, rounding(0.3));
  EXPECT_NEAR(cranked.ran_s, 0.3, rounding(0.3));
}

// The surge is the highest 50 ms mean of the readings that were shown.
TEST(CrankRun, MeasuresItsFirstSurge) {
  std::vector<double> current_A;
  const CrankResult cranked =
      run_crank({}, {}, {}, {.for_s = 0.3}, [&](const Readings& now) { current_A.push_back(now.loop_A); });
  const auto length = static_cast<std::size_t>(std::lround(0.05 / Rig::step_s));
  double highest_A = 0.0, peak_A = 0.0;
  for (std::size_t first = 0; first + length <= current_A.size(); ++first) {
    double sum_A = 0.0;
    for (std::size_t i = first; i < first + length; ++i) sum_A += current_A[i];
    highest_A = std::max(highest_A, sum_A / static_cast<double>(length));
  }
  for (const double value_A : current_A) peak_A = std::max(peak_A, value_A);
  EXPECT_NEAR(cranked.first_surge_A, highest_A, 0.01 * highest_A);  // a running sum may leave one sample out
  EXPECT_EQ(cranked.peak_loop_A, peak_A);
}

TEST(CrankRun, TellsTheStoryInOrder) {
  const CrankResult cranked = crank_for(0.5, {});
  ASSERT_TRUE(cranked.engaged_at_s);
  double before_s = 0.0;
  bool closed = false, seated_after_closing = false;
  for (const RigEvent& event : cranked.events) {
    EXPECT_GE(event.time_s, before_s);
    before_s = event.time_s;
    closed = closed || event.kind == RigEventKind::relay_closed;
    seated_after_closing = seated_after_closing || (closed && event.kind == RigEventKind::shoe_seated);
    EXPECT_NE(event.kind, RigEventKind::top_centre);
  }
  EXPECT_TRUE(seated_after_closing);
  EXPECT_EQ(cranked.relay_closings, 1);
}

// One weak cylinder: the ripple has one hump fewer, and the engine turns a little more easily.
TEST(CrankRun, FeelsAWeakCylinder) {
  const Settled sound = crank({}).settled;
  const Settled weak = crank(vehicle_with({{"engine.weak_cylinder", 1.0}})).settled;
  EXPECT_GT(weak.crank_rpm.highest, sound.crank_rpm.highest + 5.0);
  EXPECT_LT(weak.loop_A.lowest, sound.loop_A.lowest);
}

}  // namespace
}  // namespace voltfall
