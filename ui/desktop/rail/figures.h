#pragma once

#include <string_view>

#include "desktop/style/draw.h"

namespace voltfall {

/// Figures set as a display sets them: digits of one width, the point and spaces narrow, right-aligned in the box.
void figures_in(const Rect& box, Type type, ImU32 colour, std::string_view figures);

}  // namespace voltfall
