#include "rig/rig.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <stdexcept>
#include <string>
#include <vector>

#include "rig/settable.h"
#include "support/cranks.h"
#include "support/tolerance.h"

// What may be trusted of every run: the design document's section "Trust".

namespace voltfall {
namespace {

struct Condition {
  const char* name;
  RigParameters parameters;
  LoadParameters load;
  RestingPlace rest;
};

std::vector<Condition> conditions() {
  const LoadParameters bench{.kind = Load::free, .supply_V = 12.0};
  const auto with = [](std::initializer_list<Setting> settings) { return vehicle_with(settings); };
  return {{"healthy", {}, {}, {}},
          {"abutted teeth", {}, {}, {.crank_angle_deg = 45.0, .tooth_phase = 0.0}},
          {"cold", with({{"ambient_C", -25.0}}), {}, {}},
          {"hot", with({{"ambient_C", 60.0}}), {}, {}},
          {"chattering", with({{"joints.positive_clamp.added_ohm", 0.05}}), {}, {}},
          {"clicking", with({{"joints.mounting_face.added_ohm", 0.05}}), {}, {}},
          {"welded grounding contacts", with({{"starter.grounding_contacts_stuck", 1.0}}), {}, {}},
          {"burnt weld",
           with({{"starter.grounding_contacts_stuck", 1.0}, {"starter.grounding_contacts_ohm", 0.03}}),
           {},
           {}},
          {"whirr", with({{"starter.grounding_contacts_stuck", -1.0}}), {}, {}},
          {"welded relay", with({{"relay.contact_welded", 1.0}}), {}, {}},
          {"low battery", with({{"battery.charge", 0.3}}), {}, {}},
          {"flat battery", with({{"battery.charge", 0.1}}), {}, {}},
          {"empty battery", with({{"battery.charge", 0.0}}), {}, {}},
          {"plugs out", with({{"engine.plugs_out", 1.0}}), {}, {}},
          {"dragging engine", with({{"engine.drag_added_Nm", 60.0}}), {}, {}},
          {"slipping clutch", with({{"drive.clutch_slip_Nm", 2.0}}), {}, {}},
          {"open hold-in", with({{"starter.hold_in_ohm", 1.0e7}}), {}, {}},
          {"open hold-in on the bench", with({{"starter.hold_in_ohm", 1.0e7}}), bench, {}},
          {"open brushes", with({{"starter.brush_added_ohm", 1.0e7}}), {}, {}},
          {"free", {}, bench, {}},
          {"locked", {}, {.kind = Load::locked, .supply_V = 5.0}, {}},
          {"braked", {}, {.kind = Load::torque, .torque_Nm = 6.0}, {}}};
}

class EveryCondition : public ::testing::TestWithParam<Condition> {};

TEST_P(EveryCondition, ClosesTheEnergyBooks) {
  const Condition& condition = GetParam();
  const CrankResult cranked = crank_for(2.0, condition.parameters, condition.load, condition.rest);
  EXPECT_GT(cranked.energy.battery_out_J, 10.0);
  EXPECT_LE(closure_over_limit(cranked.energy), 1.0)
      << cranked.energy.closure_error_J() << " J of " << cranked.energy.battery_out_J;
}

TEST_P(EveryCondition, KeepsKirchhoffsLawAtEveryStep) {
  const Condition& condition = GetParam();
  Rig rig(condition.parameters, condition.rest, condition.load);
  Controls controls;
  controls.key = KeyPosition::start;
  controls.headlamps = true;
  double worst = 0.0;
  for (long step = 0; step < std::lround(0.6 / Rig::step_s); ++step) {
    rig.step(controls);
    worst = std::max(worst, rig.kirchhoff_residual_A() / std::max(1.0e-9 * rig.largest_branch_A(), 1.0e-9));
  }
  EXPECT_LE(worst, 1.0);
}

std::string test_name(const ::testing::TestParamInfo<Condition>& info) {
  std::string name = info.param.name;
  std::replace_if(
      name.begin(), name.end(), [](char c) { return c == ' ' || c == '-'; }, '_');
  return name;
}

INSTANTIATE_TEST_SUITE_P(Trust, EveryCondition, ::testing::ValuesIn(conditions()), test_name);

// Averages to 0.2 %, the engagement to one coarse step, with teeth and crank where they were.
TEST(HalvedStep, ChangesNextToNothing) {
  const std::vector<Condition> steady{
      {"healthy", {}, {}, {}},
      {"abutted", {}, {}, {.crank_angle_deg = 45.0, .tooth_phase = 0.0}},
      {"cold", vehicle_with({{"ambient_C", -18.0}}), {}, {}},
      {"added ohms", vehicle_with({{"joints.starter_terminal.added_ohm", 0.01}}), {}, {}},
      {"braked", {}, {.kind = Load::torque, .torque_Nm = 6.0}, {}}};
  for (const Condition& condition : steady) {
    SCOPED_TRACE(condition.name);
    const CrankResult coarse = run_crank(condition.parameters, condition.rest, condition.load, {});
    const CrankResult fine = run_crank(condition.parameters, condition.rest, condition.load, {}, {}, 0.5 * Rig::step_s);
    ASSERT_TRUE(coarse.settled.converged && fine.settled.converged);
    EXPECT_NEAR(coarse.settled.loop_A.mean, fine.settled.loop_A.mean, 0.002 * fine.settled.loop_A.mean);
    EXPECT_NEAR(coarse.settled.motor_rpm.mean, fine.settled.motor_rpm.mean, 0.002 * fine.settled.motor_rpm.mean);
    EXPECT_NEAR(coarse.settled.starter_V.mean, fine.settled.starter_V.mean, 0.002 * fine.settled.starter_V.mean);
    if (condition.load.kind != Load::engine) continue;
    ASSERT_TRUE(coarse.engaged_at_s && fine.engaged_at_s);
    EXPECT_NEAR(*coarse.engaged_at_s, *fine.engaged_at_s, Rig::step_s + rounding(1.0));
  }
}

// A rig that goes on from another's state in the middle of a crank does what that one does: it only cuts its first
// steps finer, which leaves the averages where they are.
TEST(Rig, GoesOnFromAState) {
  Controls controls;
  controls.key = KeyPosition::start;
  Rig whole({});
  for (int step = 0; step < 2500; ++step) whole.step(controls);
  Rig second(whole.state(), {});
  EXPECT_NEAR(second.readings().time_s, whole.readings().time_s, rounding(1.0));
  double whole_A = 0.0, second_A = 0.0;
  for (int step = 0; step < 2500; ++step) {
    whole.step(controls);
    second.step(controls);
    whole_A += whole.readings().loop_A / 2500.0;
    second_A += second.readings().loop_A / 2500.0;
  }
  EXPECT_NEAR(second_A, whole_A, 0.002 * whole_A);
  EXPECT_NEAR(second.readings().crank_rpm, whole.readings().crank_rpm, 0.005 * whole.readings().crank_rpm);
  EXPECT_LE(closure_over_limit(second.energy()), 1.0);
}

TEST(Rig, RepeatsItselfToTheLastBit) {
  for (const double added_ohm : {0.0, 0.05}) {  // cranking, and chattering
    const RigParameters parameters = vehicle_with({{"joints.positive_clamp.added_ohm", added_ohm}});
    std::vector<Readings> first;
    run_crank(parameters, {}, {}, {.for_s = 0.5}, [&](const Readings& now) { first.push_back(now); });
    std::size_t step = 0, unlike = 0;
    run_crank(parameters, {}, {}, {.for_s = 0.5}, [&](const Readings& now) {
      const Readings& then = first[step++];
      const bool same = now.node_V == then.node_V && now.cable_A == then.cable_A && now.loop_A == then.loop_A &&
                        now.crank_rpm == then.crank_rpm && now.shoe_travel_m == then.shoe_travel_m &&
                        now.pinion_travel_m == then.pinion_travel_m && now.crank_angle_deg == then.crank_angle_deg;
      if (!same) ++unlike;
    });
    EXPECT_EQ(step, first.size());
    EXPECT_EQ(unlike, 0U);
  }
}

bool finite(const CrankResult& cranked) {
  bool all = std::isfinite(cranked.energy.closure_error_J()) && std::isfinite(cranked.kirchhoff_residual) &&
             std::isfinite(cranked.peak_loop_A);
  for (const Spread& spread : cranked.settled.points) {
    all = all && std::isfinite(spread.mean) && std::isfinite(spread.lowest) && std::isfinite(spread.highest);
  }
  return all && std::isfinite(cranked.settled.loop_A.mean) && std::isfinite(cranked.settled.crank_rpm.mean);
}

// Somewhere in a range: wide ones (milliohms to open) are drawn by their logarithm, and ends are drawn often.
double drawn_value(const Settable& settable, std::mt19937_64& dice) {
  std::uniform_real_distribution<double> share(0.0, 1.0);
  const double kind = share(dice);
  if (kind < 0.2) return settable.lowest;
  if (kind < 0.4) return settable.highest;
  const double floor = std::max(settable.lowest, 1.0e-6);
  if (settable.lowest >= 0.0 && settable.highest > 1000.0 * floor) {
    return std::max(settable.lowest, floor * std::pow(settable.highest / floor, share(dice)));
  }
  return settable.lowest + share(dice) * (settable.highest - settable.lowest);
}

// Finite with closed books, or refused in words: parameters that contradict each other, or a circuit without a
// solution.
void expect_sound_or_refused(const RigParameters& parameters, const std::string& what) {
  SCOPED_TRACE(what);
  try {
    const CrankResult cranked = crank_for(0.25, parameters);
    EXPECT_TRUE(finite(cranked));
    EXPECT_LE(closure_over_limit(cranked.energy), 1.0);
    EXPECT_LE(cranked.kirchhoff_residual, 1.0e-9);
  } catch (const std::exception& refusal) {
    EXPECT_GT(std::string(refusal.what()).size(), 10U);
  }
}

TEST(AnyVehicle, StaysSoundAtTheEndsOfEveryRange) {
  const int stride = checked_build ? 5 : 1;
  const auto settables = all_settables();
  for (std::size_t i = 0; i < settables.size(); i += static_cast<std::size_t>(stride)) {
    for (const double value : {settables[i].lowest, settables[i].highest}) {
      RigParameters parameters;
      settables[i].in(parameters) = value;
      expect_sound_or_refused(parameters, std::string(settables[i].path) + " " + std::to_string(value));
    }
  }
}

TEST(AnyVehicle, StaysSoundForRandomPairs) {
  constexpr int vehicles = checked_build ? 30 : 300;
  std::mt19937_64 dice(20240229);
  const auto settables = all_settables();
  std::uniform_int_distribution<std::size_t> any(0, settables.size() - 1);
  for (int vehicle = 0; vehicle < vehicles; ++vehicle) {
    RigParameters parameters;
    std::string what;
    for (int change = 0; change < 2; ++change) {
      const Settable& settable = settables[any(dice)];
      settable.in(parameters) = drawn_value(settable, dice);
      what += std::string(settable.path) + "=" + std::to_string(settable.value_in(parameters)) + " ";
    }
    expect_sound_or_refused(parameters, what);
  }
}

// All parameters at once, wildly; no joint or wire worse than fifty times its own, or nothing would ever turn.
TEST(AnyVehicle, StaysSoundWithEverythingDrawn) {
  constexpr int vehicles = checked_build ? 30 : 100;
  constexpr double most_added_ohm = 0.005;
  std::mt19937_64 dice(7);
  int relays_closed = 0;
  for (int vehicle = 0; vehicle < vehicles; ++vehicle) {
    RigParameters parameters;
    for (const Settable& settable : all_settables()) {
      const double usual = settable.value_in(parameters);
      const double drawn = drawn_value(settable, dice);
      const bool may_be_open = settable.unit == "ohm" && settable.highest > 1.0e6;
      settable.in(parameters) = may_be_open ? std::min(drawn, std::max(50.0 * usual, most_added_ohm)) : drawn;
    }
    expect_sound_or_refused(parameters, "vehicle " + std::to_string(vehicle));
    try {
      relays_closed += crank_for(0.25, parameters).relay_closings > 0 ? 1 : 0;
    } catch (const std::exception&) {
      continue;  // refused in words, as checked above
    }
  }
  EXPECT_GT(relays_closed, vehicles / 20);  // the draw reaches vehicles that do something
}

TEST(Rig, StandsStillWithTheKeyOff) {
  Rig rig({});
  for (int step = 0; step < 500; ++step) rig.step({});
  EXPECT_NEAR(rig.readings().volts_at(TestPoint::battery_positive_post), open_circuit_V({}, 1.0, 22.0), 0.01);
  EXPECT_NEAR(rig.readings().loop_A, 0.02, 0.005);  // the key-off drain
  EXPECT_NEAR(rig.readings().crank_rpm, 0.0, rounding(0.0));
  EXPECT_FALSE(rig.readings().relay_closed);
}

// A lost negative clamp: nothing flows and the meter on the posts still sees the battery.
TEST(Rig, IsDeadWithTheBatteryOff) {
  Rig rig({});
  Controls controls;
  controls.key = KeyPosition::start;
  controls.battery_connected = false;
  for (int step = 0; step < 500; ++step) rig.step(controls);
  EXPECT_LT(std::abs(rig.readings().loop_A), 0.01);
  EXPECT_GT(rig.readings().volts_at(TestPoint::battery_positive_post), 12.5);
}

TEST(Rig, WontCrankInGear) {
  Rig rig({});
  Controls controls;
  controls.key = KeyPosition::start;
  controls.gear = Gear::drive;
  for (int step = 0; step < 500; ++step) rig.step(controls);
  EXPECT_FALSE(rig.readings().relay_closed);
}

// A meter's 10 megohm between two points bends nothing that matters; a 12 ohm test lamp draws its ampere.
TEST(Rig, FeelsWhatIsHungOnIt) {
  Rig rig({});
  Controls controls;
  controls.attached = {{TestPoint::positive_clamp, TestPoint::engine_block, 12.0}};
  for (int step = 0; step < 100; ++step) rig.step(controls);
  EXPECT_NEAR(rig.readings().loop_A, 12.65 / 12.0 + 0.02, 0.02);
}

TEST(Rig, RestsAndCoolsAndCranksAgain) {
  Rig rig({});
  Controls controls;
  controls.key = KeyPosition::start;
  for (int step = 0; step < 10000; ++step) rig.step(controls);
  const double hot_C = rig.readings().winding_C;
  rig.rest(1800.0);
  EXPECT_GT(hot_C, 23.0);
  EXPECT_LT(rig.readings().winding_C, hot_C);
  EXPECT_EQ(rig.readings().crank_rpm, 0.0);
  for (int step = 0; step < 2500; ++step) rig.step(controls);
  EXPECT_GT(rig.readings().crank_rpm, 100.0);
}

TEST(Rig, CranksAfterARepair) {
  Rig rig(vehicle_with({{"joints.mounting_face.added_ohm", 0.05}}));
  Controls controls;
  controls.key = KeyPosition::start;
  for (int step = 0; step < 2500; ++step) rig.step(controls);
  EXPECT_FALSE(rig.readings().meshed);
  rig.rest(60.0);
  rig.refit({});
  for (int step = 0; step < 2500; ++step) rig.step(controls);
  EXPECT_TRUE(rig.readings().meshed);
  EXPECT_GT(rig.readings().crank_rpm, 100.0);
}

}  // namespace
}  // namespace voltfall
