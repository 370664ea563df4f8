#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "mechanical/drive_train.h"
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

struct NoLoadRow {
  double supply_V, most_A, least_rpm;
};

// values.md 5.1, marked H: what other 12 V starters may draw at most and must turn at least, direct and geared. A
// geared one gives its speed at the pinion; this one has no gears, so its own is the pinion's. (Left out: a 1956
// starter of which 80 A is the figure and not the limit, and an army compressor's of twice the size.)
constexpr std::array<NoLoadRow, 5> no_load_rows{
    {{11.5, 130.0, 7000.0}, {11.2, 90.0, 2400.0}, {11.5, 100.0, 3000.0}, {11.0, 90.0, 2800.0}, {11.0, 90.0, 1820.0}}};

TEST(NoLoad, KeepsTheLimitsOfOtherStarters) {
  for (const NoLoadRow& row : no_load_rows) {
    const Settled spun = crank({}, {.kind = Load::free, .supply_V = row.supply_V}).settled;
    EXPECT_LE(spun.loop_A.mean, row.most_A) << row.supply_V;
    EXPECT_GE(spun.motor_rpm.mean, row.least_rpm) << row.supply_V;
  }
}

// values.md 5.1: the wound-field rows at 10 V (50-62 A at 8500-12700 rpm, 70-110 A at 6500-10700, 125-190 A at
// 3000-5600) and at 11 V (80 A, 3800 rpm and more): this one lies among them.
TEST(NoLoad, LiesAmongTheWoundFieldNeighbours) {
  for (const double supply_V : {10.0, 10.5, 11.0, 11.5}) {
    const Settled spun = crank({}, {.kind = Load::free, .supply_V = supply_V}).settled;
    expect_within(spun.loop_A.mean, 50.0, 190.0);
    expect_within(spun.motor_rpm.mean, 3000.0, 12700.0);
  }
}

// Common practice: a loose bushing or a dragging armature shows on the bench as more current at less speed.
TEST(NoLoad, TellsADraggingArmature) {
  const LoadParameters bench{.kind = Load::free, .supply_V = 12.0};
  const Settled sound = crank({}, bench).settled;
  const Settled dragging = crank(vehicle_with({{"starter.drag_added_Nm", 0.5}}), bench).settled;
  EXPECT_GT(dragging.loop_A.mean, 1.15 * sound.loop_A.mean);
  EXPECT_LT(dragging.motor_rpm.mean, 0.9 * sound.motor_rpm.mean);
}

struct LoadRow {
  double supply_V, current_A, torque_Nm, least_rpm;
};

// values.md 5.2, load rows marked H, all of reduction-gear starters. Left out: 16.7 N·m and 710 rpm at 7.7 V and 400 A,
// a larger starter, whose stall of 31 N·m this one doesn't reach either.
constexpr std::array<LoadRow, 4> load_rows{
    {{8.0, 280.0, 7.76, 900.0}, {7.5, 300.0, 8.84, 870.0}, {8.0, 370.0, 11.1, 910.0}, {8.0, 370.0, 12.78, 850.0}}};

// At the same volts and torque this starter turns as fast as they must. Without gears it takes more amperes for its
// torque than they do, by up to a quarter.
TEST(LoadTest, TurnsAsFastAsOtherStartersMust) {
  for (const LoadRow& row : load_rows) {
    const Settled loaded =
        crank_for(1.0, {}, {.kind = Load::torque, .torque_Nm = row.torque_Nm, .supply_V = row.supply_V}).settled;
    EXPECT_GE(loaded.motor_rpm.mean, row.least_rpm) << row.torque_Nm;
    expect_within(loaded.loop_A.mean / row.current_A, 1.0, 1.25);
  }
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

// values.md 5.3: an overrunning clutch must hold 50 lb-ft, 68 N·m. The pinion is held and the armature pushed that
// hard.
TEST(Clutch, HoldsWhatTheManualAsks) {
  constexpr double asked_Nm = 68.0, dt_s = 2.0e-4;
  const DriveParameters drive;
  DriveTrainState wheels;
  DriveTrainLoads loads{};
  loads.armature_inertia_kg_m2 = StarterParameters{}.armature_inertia_kg_m2;
  loads.crank_inertia_kg_m2 = EngineParameters{}.inertia_kg_m2;
  loads.pinion_held = true;
  constexpr int steps = 10000, push_up_steps = 5000;  // up slowly, so that nothing swings past it
  double clutch_Nm = 0.0;
  for (int step = 0; step < steps; ++step) {
    const double motor_Nm = asked_Nm * std::min(1.0, static_cast<double>(step) / push_up_steps);
    const DriveTrainStep open = begin_drive_train_step(drive, wheels, loads, motor_Nm, dt_s);
    ASSERT_FALSE(open.clutch_slips) << motor_Nm;
    const DriveTrainMove move = finish_drive_train_step(drive, wheels, loads, open, motor_Nm, dt_s);
    wheels = move.after;
    clutch_Nm = move.clutch_Nm;
  }
  EXPECT_NEAR(clutch_Nm, asked_Nm, 1.0e-3 * asked_Nm);  // still trembling by a part in a thousand at most
  EXPECT_NEAR(wheels.armature_rad_per_s, 0.0, 0.1);
}

// A vehicle with the key held at start, in which parts are taken out and put in while it runs.
class HeldKey {
 public:
  explicit HeldKey(const RigParameters& parameters, bool ignition_live = false) : rig_(parameters) {
    controls_.key = KeyPosition::start;
    controls_.ignition_live = ignition_live;
  }
  void run(double for_s) {
    for (long step = 0; step < std::lround(for_s / Rig::step_s); ++step) rig_.step(controls_);
    const std::vector<RigEvent> news = rig_.take_events();
    events_.insert(events_.end(), news.begin(), news.end());
  }
  void lift_brushes() {
    RigParameters lifted = rig_.parameters();
    lifted.starter.brush_added_ohm = 1.0e7;
    rig_.refit(lifted);
  }
  void let_go() { controls_.key = KeyPosition::on; }
  const Readings& readings() const { return rig_.readings(); }
  long count(RigEventKind kind) const {
    return std::count_if(events_.begin(), events_.end(), [&](const RigEvent& event) { return event.kind == kind; });
  }

 private:
  Rig rig_;
  Controls controls_;
  std::vector<RigEvent> events_;
};

// physics.md section 2: hold-in alone holds a seated shoe, until the relay opens. With the brushes lifted in mid-crank
// nothing else carries current; 3.4-6.0 A at 12 V (values.md section 4, CALC from the manual's 2.0-3.5 ohm).
TEST(HoldInCoil, HoldsASeatedShoeAloneUntilTheRelayOpens) {
  for (const double ambient_C : {-18.0, 22.0, 50.0}) {
    HeldKey vehicle(vehicle_with({{"ambient_C", ambient_C}}));
    vehicle.run(0.5);
    ASSERT_TRUE(vehicle.readings().shoe_seated) << ambient_C;
    vehicle.lift_brushes();
    vehicle.run(1.0);
    EXPECT_TRUE(vehicle.readings().shoe_seated) << ambient_C;
    EXPECT_EQ(vehicle.count(RigEventKind::shoe_dropped), 0) << ambient_C;
    if (ambient_C == 22.0) expect_within(vehicle.readings().amps_in(HeavyCable::starter), 3.4, 6.0);
    vehicle.let_go();
    vehicle.run(0.2);
    EXPECT_FALSE(vehicle.readings().shoe_seated) << ambient_C;
  }
}

// ... and it can't pull one in: with the drive coil open the shoe stays home, cold copper and a full battery or not.
TEST(HoldInCoil, CannotPullAShoeIn) {
  for (const double ambient_C : {-30.0, 22.0, 60.0}) {
    HeldKey vehicle(vehicle_with({{"ambient_C", ambient_C}, {"starter.drive_coil_ohm", 1.0e7}}));
    vehicle.run(1.0);
    EXPECT_TRUE(vehicle.readings().relay_closed);
    EXPECT_EQ(vehicle.count(RigEventKind::shoe_moved), 0) << ambient_C;
    EXPECT_LT(vehicle.readings().shoe_travel_m, 1.0e-4) << ambient_C;
  }
}

// With the hold-in open nothing is amiss until the current falls: when the engine fires and runs away from a key still
// held, the shoe drops out and grabs again and again (physics.md section 2). A sound hold-in keeps it.
TEST(OpenHoldIn, DropsAndGrabsAtFirstFire) {
  constexpr bool ignition_live = true;
  HeldKey open(vehicle_with({{"starter.hold_in_ohm", 1.0e7}}), ignition_live);
  HeldKey sound({}, ignition_live);
  for (HeldKey* vehicle : {&open, &sound}) {
    vehicle->run(1.0);
    EXPECT_EQ(vehicle->count(RigEventKind::shoe_dropped), 0);
    vehicle->run(2.0);
    EXPECT_EQ(vehicle->count(RigEventKind::engine_running), 1);
  }
  EXPECT_GE(open.count(RigEventKind::shoe_dropped), 2);
  EXPECT_GE(open.count(RigEventKind::shoe_seated), 2);
  EXPECT_EQ(sound.count(RigEventKind::shoe_dropped), 0);
}

}  // namespace
}  // namespace voltfall
