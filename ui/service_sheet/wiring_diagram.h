#pragma once

#include "rig/parameters.h"
#include "service_sheet/pen.h"

namespace voltfall {

inline constexpr float diagram_width = 830, diagram_height = 462;

/// What of the circuit differs from vehicle to vehicle.
struct DiagramOptions {
  bool switch_in_coil_ground = false;  ///< the relay's coil goes home through its safety switch
  bool clutch_switch = false;          ///< the safety switch is worked by the clutch pedal
  bool body_lead = false;              ///< a small lead joins battery - to the body
};
DiagramOptions diagram_options(const RigParameters& healthy);

/// The cranking circuit as a diagram, in units of 830 x 462: power path heavy, control path light, every test point's
/// number on the wire. The one drawing that the screen and the printer share.
void draw_wiring_diagram(Pen& pen, const DiagramOptions& options);

}  // namespace voltfall
