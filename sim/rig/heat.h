#pragma once

#include <array>

#include "rig/parameters.h"
#include "rig/wiring.h"

namespace voltfall {

/// Joules turned to heat in each part since they were last asked for.
struct PartHeat {
  std::array<double, resistor_count> resistor_J{};
  double drive_J = 0.0, field_J = 0.0, armature_J = 0.0, brush_J = 0.0;
  double relay_coil_J = 0.0, relay_contact_J = 0.0, grounding_contacts_J = 0.0, battery_J = 0.0;
};

/// Temperatures after `span_s` in which this much heat came in: every part is one lump that cools towards the air,
///     C dT = heat - C (T - ambient) / tau dt        (exact for constant heat over the span)
PartTemperatures temperatures_after(const RigParameters& parameters, const PartTemperatures& before,
                                    const PartHeat& heat, double span_s);

/// A joint's warmth is told by seconds of cranking at this current: heat goes with its square, and the first surge
/// alone is worth more than two of them.
inline constexpr double usual_cranking_A = 200.0;

/// How long a bolted joint takes to lose all but a third of its warmth.
inline constexpr double joint_cooling_s = 120.0;

/// The hottest bolted joint, cable or relay contact, and the hottest winding.
double hottest_joint_C(const PartTemperatures& temperatures);
double hottest_winding_C(const PartTemperatures& temperatures);

}  // namespace voltfall
