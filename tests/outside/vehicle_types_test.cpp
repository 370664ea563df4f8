#include "vehicles/vehicle_types.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "faults/catalogue.h"
#include "rig/settable.h"
#include "support/cranks.h"

// Each type of vehicle, healthy, against the trade's figures for its class.

namespace voltfall {
namespace {

using enum TestPoint;

void expect_within(double value, double lowest, double highest) {
  EXPECT_GE(value, lowest);
  EXPECT_LE(value, highest);
}

/// A published band.
struct Band {
  double from, to;
};

/// trade.md 0.2: this starter family's warm crank draws 160-210 A in an eight and 150-180 A in a six (S3); for a four
/// there is only the general upper limit of 150-185 A (S22, S23), so a healthy one stays below its top.
Band cranking_A(double cylinders) {
  if (cylinders >= 8.0) return {160.0, 210.0};
  return cylinders >= 6.0 ? Band{150.0, 180.0} : Band{100.0, 185.0};
}

class EveryVehicle : public ::testing::TestWithParam<std::string_view> {
 protected:
  const VehicleType& type() const { return *vehicle_type_named(GetParam()); }
  const TypeLimit* limit(std::string_view key) const {
    const auto found =
        std::find_if(type().limits.begin(), type().limits.end(), [&](const TypeLimit& own) { return own.key == key; });
    return found == type().limits.end() ? nullptr : &*found;
  }
};

TEST_P(EveryVehicle, CranksAsItsClassDoes) {
  const CrankResult cranked = crank(type().healthy);
  const Settled& settled = cranked.settled;
  const Band band = cranking_A(type().healthy.engine.cylinders);
  EXPECT_EQ(settled.state, CrankState::cranking);
  expect_within(settled.loop_A.mean, band.from, band.to);
  // trade.md 0.2 gives 140-250 rpm for an eight (S68) and that below 100 rpm hardly anything starts; lighter engines
  // turn faster (common practice).
  expect_within(settled.crank_rpm.mean, 140.0, type().healthy.engine.cylinders > 4.0 ? 260.0 : 320.0);
  // trade.md 0.2: at least 9.6 V at the posts, at most 0.2 V a cable and 0.2 V the ground side, 0.5 V the insulated.
  EXPECT_GE(settled.battery_posts_V.mean, 9.6);
  EXPECT_LE(volts_between(cranked, positive_clamp, relay_battery_lug), 0.2);
  EXPECT_LE(volts_between(cranked, relay_motor_lug, starter_lug), 0.2);
  EXPECT_LE(volts_between(cranked, starter_case, negative_post), 0.2);
  EXPECT_LE(volts_between(cranked, battery_positive_post, starter_terminal), 0.5);
  EXPECT_LE(volts_between(cranked, battery_positive_post, s_terminal), 0.5);
  // SAE J541 (values.md 3.1): 2.0 mohm for the heavy circuit at 20 °C, relay and motor left out; this is at 22 °C.
  const double path_V = volts_between(cranked, battery_positive_post, relay_battery_stud) +
                        volts_between(cranked, relay_motor_stud, starter_terminal) +
                        volts_between(cranked, starter_case, negative_post);
  EXPECT_LE(path_V / settled.loop_A.mean, 0.0021);
}

// values.md 0: 400-600 A for the first revolutions on a shop meter; a smaller battery gives less.
TEST_P(EveryVehicle, SurgesAndThenTurns) {
  for (const double tooth_phase : {0.0, 0.25, 0.6}) {
    const CrankResult cranked =
        crank_for(0.5, type().healthy, {}, {.crank_angle_deg = 45.0, .tooth_phase = tooth_phase});
    EXPECT_TRUE(cranked.engaged()) << tooth_phase;
    expect_within(cranked.first_surge_A, 400.0, 650.0);
  }
}

// Cranking effort doubles at -18 °C (values.md 0); a battery in good order still turns the engine past 100 rpm.
TEST_P(EveryVehicle, StillCranksInFrost) {
  RigParameters cold = type().healthy;
  cold.ambient_C = -18.0;
  EXPECT_GE(crank(cold).settled.crank_rpm.mean, 100.0);
}

TEST_P(EveryVehicle, LiesWellInsideItsOwnDeclaredLimits) {
  const Settled settled = crank(type().healthy).settled;
  const TypeLimit* amps = limit("cranking_current");
  const TypeLimit* rpm = limit("cranking_speed");
  ASSERT_TRUE(amps != nullptr && rpm != nullptr);
  const double near_A = limit_key_named("cranking_current")->near, near_rpm = limit_key_named("cranking_speed")->near;
  expect_within(settled.loop_A.mean, amps->lowest + near_A, amps->highest - near_A);
  expect_within(settled.crank_rpm.mean, rpm->lowest + near_rpm, rpm->highest - near_rpm);
}

TEST_P(EveryVehicle, CranksOnlyAsItsSafetySwitchAllows) {
  const RigParameters& healthy = type().healthy;
  const auto relay_closes = [&](const Controls& controls) {
    Rig rig(healthy);
    Controls held = controls;
    held.key = KeyPosition::start;
    for (int step = 0; step < 500; ++step) rig.step(held);
    return rig.readings().relay_closed;
  };
  Controls ready = ready_to_crank(healthy);
  EXPECT_TRUE(relay_closes(ready));
  if (gearbox_of(healthy) == Gearbox::manual) {
    ready.clutch_pedal_down = false;
  } else {
    ready.gear = Gear::drive;
  }
  EXPECT_FALSE(relay_closes(ready));
}

// With fuel and spark on it fires, runs by itself and charges: 13.8 to 14.5 V (trade.md fault 9).
TEST_P(EveryVehicle, StartsAndCharges) {
  Rig rig(type().healthy);
  Controls controls = ready_to_crank(type().healthy);
  controls.ignition_live = true;
  for (int step = 0; step < 30000; ++step) {
    controls.key = step < 10000 ? KeyPosition::start : KeyPosition::on;
    rig.step(controls);
  }
  expect_within(rig.readings().crank_rpm, 500.0, 1100.0);  // an idle, from memory
  expect_within(rig.readings().volts_at(battery_positive_post), 13.8, 14.5);
}

TEST_P(EveryVehicle, PrintsATorqueForEveryHeavyJointAndLimitsThereAre) {
  for (const JointTorque& torque : type().torques) {
    EXPECT_EQ(std::count(all_components().begin(), all_components().end(), torque.component), 1) << torque.component;
    EXPECT_GT(torque.Nm, 0.0);
  }
  EXPECT_EQ(type().torques.size(), 8u);  // as many as RigParameters has joints
  for (const TypeLimit& own : type().limits) EXPECT_NE(limit_key_named(own.key), nullptr) << own.key;
}

TEST_P(EveryVehicle, StaysWithinTheDocumentedRanges) {
  for (const Settable& settable : all_settables()) {
    const double value = settable.value_in(type().healthy);
    EXPECT_GE(value, settable.lowest) << settable.path;
    EXPECT_LE(value, settable.highest) << settable.path;
  }
}

std::vector<std::string_view> type_ids() {
  std::vector<std::string_view> ids;
  for (const VehicleType& type : all_vehicle_types()) ids.push_back(type.id);
  return ids;
}

INSTANTIATE_TEST_SUITE_P(Types, EveryVehicle, ::testing::ValuesIn(type_ids()),
                         [](const auto& info) { return std::string(info.param); });

TEST(VehicleTypes, DifferInWhatACarCanDifferIn) {
  const RigParameters& pickup = vehicle_type_named("pickup_v8")->healthy;
  const RigParameters& van = vehicle_type_named("van_six")->healthy;
  const RigParameters& compact = vehicle_type_named("compact_four")->healthy;
  EXPECT_EQ(gearbox_of(pickup), Gearbox::automatic);
  EXPECT_EQ(gearbox_of(van), Gearbox::manual);
  EXPECT_GT(van.control.neutral_switch_in_coil_ground, 0.5);
  EXPECT_LT(compact.control.neutral_switch_in_coil_ground, 0.5);
  EXPECT_LT(compact.cables.positive.length_m, pickup.cables.positive.length_m);
  EXPECT_GT(van.cables.positive.length_m, pickup.cables.positive.length_m);
  EXPECT_EQ(vehicle_type_named("no_such_vehicle"), nullptr);
}

}  // namespace
}  // namespace voltfall
