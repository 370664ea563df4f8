#pragma once

#include <cstdint>

#include "rig/parameters.h"

namespace voltfall {

/// Ring tooth against pinion tooth, 0 to 1 of a pitch, of a crank that stands here: the ring turns with the crank, and
/// the pinion is taken to stand with a tooth on the line of centres.
double tooth_phase_at(const DriveParameters& drive, double crank_angle_deg);

/// Where the engine came to rest the last time: compression leaves it at one of the N/2 places of a revolution, some
/// degrees to either side, and with that one tooth phase of the ring. The same seed gives the same place.
RestingPlace resting_place(const RigParameters& parameters, std::uint64_t seed);

}  // namespace voltfall
