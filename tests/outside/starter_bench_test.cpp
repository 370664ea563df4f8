#include <gtest/gtest.h>

#include "rig/rig.h"
#include "support/cranks.h"

namespace voltfall {
namespace {

void expect_within(double value, double lowest, double highest) {
  EXPECT_GE(value, lowest);
  EXPECT_LE(value, highest);
}

// What an ohmmeter finds between starter terminal and case, battery off, everything at rest.
double ohms_terminal_to_case(const RigParameters& parameters) {
  constexpr double test_A = 0.1;
  Rig rig(parameters);
  Controls controls;
  controls.battery_connected = false;
  controls.attached = {{TestPoint::starter_terminal, TestPoint::starter_case, 1.0e6, test_A}};
  for (int step = 0; step < 500; ++step) rig.step(controls);  // 0.1 s, many times the hold-in coil's L/R
  const Readings& now = rig.readings();
  return (now.volts_at(TestPoint::starter_terminal) - now.volts_at(TestPoint::starter_case)) / test_A;
}

// 1982 truck manual (values.md section 0): 2.0-3.5 ohm with the contacts papered and the insulated brushes lifted;
// physics.md: with the brushes down about 0.1 ohm.
TEST(HoldInCoil, MeasuresAsTheManualSays) {
  expect_within(
      ohms_terminal_to_case(vehicle_with(
          {{"ambient_C", 20.0}, {"starter.grounding_contacts_stuck", -1.0}, {"starter.brush_added_ohm", 1.0e7}})),
      2.0, 3.5);
  expect_within(ohms_terminal_to_case(vehicle_with({{"ambient_C", 20.0}, {"starter.grounding_contacts_stuck", -1.0}})),
                0.02, 0.2);
}

// values.md 5.1, last rows of 5.3 and physics.md: at 12 V, 60-80 A and 7000-10500 rpm (from memory; the neighbours
// SD-300 70-110 A, 6500-10700 rpm at 10 V).
TEST(NoLoad, RunsAsOtherWoundFieldStartersDo) {
  const CrankResult spun = crank({}, {.kind = Load::free, .supply_V = 12.0});
  EXPECT_EQ(spun.settled.state, CrankState::free_spin);
  expect_within(spun.settled.loop_A.mean, 60.0, 80.0);
  expect_within(spun.settled.motor_rpm.mean, 7000.0, 10500.0);
}

// values.md 5.2, locked rows with field windings: 13.62 N·m at 900 A to 4.47 N·m at 70 A (a small 24 V series motor),
// that is 0.015 to 0.064 N·m per ampere at the pinion; 3.0 V at 900 A to 6.0 V at 70 A, 3.3 to 86 mohm.
TEST(Stall, GivesTorquePerAmpereLikeOtherStarters) {
  for (const double supply_V : {3.5, 5.0}) {
    const CrankResult locked = crank_for(1.0, {}, {.kind = Load::locked, .supply_V = supply_V});
    EXPECT_EQ(locked.settled.state, CrankState::stalled);
    const double current_A = locked.settled.loop_A.mean;
    expect_within(locked.settled.shaft_Nm.mean / current_A, 13.62 / 900.0, 4.47 / 70.0);
    expect_within(locked.settled.starter_V.mean / current_A, 3.0 / 900.0, 6.0 / 70.0);
  }
}

// Common practice: a series-wound motor's torque rises faster than its current until the iron saturates.
TEST(Stall, TorqueRisesFasterThanCurrent) {
  const Settled low = crank_for(1.0, {}, {.kind = Load::locked, .supply_V = 3.5}).settled;
  const Settled high = crank_for(1.0, {}, {.kind = Load::locked, .supply_V = 5.0}).settled;
  EXPECT_GT(high.shaft_Nm.mean / low.shaft_Nm.mean, high.loop_A.mean / low.loop_A.mean);
}

}  // namespace
}  // namespace voltfall
