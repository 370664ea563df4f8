#pragma once

// The rows of the catalogue, by part of the vehicle. Only catalogue*.cpp include this.

#include <vector>

#include "faults/catalogue.h"

namespace voltfall::catalogue {

using Faults = std::vector<Fault>;
inline constexpr auto set = EditKind::set;
inline constexpr auto add = EditKind::add;
inline constexpr auto scale = EditKind::scale;

/// A break, as the harness's own insulation would leave it: microamperes, and a meter that shows OL.
inline constexpr double open_ohm = 1.0e7;

Faults battery_faults();
Faults joint_faults();
Faults cable_faults();
Faults ground_faults();

Faults relay_faults();
Faults control_faults();

Faults starter_electrical_faults();
Faults starter_mechanical_faults();
Faults engine_faults();

}  // namespace voltfall::catalogue
