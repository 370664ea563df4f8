#include "instruments/starter_bench.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "electrical/conductor.h"
#include "rig/crank_run.h"

namespace voltfall {
namespace {

constexpr std::array<std::string_view, 4> ids{"no_load", "hold_in", "clutch_torque", "brush_length"};

MeterDisplay figure(double value, double step, int decimals, const char* unit) {
  return {MeterDisplay::Kind::value, std::round(value / step) * step + 0.0, decimals, unit};
}

BenchResult spin_freely(const RigParameters& parameters, double step_s) {
  constexpr double supply_V = 12.0, rpm_step = 50.0;
  const LoadParameters stand{.kind = Load::free, .torque_Nm = 0.0, .supply_V = supply_V};
  CrankRequest request;
  request.for_s = 1.5;  // up to speed after a third of a second, and read in the last one
  const Settled spun = run_crank(parameters, {}, stand, request, {}, step_s).settled;
  return {figure(spun.loop_A.mean, 1.0, 0, "A"), figure(spun.motor_rpm.mean, rpm_step, 0, "rpm")};
}

// Both ways to ground through the contacts and the armature are held open, so that the coil and the insulation are
// left.
BenchResult measure_hold_in(const RigParameters& parameters) {
  constexpr double most_ohm = 600.0;
  const StarterParameters& starter = parameters.starter;
  const double siemens = 1.0 / (starter.hold_in_ohm * copper_factor(parameters.ambient_C)) +
                         1.0 / starter.winding_to_case_ohm + 1.0 / starter.terminal_to_case_ohm;
  if (1.0 / siemens >= most_ohm) return {{MeterDisplay::Kind::overload, 0.0, 1, "ohm"}, {}};
  return {figure(1.0 / siemens, 0.1, 1, "ohm"), {}};
}

// A torque wrench on the pinion with the armature held: not turned further than a sound clutch has to hold.
BenchResult turn_clutch(const DriveParameters& drive) {
  constexpr double wrench_goes_to_Nm = 100.0, step_Nm = 1.0;
  const double driving_Nm = std::min(drive.clutch_slip_Nm, wrench_goes_to_Nm);
  const double free_Nm = drive.clutch_seized > 0.5 ? driving_Nm : drive.clutch_drag_Nm;
  return {figure(driving_Nm, step_Nm, 0, "Nm"), figure(free_Nm, step_Nm, 0, "Nm")};
}

// From memory: a new brush of this starter family is 11 mm long; at 6.4 mm (1/4 in, army overhaul limits) it has to
// go, and its contact begins to suffer. Brushes that hang in their holders are as long as any.
BenchResult measure_brushes(const StarterParameters& starter) {
  constexpr double new_mm = 11.0, limit_mm = 6.4, stub_mm = 4.0;
  constexpr double suffers_from_ohm = 0.008, stub_ohm = 0.040, hung_up_from_ohm = 0.1;
  const double worn_ohm = starter.brush_added_ohm;
  if (worn_ohm > hung_up_from_ohm) return {figure(new_mm - 2.0, 0.1, 1, "mm"), {}};
  const double to_limit = std::min(worn_ohm / suffers_from_ohm, 1.0);
  const double beyond = std::clamp((worn_ohm - suffers_from_ohm) / (stub_ohm - suffers_from_ohm), 0.0, 1.0);
  return {figure(new_mm - to_limit * (new_mm - limit_mm) - beyond * (limit_mm - stub_mm), 0.1, 1, "mm"), {}};
}

}  // namespace

std::string_view id_of(BenchTest test) {
  return ids[static_cast<std::size_t>(test)];
}

std::optional<BenchTest> bench_test_named(std::string_view id) {
  const auto* found = std::find(ids.begin(), ids.end(), id);
  return found == ids.end() ? std::nullopt : std::optional(static_cast<BenchTest>(found - ids.begin()));
}

BenchResult bench_result(BenchTest test, const RigParameters& parameters, double step_s) {
  switch (test) {
    case BenchTest::no_load:
      return spin_freely(parameters, step_s);
    case BenchTest::hold_in:
      return measure_hold_in(parameters);
    case BenchTest::clutch_torque:
      return turn_clutch(parameters.drive);
    case BenchTest::brush_length:
      break;
  }
  return measure_brushes(parameters.starter);
}

}  // namespace voltfall
