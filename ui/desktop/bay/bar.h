#pragma once

#include "desktop/bay_state.h"
#include "desktop/wishes.h"
#include "session/session.h"

namespace voltfall {

/// Along the top: leave, the job, lamps, timed crank, and the key itself over the rail. Needs 1280 x 48.
void draw_bar(const Session& session, BayState& state, Wishes& wishes, const Rect& zone);

}  // namespace voltfall
