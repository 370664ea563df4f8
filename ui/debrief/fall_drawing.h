#pragma once

#include "debrief/settled_fall.h"
#include "service_sheet/pen.h"

namespace voltfall {

inline constexpr float fall_drawing_width = 640, fall_drawing_height = 190;

/// The power path's staircase three times over one another: dotted as it should be, heavy as found, brown as handed
/// back.
void draw_falls(Pen& pen, const FallComparison& falls);

}  // namespace voltfall
