#pragma once

#include <optional>

#include "desktop/bay/place.h"
#include "desktop/bay_state.h"
#include "wording/wording.h"

namespace voltfall {

/// The point whose disc is under a place of the screen; the nearest when two are.
std::optional<TestPoint> point_at(const Projection& projection, ImVec2 pixel);

/// A line from each disc to the metal it stands for.
/// Lifted off its blade, the S wire's end hangs beside it.
void draw_point_leaders(const Projection& projection, bool s_wire_on);

/// All numbered discs. `marked` wears a heavy ring: the point a probe would land on.
void draw_points(const Projection& projection, std::optional<TestPoint> marked);

/// The name beside one disc, on its own paper, where it covers no other disc if that can be had.
void draw_point_name(const Projection& projection, const Wording& words, TestPoint point);

/// Every name at once, each beside its disc.
void draw_all_point_names(const Projection& projection, const Wording& words);

}  // namespace voltfall
