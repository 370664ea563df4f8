#include "rig/heat.h"

#include <algorithm>
#include <cmath>

#include "electrical/conductor.h"

namespace voltfall {
namespace {

// Lumps and their cooling; from memory, for the size of part.
constexpr double joint_J_per_K = 60.0;
constexpr double cable_cooling_s = 300.0;
constexpr double link_AWG = 16.0, link_length_m = 0.20, link_cooling_s = 20.0;
constexpr double stray_cooling_s = 30.0;  // control cables, hinges, a thin lead: bare or nearly so
constexpr double stray_rise_K = 100.0;    // at the current they are said to bear
constexpr double coil_J_per_K = 65.0, armature_J_per_K = 350.0, winding_cooling_s = 400.0;
constexpr double brush_J_per_K = 90.0, brush_cooling_s = 150.0;
constexpr double relay_coil_J_per_K = 60.0, relay_coil_cooling_s = 200.0;
constexpr double contact_J_per_K = 40.0, contact_cooling_s = 120.0;
constexpr double battery_J_per_K_Ah = 210.0, battery_cooling_s = 4.0 * 3600.0;

// One lump that cools towards the air.
struct Lump {
  double J_per_K, cooling_s;
};

double warmed(double before_C, double ambient_C, double heat_J, const Lump& lump, double span_s) {
  const double kept = std::exp(-span_s / lump.cooling_s);
  const double rise_K = heat_J / span_s * lump.cooling_s / lump.J_per_K;  // where constant heat would lead
  return ambient_C + (before_C - ambient_C) * kept + rise_K * (1.0 - kept);
}

Lump cable_lump(const CableParameters& cable) {
  return {copper_heat_J_per_K(cable.AWG, cable.length_m), cable_cooling_s};
}

// A path that comes to `stray_rise_K` above the air at the current it bears.
Lump stray_lump(double ohm, double ampacity_A) {
  return {ampacity_A * ampacity_A * ohm * stray_cooling_s / stray_rise_K, stray_cooling_s};
}

Lump lump_of(Resistor resistor, const RigParameters& parameters) {
  switch (resistor) {
    case Resistor::positive_cable:
      return cable_lump(parameters.cables.positive);
    case Resistor::starter_cable:
      return cable_lump(parameters.cables.starter);
    case Resistor::negative_cable:
      return cable_lump(parameters.cables.negative);
    case Resistor::body_strap_cable:
      return cable_lump(parameters.cables.body_strap);
    case Resistor::body_lead:
      return stray_lump(parameters.body.lead_ohm, parameters.body.lead_ampacity_A);
    case Resistor::parasitic:
      return stray_lump(parameters.body.parasitic_ohm, parameters.body.parasitic_ampacity_A);
    case Resistor::fusible_link:
      return {copper_heat_J_per_K(link_AWG, link_length_m), link_cooling_s};
    default:
      return {joint_J_per_K, joint_cooling_s};
  }
}

}  // namespace

PartTemperatures temperatures_after(const RigParameters& parameters, const PartTemperatures& before,
                                    const PartHeat& heat, double span_s) {
  PartTemperatures after = before;
  const auto warm = [&](double& temperature_C, double heat_J, const Lump& lump) {
    temperature_C = warmed(temperature_C, parameters.ambient_C, heat_J, lump, span_s);
  };
  for (std::size_t i = 0; i < resistor_count; ++i) {
    warm(after.resistor_C[i], heat.resistor_J[i], lump_of(static_cast<Resistor>(i), parameters));
  }
  warm(after.drive_C, heat.drive_J, {coil_J_per_K, winding_cooling_s});
  warm(after.field_C, heat.field_J, {3.0 * coil_J_per_K, winding_cooling_s});
  warm(after.armature_C, heat.armature_J, {armature_J_per_K, winding_cooling_s});
  warm(after.brush_C, heat.brush_J, {brush_J_per_K, brush_cooling_s});
  warm(after.relay_coil_C, heat.relay_coil_J, {relay_coil_J_per_K, relay_coil_cooling_s});
  warm(after.relay_contact_C, heat.relay_contact_J, {contact_J_per_K, contact_cooling_s});
  warm(after.grounding_contacts_C, heat.grounding_contacts_J, {contact_J_per_K, contact_cooling_s});
  warm(after.battery_C, heat.battery_J, {battery_J_per_K_Ah * parameters.battery.capacity_Ah, battery_cooling_s});
  return after;
}

double hottest_joint_C(const PartTemperatures& temperatures) {
  const double joint_C = *std::max_element(temperatures.resistor_C.begin(),
                                           temperatures.resistor_C.begin() + static_cast<long>(Resistor::fusible_link));
  const auto at = [&](Resistor resistor) { return temperatures.resistor_C[static_cast<std::size_t>(resistor)]; };
  return std::max({joint_C, temperatures.relay_contact_C, at(Resistor::positive_cable_to_ground),
                   at(Resistor::starter_cable_to_ground), at(Resistor::terminal_to_case)});
}

double hottest_winding_C(const PartTemperatures& temperatures) {
  return std::max({temperatures.drive_C, temperatures.field_C, temperatures.armature_C});
}

}  // namespace voltfall
