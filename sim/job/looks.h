#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "faults/visible_signs.h"
#include "rig/parameters.h"

namespace voltfall {

/// What a close look at a component shows: `clean`, `nothing_to_see`, or a sign such as `crust`. Only what life would
/// show, see `all_visible_signs`.
/// @param decoys signs that show although nothing is behind them
/// @param starter_off the starter lies open on the bench, and its hole in the bellhousing shows the ring
/// @return empty when the catalogue has no such component.
std::string_view look_at(std::string_view component, const RigParameters& now, const RigParameters& healthy,
                         std::span<const DecoyLook> decoys = {}, bool starter_off = false);

/// True for a look that is the failing of the thing itself (a strap that is not there, a burnt bar); crust and paint
/// are not: they may lie on a joint that conducts.
bool look_proves(std::string_view look);

/// The decoys that no repair has taken away: who cleans a clamp takes its crust off, harmless or not.
std::vector<DecoyLook> decoys_left(std::span<const DecoyLook> decoys, std::span<const std::string> repairs_done);

}  // namespace voltfall
