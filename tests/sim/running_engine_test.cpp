#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "support/cranks.h"

// An engine with fuel and spark on: it fires, runs away from the starter, charges; or it fights the starter.

namespace voltfall {
namespace {

class Driver {
 public:
  explicit Driver(const RigParameters& parameters) : rig(parameters) { controls.ignition_live = true; }

  void turn_key(KeyPosition to, double for_s) {
    controls.key = to;
    for (long step = 0; step < std::lround(for_s / Rig::step_s); ++step) {
      rig.step(controls);
      lowest_rpm = std::min(lowest_rpm, rig.readings().crank_rpm);
      highest_motor_rpm = std::max(highest_motor_rpm, rig.readings().motor_rpm);
      for (const RigEvent& event : rig.take_events()) events.push_back(event.kind);
    }
  }
  bool heard(RigEventKind kind) const { return std::count(events.begin(), events.end(), kind) > 0; }
  double posts_V() const { return rig.readings().volts_at(TestPoint::battery_positive_post); }

  Rig rig;
  Controls controls;
  std::vector<RigEventKind> events;
  double lowest_rpm = 0.0, highest_motor_rpm = 0.0;
};

TEST(RunningEngine, FiresRunsAwayFromTheStarterAndIdles) {
  Driver driver({});
  driver.turn_key(KeyPosition::start, 2.5);
  EXPECT_TRUE(driver.heard(RigEventKind::engine_fired));
  EXPECT_TRUE(driver.heard(RigEventKind::engine_running));
  // The clutch overruns: at this engine speed a pinion locked to its armature would turn it at over 11 000 rpm.
  const double locked_rpm = driver.rig.readings().crank_rpm * 16.4;
  EXPECT_GT(locked_rpm, 10000.0);
  EXPECT_LT(driver.highest_motor_rpm, 0.8 * locked_rpm);
  driver.turn_key(KeyPosition::on, 2.0);
  EXPECT_GT(driver.rig.readings().crank_rpm, 500.0);  // common practice: an eight idles at 600 to 800
  EXPECT_LT(driver.rig.readings().crank_rpm, 900.0);
  EXPECT_FALSE(driver.rig.readings().shoe_seated);
  driver.turn_key(KeyPosition::off, 6.0);
  EXPECT_TRUE(driver.heard(RigEventKind::engine_stopped));
  EXPECT_NEAR(driver.rig.readings().crank_rpm, 0.0, 1.0);
}

// Design document section 1: the alternator holds 13.8 to 14.5 V once the engine runs.
TEST(RunningEngine, ChargesTheBattery) {
  Driver driver({});
  driver.turn_key(KeyPosition::start, 2.0);
  driver.turn_key(KeyPosition::on, 8.0);
  EXPECT_GE(driver.posts_V(), 13.8);
  EXPECT_LE(driver.posts_V(), 14.5);
  EXPECT_LT(driver.rig.readings().loop_A, 0.0);
  EXPECT_GT(driver.rig.energy().alternator_in_J, 0.0);
}

TEST(RunningEngine, DoesNotChargeWithADeadAlternator) {
  Driver driver(vehicle_with({{"body.alternator_V", 0.0}}));
  driver.turn_key(KeyPosition::start, 2.0);
  driver.turn_key(KeyPosition::on, 2.0);
  EXPECT_GT(driver.rig.readings().crank_rpm, 500.0);
  EXPECT_LT(driver.posts_V(), 12.7);
}

TEST(RunningEngine, DoesNotFireWithTheIgnitionDisabledOrTooSlow) {
  Driver disabled({});
  disabled.controls.ignition_live = false;
  disabled.turn_key(KeyPosition::start, 2.5);
  EXPECT_FALSE(disabled.heard(RigEventKind::engine_fired));
  // values.md section 6: below about 100 rpm an engine does not start.
  Driver slow(vehicle_with({{"joints.starter_terminal.added_ohm", 0.022}, {"engine.drag_added_Nm", 20.0}}));
  slow.turn_key(KeyPosition::start, 3.0);
  EXPECT_LT(slow.rig.readings().crank_rpm, 100.0);
  EXPECT_FALSE(slow.heard(RigEventKind::engine_fired));
}

// trade.md fault 74: far advanced, the hot crank jerks and kicks; with the ignition off it cranks evenly.
TEST(EarlySpark, FightsTheStarter) {
  const RigParameters early = vehicle_with({{"engine.spark_advance_deg", 55.0}, {"ambient_C", 50.0}});
  Driver live(early);
  live.turn_key(KeyPosition::start, 3.0);
  EXPECT_TRUE(live.heard(RigEventKind::engine_fired));
  EXPECT_FALSE(live.heard(RigEventKind::engine_running));
  Driver off(early);
  off.controls.ignition_live = false;
  off.turn_key(KeyPosition::start, 3.0);
  EXPECT_GT(live.rig.energy().battery_out_J, 1.1 * off.rig.energy().battery_out_J);
}

// trade.md fault 70: one thud, stops dead, high current.
TEST(LiquidInACylinder, StopsTheEngineDead) {
  Driver driver(vehicle_with({{"engine.liquid_cm3", 100.0}}));
  driver.controls.ignition_live = false;
  driver.turn_key(KeyPosition::start, 1.5);
  EXPECT_TRUE(driver.heard(RigEventKind::crank_turned));
  EXPECT_TRUE(driver.heard(RigEventKind::crank_stopped));
  EXPECT_LT(std::abs(driver.rig.readings().crank_rpm), 10.0);
  EXPECT_GT(driver.rig.readings().loop_A, 500.0);
  EXPECT_LE(closure_over_limit(driver.rig.energy()), 1.0);
}

TEST(LiquidInACylinder, HarmsNothingWhileThereIsRoomForIt) {
  EXPECT_EQ(crank(vehicle_with({{"engine.liquid_cm3", 20.0}})).settled.state, CrankState::cranking);
}

CrankResult cranked_from(const RigParameters& parameters, double crank_angle_deg) {
  return crank_for(2.0, parameters, {}, {.crank_angle_deg = crank_angle_deg, .tooth_phase = 0.25});
}

// trade.md fault 68: an eight stops at four places of a revolution; where the teeth are gone it spins and the engine
// stands still, from the others it starts, with a knock once a turn.
TEST(MissingRingTeeth, SpinAtOneStoppingPlaceOnly) {
  const RigParameters gap = vehicle_with({{"drive.missing_teeth", 4.0}, {"drive.missing_at_deg", 135.0}});
  const CrankResult over_gap = cranked_from(gap, 135.0);
  EXPECT_EQ(over_gap.settled.state, CrankState::free_spin);
  EXPECT_NEAR(over_gap.settled.crank_rpm.mean, 0.0, 1.0);
  for (const double elsewhere_deg : {45.0, 225.0, 315.0}) {
    const CrankResult result = cranked_from(gap, elsewhere_deg);
    EXPECT_EQ(result.settled.state, CrankState::cranking) << elsewhere_deg;
    const auto strikes = std::count_if(result.events.begin(), result.events.end(),
                                       [](const RigEvent& event) { return event.kind == RigEventKind::teeth_struck; });
    EXPECT_NEAR(static_cast<double>(strikes), 2.0 * result.settled.crank_rpm.mean / 60.0, 1.5) << elsewhere_deg;
    EXPECT_LE(closure_over_limit(result.energy), 1.0);
  }
}

// One and a half pairs of teeth are in mesh: a single gap has a neighbour at work half of a pitch to either side.
TEST(MissingRingTeeth, AreBridgedWhenOnlyOneIsGone) {
  const RigParameters gap = vehicle_with({{"drive.missing_teeth", 1.0}, {"drive.missing_at_deg", 135.0}});
  const double half_pitch_deg = 0.5 * 360.0 / gap.drive.ring_teeth;
  EXPECT_EQ(cranked_from(gap, 135.0 - half_pitch_deg).settled.state, CrankState::cranking);
}

}  // namespace
}  // namespace voltfall
