#pragma once

#include <array>

#include "rig/parameters.h"
#include "rig/rig.h"
#include "rig/test_points.h"

namespace voltfall {

/// Mean volts round the loop over the last second of a three-second crank, and what the starter did meanwhile.
struct SettledFall {
  std::array<double, test_point_count> level_V{};  ///< above battery -, by TestPoint
  double loop_A = 0.0;
  double crank_rpm = 0.0;

  double at(TestPoint point) const { return level_V[static_cast<std::size_t>(point)]; }
};

/// Cranks a vehicle of its own: in park, ignition off, lamps off, nothing attached.
SettledFall settled_fall(const RigParameters& parameters, const RestingPlace& rest);

/// The same vehicle three times: as it should be, as it came in, as it is handed back.
struct FallComparison {
  SettledFall healthy, found, handed_back;
};

}  // namespace voltfall
