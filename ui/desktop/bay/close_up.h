#pragma once

#include "desktop/bay/place.h"
#include "desktop/bay_state.h"
#include "desktop/drawings/vehicle.h"
#include "desktop/wishes.h"
#include "session/session.h"
#include "wording/wording.h"

namespace voltfall {

/// The open crowded place three times as large, where the probe must choose its surface. Esc or the key closes it.
/// A lead in the hand lands where it is clicked; else each surface has keys for the red and the black lead.
void draw_close_up(const Session& session, const Wording& words, const VehicleLook& look, BayState& state,
                   Wishes& wishes, const Rect& picture);

/// The crowded place a point belongs to.
std::optional<int> crowded_place_of(TestPoint point);

}  // namespace voltfall
