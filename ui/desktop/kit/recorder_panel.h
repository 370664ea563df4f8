#pragma once

#include "desktop/bay_state.h"
#include "desktop/style/rect.h"
#include "desktop/wishes.h"
#include "session/session.h"
#include "wording/wording.h"

namespace voltfall {

/// The recorder's own screen, where the fall line is while it is in use: what its channels are clipped to, trigger,
/// two traces, two cursors. Needs 944 x 144.
void draw_recorder_panel(const Session& session, const Wording& words, BayState& state, Wishes& wishes,
                         const Rect& zone);

}  // namespace voltfall
