#pragma once

#include "desktop/style/rect.h"
#include "instruments/kit.h"

namespace voltfall {

inline constexpr float object_width = 40, object_height = 28;

/// An instrument as a small dark solid, on paper: 40 x 28 at scale 1, centred in the place.
/// @param glow  0 to 1, of the test lamp's bulb
void draw_kit_object(Kit kit, const Rect& place, float glow = 0.0F);

}  // namespace voltfall
