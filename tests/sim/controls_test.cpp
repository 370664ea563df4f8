#include <gtest/gtest.h>

#include "rig/crank_run.h"
#include "support/cranks.h"

// What hands do to the vehicle, as the vehicle answers.

namespace voltfall {
namespace {

/// A second of the key held at start with these controls.
Readings held_for_a_second(Rig& rig, Controls controls) {
  controls.key = KeyPosition::start;
  for (int step = 0; step < 5000; ++step) rig.step(controls);
  return rig.readings();
}

Readings cranked_with(const Controls& controls, const RigParameters& parameters = {}) {
  Rig rig(parameters);
  return held_for_a_second(rig, controls);
}

RigParameters with_clutch_switch() {
  return vehicle_with({{"control.clutch_switch", 1.0}});
}

TEST(SWire, OpensTheControlSideWhenItIsLifted) {
  Controls lifted;
  lifted.s_wire_on = false;
  const Readings now = cranked_with(lifted);
  EXPECT_FALSE(now.relay_closed);
  EXPECT_LT(now.volts_at(TestPoint::s_terminal), 0.1);
  EXPECT_GT(now.volts_at(TestPoint::s_wire_end), 12.0);  // the wire still has its volts
}

// trade.md B step 12: belt off, before the motor is blamed for high current.
TEST(BeltOff, LetsTheEngineGoWhenAnAccessoryHasSeized) {
  const RigParameters seized = vehicle_with({{"engine.accessory_drag_Nm", 130.0}});
  Controls off;
  off.belt_off = true;
  EXPECT_LT(cranked_with({}, seized).crank_rpm, 0.7 * cranked_with({}).crank_rpm);
  EXPECT_DOUBLE_EQ(cranked_with(off, seized).crank_rpm, cranked_with({}).crank_rpm);
}

TEST(PlugsOut, IsWhatTheParameterSays) {
  Controls out;
  out.plugs_out = true;
  EXPECT_DOUBLE_EQ(cranked_with(out).crank_rpm, cranked_with({}, vehicle_with({{"engine.plugs_out", 1.0}})).crank_rpm);
}

TEST(StarterOff, TakesNothing) {
  Controls off;
  off.starter_off = true;
  const Readings now = cranked_with(off);
  EXPECT_TRUE(now.relay_closed);
  EXPECT_LT(now.loop_A, 10.0);  // relay coil and dash
}

TEST(ClutchSwitch, AsksForThePedalWhateverTheGear) {
  Controls controls;
  for (const Gear gear : {Gear::neutral, Gear::drive}) {
    controls.gear = gear;
    controls.clutch_pedal_down = false;
    EXPECT_FALSE(cranked_with(controls, with_clutch_switch()).relay_closed);
    controls.clutch_pedal_down = true;
    EXPECT_GT(cranked_with(controls, with_clutch_switch()).crank_rpm, 100.0);
  }
}

TEST(ClutchSwitch, OutOfAdjustmentNeverCloses) {
  RigParameters parameters = with_clutch_switch();
  parameters.control.clutch_switch_misadjusted = 1.0;
  EXPECT_FALSE(cranked_with(ready_to_crank(parameters), parameters).relay_closed);
}

TEST(ShortedSafetySwitch, LetsTheEngineCrankInGear) {
  Controls in_gear;
  in_gear.gear = Gear::drive;
  EXPECT_FALSE(cranked_with(in_gear).relay_closed);
  for (RigParameters parameters : {RigParameters{}, with_clutch_switch()}) {
    parameters.control.neutral_switch_shorted = 1.0;
    EXPECT_GT(cranked_with(in_gear, parameters).crank_rpm, 100.0);
  }
}

TEST(StickingStartContact, GoesOnUntilTheKeyIsOff) {
  Rig rig(vehicle_with({{"control.start_contact_sticks", 1.0}}));
  Controls controls;
  const auto relay_after = [&](KeyPosition key) {
    controls.key = key;
    for (int step = 0; step < 1500; ++step) rig.step(controls);
    return rig.readings().relay_closed;
  };
  EXPECT_FALSE(relay_after(KeyPosition::on));  // not before it has been made
  EXPECT_TRUE(relay_after(KeyPosition::start));
  EXPECT_TRUE(relay_after(KeyPosition::on));
  EXPECT_FALSE(relay_after(KeyPosition::off));
}

// Out of the battery over a night, against amperes times hours.
TEST(Rest, DrawsWhatStaysOnOutOfTheBattery) {
  constexpr double night_s = 10.0 * 3600.0;
  const auto charge_after = [&](const RigParameters& parameters, const Controls& left) {
    Rig rig(parameters);
    rig.step(left);
    rig.rest(night_s);
    return rig.state().battery.charge;
  };
  const double Ah = RigParameters{}.battery.capacity_Ah;
  const RigParameters draining = vehicle_with({{"body.drain_A", 2.0}});
  Controls lamps_on, negative_off;
  lamps_on.headlamps = true;
  negative_off.battery_connected = false;
  EXPECT_NEAR(charge_after(draining, {}), 1.0 - 20.0 / Ah, 1.0e-4);
  EXPECT_NEAR(charge_after(draining, negative_off), 1.0, 1.0e-4);
  EXPECT_DOUBLE_EQ(charge_after({}, lamps_on), 0.0);  // 120 W for ten hours is half as much again as it holds
}

TEST(Refit, GivesBackWhatCrankingTookOnlyWhenTheBatteryIsCharged) {
  Rig rig{RigParameters{}};
  held_for_a_second(rig, {});
  const double drawn_down = rig.state().battery.charge;
  EXPECT_LT(drawn_down, 1.0);
  rig.refit(vehicle_with({{"battery.acid_level", 0.9}}));
  EXPECT_DOUBLE_EQ(rig.state().battery.charge, drawn_down);
  rig.refit(RigParameters{}, true);
  EXPECT_DOUBLE_EQ(rig.state().battery.charge, 1.0);
}

TEST(ShoeWithoutASpring, LeavesThePinionInMesh) {
  const auto seated_after = [](const RigParameters& parameters) {
    Rig rig(parameters);
    held_for_a_second(rig, {});
    for (int step = 0; step < 10000; ++step) rig.step({});
    rig.rest(600.0);
    return rig.readings().shoe_seated;
  };
  EXPECT_FALSE(seated_after({}));
  EXPECT_TRUE(seated_after(vehicle_with({{"shoe.spring_preload_N", 0.0}, {"shoe.spring_N_per_m", 0.0}})));
}

// Common practice: 13.8 to 14.5 V with the engine running, battery volts when nothing charges (trade.md fault 9).
TEST(Alternator, ChargesOnlyAboveTheBatterysVolts) {
  const auto running_V = [](double regulated_V, bool belt_off) {
    Rig rig(vehicle_with({{"body.alternator_V", regulated_V}}));
    Controls controls;
    controls.ignition_live = true;
    controls.key = KeyPosition::start;
    for (int step = 0; step < 15000; ++step) rig.step(controls);
    controls.key = KeyPosition::on;
    controls.belt_off = belt_off;
    for (int step = 0; step < 15000; ++step) rig.step(controls);
    EXPECT_GT(rig.readings().crank_rpm, 400.0);
    return rig.readings().volts_at(TestPoint::battery_positive_post);
  };
  const double charged_V = running_V(14.2, false);
  EXPECT_GE(charged_V, 13.8);
  EXPECT_LE(charged_V, 14.5);
  for (const double idle_V : {running_V(12.0, false), running_V(0.0, false), running_V(14.2, true)}) {
    EXPECT_LT(idle_V, 12.7);
    EXPECT_GT(idle_V, 11.8);
  }
}

}  // namespace
}  // namespace voltfall
