#pragma once

#include <map>
#include <set>
#include <string>

#include "rig/parameters.h"

namespace voltfall {

/// What a person with ears, eyes, a meter and a clamp notices of a vehicle: words, and figures by name.
struct Noticed {
  std::set<std::string> heard;            ///< observations that hold, with the words for how they came about
  std::map<std::string, double> figures;  ///< `V battery_rest`, `A cranking`, `ohm relay_coil`, ...
};

/// Leaves the vehicle alone, cranks it twice with the lamps on and lets go, cranks it in gear, and lets it start.
Noticed noticed_of(const RigParameters& parameters);

/// What differs so much that nobody would call it the same: other words, or a figure that is off by more than what
/// sound vehicles of one type differ by.
std::set<std::string> differences(const Noticed& one, const Noticed& other);

}  // namespace voltfall
