#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "electrical/pole.h"
#include "rig/circuit.h"
#include "rig/rig.h"

// values.md section 10, M1 to M6: plain series motors. The starter itself, in the rig on its stand, becomes one when
// its grounding contacts never close (its coils then lie two and two in parallel, in series with the armature, and act
// as one field winding of one coil's resistance), its hold-in is cut, its iron does not lag, its shoe has no way to go
// and nothing in it rubs.
//
// The examples give the machine by one operating point and ask for another. That first point fixes the machine's one
// free constant; all else is the model's own doing. Linear flux, where an example assumes it, is iron that never
// saturates.

namespace voltfall {
namespace {

constexpr double rad_per_s_per_rpm = std::numbers::pi / 30.0;
constexpr double unsaturated_T = 1.0e6;

struct Plate {
  double supply_V, armature_ohm, field_ohm, brush_drop_V, current_A, rpm;

  double emf_V() const { return supply_V - (armature_ohm + field_ohm) * current_A - brush_drop_V; }
  double Nm_per_A() const { return emf_V() / (rpm * rad_per_s_per_rpm); }
  double torque_Nm() const { return Nm_per_A() * current_A; }
};

// Flux of one pole with this current in the motor; each coil carries half of it.
double pole_Wb(const StarterParameters& starter, double motor_A) {
  const PoleParameters pole = starter_pole(starter);
  const double applied = 0.5 * starter.coil_turns * motor_A;
  double low_Wb = 0.0, high_Wb = 0.999999 * pole.area_m2 * pole.saturation_T;
  for (int halving = 0; halving < 100; ++halving) {
    const double middle_Wb = 0.5 * (low_Wb + high_Wb);
    (ampere_turns(pole, middle_Wb, starter.seated_gap_m) < applied ? low_Wb : high_Wb) = middle_Wb;
  }
  return low_Wb;
}

// The starter as a plain series motor whose first operating point is the plate's.
RigParameters series_motor(const Plate& plate, double saturation_T = unsaturated_T, double turns = 60.0) {
  RigParameters parameters;
  parameters.ambient_C = 20.0;
  StarterParameters& starter = parameters.starter;
  starter.drive_coil_ohm = starter.field_coil_ohm = plate.field_ohm;
  starter.armature_ohm = plate.armature_ohm;
  starter.hold_in_ohm = starter.winding_to_case_ohm = 1.0e12;
  starter.hold_in_turns = 1.0e-6;
  starter.grounding_contacts_stuck = -1.0;
  starter.brush_drop_V = plate.brush_drop_V;
  starter.brush_knee_A = 1.0;
  starter.coil_turns = turns;
  starter.saturation_T = saturation_T;
  starter.eddy_time_constant_s = 1.0e-6;
  starter.friction_Nm = starter.friction_Nm_s = 0.0;
  starter.armature_inertia_kg_m2 = 0.05;  // of the size of these machines, for a calm run-up
  parameters.body.insulation_ohm = 1.0e12;
  parameters.shoe.travel_m = 1.0e-9;
  parameters.shoe.spring_preload_N = parameters.shoe.hinge_friction_N = 0.0;
  parameters.drive.clutch_slip_Nm = parameters.drive.ring_slip_Nm = 1.0e9;
  parameters.drive.clutch_drag_Nm = 0.0;
  const PoleFluxes alike{pole_Wb(starter, plate.current_A), pole_Wb(starter, plate.current_A),
                         pole_Wb(starter, plate.current_A), 0.0};
  starter.machine_constant_Nm_per_A_T *= plate.Nm_per_A() / torque_per_A(starter, alike);
  return parameters;
}

struct Running {
  double current_A, rpm, emf_V, shaft_Nm;
};

// Runs it up against this torque until nothing changes any more. Windings are kept from warming: the examples' stay as
// cold as their resistance.
Running settled(const RigParameters& parameters, double supply_V, double torque_Nm) {
  Rig rig(parameters, RestingPlace{}, {.kind = Load::torque, .torque_Nm = torque_Nm, .supply_V = supply_V});
  double before_rpm = -1.0;
  for (int span = 0; span < 400 && std::abs(rig.readings().motor_rpm - before_rpm) > 1.0e-7 * before_rpm; ++span) {
    before_rpm = rig.readings().motor_rpm;
    RigState now = rig.state();
    now.temperatures = PartTemperatures(parameters.ambient_C);
    now.steps = 0;
    rig = Rig(now, parameters, {.kind = Load::torque, .torque_Nm = torque_Nm, .supply_V = supply_V});
    for (int step = 0; step < 450; ++step) rig.step({});
  }
  const RigState& now = rig.state();
  const double k = torque_per_A(parameters.starter, now.fluxes);
  return {.current_A = now.currents.armature_A,
          .rpm = rig.readings().motor_rpm,
          .emf_V = k * now.drive_train.armature_rad_per_s,
          .shaft_Nm = rig.readings().shaft_Nm};
}

// The stand's supply has 10 microohm, a ten-thousandth of these motors' resistance; the rest is the settling.
constexpr double agreement = 2.0e-4;

void expect_close(double value, double expected, double digit) {
  EXPECT_NEAR(value, expected, 0.5 * digit + agreement * expected);
}

// 100 V, 100 A, 0.05 and 0.01 ohm, 1410 rpm: emf 94 V, torque 63.66 N·m. Loaded by that torque it runs at the plate.
TEST(SeriesMotor, M1RunsAtItsPlate) {
  const Plate plate{100.0, 0.05, 0.01, 0.0, 100.0, 1410.0};
  const Running running = settled(series_motor(plate), plate.supply_V, 63.66);
  expect_close(running.emf_V, 94.0, 1.0);
  expect_close(running.current_A, 100.0, 0.01);  // 63.66 is printed to a part in 6000 of itself
  expect_close(running.rpm, 1410.0, 0.2);
  expect_close(running.shaft_Nm, 63.66, 0.01);
}

// 250 V, 0.1 and 0.05 ohm, 3 V at the brushes, 85 A at 600 rpm, linear flux: 505.1 rpm at 100 A, 1311.7 at 40 A. The
// torque that asks for a current goes, with linear flux, as its square; that the model takes that current is the check.
TEST(SeriesMotor, M3SpeedsUpAsItsLoadFalls) {
  const Plate plate{250.0, 0.1, 0.05, 3.0, 85.0, 600.0};
  struct Answer {
    double current_A, rpm;
  };
  for (const Answer& answer : std::array<Answer, 2>{{{100.0, 505.1}, {40.0, 1311.7}}}) {
    const double torque_Nm = plate.torque_Nm() * std::pow(answer.current_A / plate.current_A, 2);
    const Running running = settled(series_motor(plate), plate.supply_V, torque_Nm);
    expect_close(running.current_A, answer.current_A, 0.01);
    expect_close(running.rpm, answer.rpm, 0.1);
  }
}

// 200 V, 0.40 and 0.10 ohm, 2 V, 35 A at 500 rpm, linear flux, to 20 A: 911.4 rpm, torque 120.7 to 39.4 N·m (the
// answers are CALC in values.md).
TEST(SeriesMotor, M4TorqueFallsWithTheSquareOfCurrent) {
  const Plate plate{200.0, 0.40, 0.10, 2.0, 35.0, 500.0};
  const RigParameters motor = series_motor(plate);
  const Running full = settled(motor, plate.supply_V, 120.7);
  expect_close(full.current_A, 35.0, 0.02);
  expect_close(full.rpm, 500.0, 0.3);
  const Running less = settled(motor, plate.supply_V, 39.4);
  EXPECT_NEAR(less.current_A, 20.0, 20.0 * (agreement + 0.5 * 0.05 / 39.4));  // half of the torque's rounding
  EXPECT_NEAR(less.rpm, 911.4, 911.4 * (agreement + 0.5 * 0.05 / 39.4));
  EXPECT_NEAR(less.shaft_Nm / full.shaft_Nm, std::pow(20.0 / 35.0, 2), 2.0 * 0.05 / 120.7);
}

// 230 V, 0.13 and 0.09 ohm, 75 A at 900 rpm; flux at 25 A is 45 % of that at 75 A, where linear flux would have 33 %:
// 2103 rpm (CALC). Saturation and turns of the poles are chosen for those two points of flux; the model's own curve
// then does the rest.
TEST(SeriesMotor, M5RunsAwayLessWithSaturatedIron) {
  const Plate plate{230.0, 0.13, 0.09, 0.0, 75.0, 900.0};
  const auto turns_for = [](double saturation_T) {  // so that 75 A gives 1 T
    StarterParameters starter;
    starter.saturation_T = saturation_T;
    return ampere_turns(starter_pole(starter), starter.pole_area_m2, starter.seated_gap_m) / (0.5 * 75.0);
  };
  const auto flux_share = [&](double saturation_T) {
    StarterParameters starter;
    starter.saturation_T = saturation_T;
    starter.coil_turns = turns_for(saturation_T);
    return pole_Wb(starter, 25.0) / pole_Wb(starter, 75.0);
  };
  double low_T = 1.01, high_T = 5.0;
  for (int halving = 0; halving < 60; ++halving) {
    const double middle_T = 0.5 * (low_T + high_T);
    (flux_share(middle_T) > 0.45 ? low_T : high_T) = middle_T;
  }
  ASSERT_NEAR(flux_share(low_T), 0.45, 1.0e-9);
  const RigParameters motor = series_motor(plate, low_T, turns_for(low_T));
  const Running full = settled(motor, plate.supply_V, plate.torque_Nm());
  expect_close(full.emf_V, 213.5, 0.1);
  expect_close(full.rpm, 900.0, 0.1);
  const Running less = settled(motor, plate.supply_V, plate.torque_Nm() * 0.45 * 25.0 / 75.0);
  expect_close(less.current_A, 25.0, 0.01);
  expect_close(less.emf_V, 224.5, 0.1);
  expect_close(less.rpm, 2103.0, 1.0);
}

// Torque = Le' i^2 and di/dt = (u - Le' w i - (Ra + Re) i) / (La + Le), all the way of a run-up. Le follows from the
// poles' reluctance, Le' from the plate.
TEST(SeriesMotor, M6ObeysItsEquationsWhileRunningUp) {
  const Plate plate{24.0, 0.05, 0.03, 0.0, 60.0, 1500.0};
  const RigParameters motor = series_motor(plate);
  const StarterParameters& starter = motor.starter;
  const double rotational_H = plate.Nm_per_A() / plate.current_A;
  // Two coils on their poles in a row, beside two more: together as much as one.
  const double field_H = starter.coil_turns * pole_Wb(starter, 60.0) / 30.0 + starter.coil_leakage_H;
  const double all_H = starter.armature_leakage_H + field_H;
  constexpr double dt_s = 1.0e-5;
  const LoadParameters load{.kind = Load::torque, .torque_Nm = 2.0, .supply_V = plate.supply_V};
  Rig rig(motor, RestingPlace{}, load, dt_s);
  constexpr int iron_settled = 100;  // steps after which the last trace of lag in the iron is gone
  double worst_V = 0.0, worst_torque_share = 0.0, most_A = 0.0;
  for (int step = 0; step < 20000; ++step) {
    const RigState before = rig.state();
    rig.step({});
    if (step < iron_settled) continue;
    const double current_A = rig.state().currents.armature_A;
    const double speed = 0.5 * (before.drive_train.armature_rad_per_s + rig.state().drive_train.armature_rad_per_s);
    const double per_s = (current_A - before.currents.armature_A) / dt_s;
    const double left_V = plate.supply_V - rotational_H * speed * current_A -
                          (plate.armature_ohm + plate.field_ohm) * current_A - all_H * per_s;
    const double torque_Nm = torque_per_A(starter, rig.state().fluxes) * current_A;
    const double law_Nm = rotational_H * current_A * current_A;
    worst_V = std::max(worst_V, std::abs(left_V));
    worst_torque_share = std::max(worst_torque_share, std::abs(torque_Nm / law_Nm - 1.0));
    most_A = std::max(most_A, current_A);
  }
  EXPECT_GT(most_A, 2.0 * plate.current_A);     // an inrush was part of it
  EXPECT_LT(worst_V, 1.0e-3 * plate.supply_V);  // the windings warm by half a kelvin
  EXPECT_LT(worst_torque_share, 2.0e-3);        // a microsecond of lag against a rise of milliseconds
}

}  // namespace
}  // namespace voltfall
