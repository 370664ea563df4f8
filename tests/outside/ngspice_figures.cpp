#include "outside/ngspice_figures.h"

#include <cmath>

#include "electrical/contact.h"
#include "electrical/lamp.h"
#include "rig/circuit.h"
#include "rig/heat.h"
#include "rig/relay.h"

namespace voltfall {
namespace {

// One lump, told apart by where its heat goes in and its temperature comes out: it cools from 100 K above the air, then
// warms by a joule.
template <typename HeatOf, typename TemperatureOf>
LumpFigures lump_figures(const RigParameters& parameters, HeatOf heat_of, TemperatureOf temperature_of) {
  constexpr double span_s = 0.1, hotter_K = 100.0, put_in_J = 1.0;
  const PartTemperatures cold(parameters.ambient_C);
  PartTemperatures hot = cold;
  temperature_of(hot) += hotter_K;
  PartTemperatures cooled = temperatures_after(parameters, hot, {}, span_s);
  const double kept = (temperature_of(cooled) - parameters.ambient_C) / hotter_K;
  const double cooling_s = -span_s / std::log(kept);
  PartHeat heat;
  heat_of(heat) = put_in_J;
  PartTemperatures warmed = temperatures_after(parameters, cold, heat, span_s);
  const double rise_K = temperature_of(warmed) - parameters.ambient_C;
  return {put_in_J / span_s * cooling_s * (1.0 - kept) / rise_K, cooling_s};
}

}  // namespace

// One step of backward Euler without current shows each time, x after = x / (1 + dt / time); one ampere drawn, what the
// surface charge loses by it.
BatteryTimes::BatteryTimes(const BatteryFigures& figures) {
  constexpr double dt_s = 1.0e-3, drawn_A = 1000.0;
  const auto time_s = [&](double left) { return dt_s * left / (1.0 - left); };
  const BatteryState polarised{.charge = 0.0,
                               .between_plates_acid = 1.0,
                               .near_plate_acid = 0.0,
                               .fast_V = 1.0,
                               .slow_V = 1.0,
                               .surface_V = 1.0,
                               .temperature_C = 20.0};
  const BatteryState after = battery_after(figures, polarised, 0.0, dt_s);
  fast_s = time_s(after.fast_V);
  slow_s = time_s(after.slow_V);
  between_plates_s = time_s(after.between_plates_acid);
  surface_s = time_s(after.surface_V);
  const double left_V = battery_after(figures, polarised, drawn_A, dt_s).surface_V;
  surface_As = drawn_A / (1.0 / time_s(left_V) - 1.0 / surface_s);
  BatteryState hungry = polarised;
  hungry.between_plates_acid = 0.0;
  hungry.near_plate_acid = 0.5 * figures.rested_acid;
  const double acid = battery_after(figures, hungry, 0.0, dt_s).near_plate_acid;
  pores_s = time_s(acid / hungry.near_plate_acid);
  starving_V = starving_loss(figures, hungry, 0.0, dt_s).loss_V / std::log(figures.rested_acid / acid);
}

WindingLumps::WindingLumps(const RigParameters& parameters)
    : drive(lump_figures(
          parameters, [](PartHeat& heat) -> double& { return heat.drive_J; },
          [](PartTemperatures& temperatures) -> double& { return temperatures.drive_C; })),
      field(lump_figures(
          parameters, [](PartHeat& heat) -> double& { return heat.field_J; },
          [](PartTemperatures& temperatures) -> double& { return temperatures.field_C; })),
      armature(lump_figures(
          parameters, [](PartHeat& heat) -> double& { return heat.armature_J; },
          [](PartTemperatures& temperatures) -> double& { return temperatures.armature_C; })),
      relay_coil(lump_figures(
          parameters, [](PartHeat& heat) -> double& { return heat.relay_coil_J; },
          [](PartTemperatures& temperatures) -> double& { return temperatures.relay_coil_C; })) {}

ArcFigures::ArcFigures()
    : least_V(arc_V(0.0)),
      V_per_m((arc_V(1.0e-3) - arc_V(0.0)) / 1.0e-3),
      ohm(1.0 / contact_branch(ContactState::arcing, 1.0, 1.0, 0.0, 1.0).siemens) {}

double relay_coil_leakage_H(const RigParameters& parameters) {
  RigState one_ampere;
  one_ampere.currents.relay_coil_A = 1.0;
  return 2.0 * stored_magnetic_J(parameters, one_ampere);
}

RelayFigures::RelayFigures(const RelayParameters& relay) {
  constexpr double speed_m_per_s = 1.0, dt_s = 1.0e-9, pressed_m = 1.0e-6;
  const SlideState at_studs{relay.contact_touch_m, 0.0}, at_stop{relay.plunger_travel_m, speed_m_per_s};
  stop_restitution = -move_relay(relay, {at_stop, at_studs}, 0.0, 0.0, dt_s).after.plunger.m_per_s / speed_m_per_s;
  const SlideState arriving{relay.contact_touch_m, speed_m_per_s};
  stud_restitution = -move_relay(relay, {arriving, arriving}, 0.0, 0.0, dt_s).after.disc.m_per_s / speed_m_per_s;
  const double spring_J = relay_spring_J(relay, {{pressed_m, 0.0}, {0.0, 0.0}}) -
                          relay_spring_J(relay, {{pressed_m, 0.0}, {pressed_m, 0.0}});
  settling_m = relay.contact_spring_N / (2.0 * spring_J / (pressed_m * pressed_m) - relay.contact_spring_N_per_m);
}

double clutch_damping_Nm_s(const DriveParameters& drive) {
  constexpr double dt_s = 1.0e-9;
  DriveTrainState wound;
  wound.clutch_twist_rad = 1.0e-6;
  DriveTrainLoads loads{};
  loads.armature_inertia_kg_m2 = 1.0e-3;
  return begin_drive_train_step(drive, wound, loads, 0.0, dt_s).clutch_Nm_s -
         0.5 * dt_s * drive.clutch_stiffness_Nm_per_rad;
}

double filament_time_s() {
  constexpr double dt_s = 1.0e-3;
  const double left = filament_after_V(1.0, 0.0, dt_s);
  return dt_s * left / (1.0 - left);
}

}  // namespace voltfall
