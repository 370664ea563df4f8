#pragma once

#include <string>

#include "desktop/drawings/brush.h"

namespace voltfall {

/// The copper of a coil: the brighter, the nearer its current is to `full_A`, either way.
ImU32 current_ink(double amps, double full_A);

/// On a conductor cut across: a point where the current comes towards the viewer (positive), a cross where it goes
/// away, nothing where next to none flows.
void mark_current(const Brush& brush, ImVec2 middle, double towards_A, double full_A);

/// As it stands beside a part: `448 A`, `0.9 A`
std::string amps_text(float amps);

}  // namespace voltfall
