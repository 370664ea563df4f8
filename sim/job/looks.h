#pragma once

#include <string_view>

#include "rig/parameters.h"

namespace voltfall {

/// What a close look at a component shows: `clean`, `nothing_to_see`, or a sign such as `crust`. Only what life would
/// show: pitted contacts inside a relay, rot under an insulation that is still smooth and a burnt switch stay hidden.
/// @return empty when the catalogue has no such component.
std::string_view look_at(std::string_view component, const RigParameters& now, const RigParameters& healthy);

/// True for a look that is the failing of the thing itself (a strap that is not there); crust and paint are not: they
/// may lie on a joint that conducts.
bool look_proves(std::string_view look);

}  // namespace voltfall
