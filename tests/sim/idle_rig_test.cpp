#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "hearing/crank_watch.h"
#include "support/cranks.h"
#include "vehicles/vehicle_types.h"

// A rig with nothing going on works several steps off at once: that must show in nothing but the time it takes.

namespace voltfall {
namespace {

void run(Rig& rig, const Controls& controls, double seconds) {
  for (long step = 0; step < std::lround(seconds / Rig::step_s); ++step) rig.step(controls);
}

Controls with_key(KeyPosition key, bool headlamps = false) {
  Controls controls;
  controls.key = key;
  controls.headlamps = headlamps;
  return controls;
}

TEST(IdleRig, KeepsTheEnergyBooksOfACrankAndTheLongRestAfterIt) {
  Rig rig(RigParameters{}, RestingPlace{});
  run(rig, with_key(KeyPosition::start), 0.7);
  run(rig, with_key(KeyPosition::off), 4.0);
  run(rig, with_key(KeyPosition::on, true), 1.2345);  // switched in the middle of a stride
  run(rig, with_key(KeyPosition::off), 2.0);
  EXPECT_LE(closure_over_limit(rig.energy()), 1.0);
}

// Charge is current times time (SI): the drain, with what the clamp meter would show of it.
TEST(IdleRig, LosesTheChargeThatItsDrainAsks) {
  constexpr double drain_A = 2.0, rested_s = 20.0;
  const RigParameters parameters = vehicle_with({{"body.drain_A", drain_A}});
  Rig rig(parameters, RestingPlace{});
  run(rig, with_key(KeyPosition::off), 1.0);
  const double before = rig.state().battery.charge, shown_A = rig.readings().loop_A;
  run(rig, with_key(KeyPosition::off), rested_s);
  const double capacity_As = battery_figures(parameters.battery, before, parameters.ambient_C).capacity_As;
  EXPECT_NEAR(shown_A, drain_A, 0.02 * drain_A);  // insulation and instruments take a little of their own
  EXPECT_NEAR((before - rig.state().battery.charge) * capacity_As, shown_A * rested_s, 0.01 * shown_A * rested_s);
}

// The volts that a meter averages creep by less than a tenth of its last count from one stride to the next.
TEST(IdleRig, HasVoltsThatCreepByLessThanAMeterShows) {
  Rig rig(RigParameters{}, RestingPlace{});
  run(rig, with_key(KeyPosition::start), 0.7);
  run(rig, with_key(KeyPosition::off), 1.5);
  const auto posts_V = [&] { return rig.readings().volts_at(TestPoint::battery_positive_post); };
  double last_V = posts_V(), most_V = 0.0;
  for (int step = 0; step < 5000; ++step) {
    rig.step(with_key(KeyPosition::off));
    most_V = std::max(most_V, std::abs(posts_V() - last_V));
    last_V = posts_V();
  }
  EXPECT_LT(most_V, 1.0e-3);
}

TEST(IdleRig, TellsTheTimeOfEveryStep) {
  Rig rig(RigParameters{}, RestingPlace{});
  for (int step = 1; step <= 3000; ++step) {
    rig.step(with_key(KeyPosition::off));
    ASSERT_DOUBLE_EQ(rig.readings().time_s, step * Rig::step_s);
  }
}

CrankSeen heard_in_a_crank(const RigParameters& parameters, double crank_angle_deg, bool plugs_out,
                           double key_s = 1.2) {
  Rig rig(parameters, {.crank_angle_deg = crank_angle_deg, .tooth_phase = std::fmod(crank_angle_deg / 50.0, 1.0)});
  Controls controls = with_key(KeyPosition::start);
  controls.plugs_out = plugs_out;
  controls.clutch_pedal_down = true;
  CrankWatch watch;
  for (long step = 0; step < std::lround(key_s / Rig::step_s); ++step) {
    rig.step(controls);
    watch.watch(rig.readings(), rig.take_events(), controls, Rig::step_s);
  }
  return *watch.last_crank();
}

// Teeth that meet nudge the engine; only what is thrown back kicks.
TEST(CrankHeard, KicksBackOnLiquidAndNotWhenTeethMeet) {
  const Observation& kicks = *observation_named("kicks_back");
  for (double deg = 0.0; deg < 720.0; deg += checked_build ? 180.0 : 30.0) {
    EXPECT_FALSE(kicks.holds(heard_in_a_crank({}, deg, false))) << deg;
    EXPECT_TRUE(kicks.holds(heard_in_a_crank(vehicle_with({{"engine.liquid_cm3", 150.0}}), deg, false))) << deg;
  }
}

// With the plugs out there is no beat that could be uneven, however long the motor takes to come up.
TEST(CrankHeard, HasNoUnevenBeatWithThePlugsOut) {
  const RigParameters worn = vehicle_with({{"starter.brush_added_ohm", 0.04}});
  for (double deg = 0.0; deg < 720.0; deg += checked_build ? 180.0 : 30.0) {
    EXPECT_FALSE(observation_named("uneven_crank")->holds(heard_in_a_crank(worn, deg, true))) << deg;
  }
}

// A sound engine that a bad joint makes slow to come up to its pace gains speed and does not limp, however short the
// crank; one with a weak cylinder limps on every vehicle.
TEST(CrankHeard, LimpsWithAWeakCylinderAndNotWhileItGainsSpeed) {
  const Observation& limps = *observation_named("uneven_crank");
  for (const VehicleType& type : all_vehicle_types()) {
    RigParameters slow = type.healthy, weak = type.healthy;
    slow.joints.relay_motor_stud.added_ohm = 0.008;
    weak.engine.weak_cylinder = 1.0;
    for (double deg = 0.0; deg < 720.0; deg += checked_build ? 180.0 : 60.0) {
      for (const double key_s : {1.0, 1.2, 1.5, 2.0}) {
        EXPECT_FALSE(limps.holds(heard_in_a_crank(slow, deg, false, key_s))) << type.id << " " << deg << " " << key_s;
      }
      EXPECT_TRUE(limps.holds(heard_in_a_crank(weak, deg, false, 2.0))) << type.id << " " << deg;
    }
  }
}

}  // namespace
}  // namespace voltfall
