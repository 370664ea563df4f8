#pragma once

#include "instruments/multimeter.h"
#include "rig/parameters.h"
#include "rig/resting_place.h"
#include "rig/state.h"

namespace voltfall {

inline constexpr int battery_cells = 6;

/// What a conductance tester makes of a battery at rest: the cold cranking amperes that a full, healthy battery of this
/// small-signal conductance would have, corrected for the battery's temperature by the tester's own sensor. It sees the
/// ohmic part alone. So a flat battery reads low though its plates are sound, and a shorted cell may read well.
double inferred_CCA_A(const BatteryParameters& battery, const BatteryState& state);
/// In steps of 5 A.
MeterDisplay conductance_display(double cold_A);

/// Specific gravity in one cell, 1 to 6 from the positive end, brought to 26.7 °C: the battery's, and next to water in
/// a shorted cell. Which cells those are goes by where the engine stood when the vehicle came in.
double cell_gravity(const BatteryParameters& battery, const BatteryState& state, int cell, const RestingPlace& rest);
/// In steps of 0.005, as a float can be read.
MeterDisplay gravity_display(double gravity);

/// There is ice in it: it must be neither charged nor boosted.
bool is_frozen(const BatteryParameters& battery, const BatteryState& state);

}  // namespace voltfall
