#include "rig/heat.h"

#include <algorithm>
#include <cmath>

#include "electrical/conductor.h"

namespace voltfall {
namespace {

// Lumps and their cooling; from memory, for the size of part.
constexpr double joint_J_per_K = 60.0, joint_cooling_s = 120.0;
constexpr double cable_cooling_s = 300.0;
constexpr double coil_J_per_K = 65.0, armature_J_per_K = 350.0, winding_cooling_s = 400.0;
constexpr double relay_coil_J_per_K = 60.0, relay_coil_cooling_s = 200.0;

double warmed(double before_C, double ambient_C, double heat_J, double J_per_K, double cooling_s, double span_s) {
  const double kept = std::exp(-span_s / cooling_s);
  const double rise_K = heat_J / span_s * cooling_s / J_per_K;  // where constant heat would lead
  return ambient_C + (before_C - ambient_C) * kept + rise_K * (1.0 - kept);
}

const CableParameters* cable_of(Resistor resistor, const CableSet& cables) {
  switch (resistor) {
    case Resistor::positive_cable:
      return &cables.positive;
    case Resistor::starter_cable:
      return &cables.starter;
    case Resistor::negative_cable:
      return &cables.negative;
    case Resistor::body_strap_cable:
      return &cables.body_strap;
    default:
      return nullptr;
  }
}

}  // namespace

PartTemperatures temperatures_after(const RigParameters& parameters, const PartTemperatures& before,
                                    const PartHeat& heat, double span_s) {
  PartTemperatures after = before;
  const double ambient_C = parameters.ambient_C;
  for (std::size_t i = 0; i < resistor_count; ++i) {
    const CableParameters* cable = cable_of(static_cast<Resistor>(i), parameters.cables);
    const double J_per_K = cable != nullptr ? copper_heat_J_per_K(cable->AWG, cable->length_m) : joint_J_per_K;
    after.resistor_C[i] = warmed(before.resistor_C[i], ambient_C, heat.resistor_J[i], J_per_K,
                                 cable != nullptr ? cable_cooling_s : joint_cooling_s, span_s);
  }
  after.drive_C = warmed(before.drive_C, ambient_C, heat.drive_J, coil_J_per_K, winding_cooling_s, span_s);
  after.field_C = warmed(before.field_C, ambient_C, heat.field_J, 3.0 * coil_J_per_K, winding_cooling_s, span_s);
  after.armature_C = warmed(before.armature_C, ambient_C, heat.armature_J, armature_J_per_K, winding_cooling_s, span_s);
  after.relay_coil_C =
      warmed(before.relay_coil_C, ambient_C, heat.relay_coil_J, relay_coil_J_per_K, relay_coil_cooling_s, span_s);
  return after;
}

double hottest_joint_C(const PartTemperatures& temperatures) {
  return *std::max_element(temperatures.resistor_C.begin(),
                           temperatures.resistor_C.begin() + static_cast<long>(Resistor::fusible_link));
}

double hottest_winding_C(const PartTemperatures& temperatures) {
  return std::max({temperatures.drive_C, temperatures.field_C, temperatures.armature_C});
}

}  // namespace voltfall
