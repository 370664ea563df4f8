#pragma once

#include "desktop/bay_state.h"
#include "desktop/drawings/vehicle.h"
#include "desktop/wishes.h"
#include "session/session.h"
#include "wording/wording.h"

namespace voltfall {

/// The vehicle with its numbered points, the leads and the notes. Needs 944 x 528.
void draw_picture(const Session& session, const Wording& words, const VehicleLook& look, BayState& state,
                  Wishes& wishes, const Rect& zone);

}  // namespace voltfall
