#pragma once

#include "desktop/bay_state.h"
#include "desktop/wishes.h"
#include "session/session.h"
#include "wording/wording.h"

namespace voltfall {

/// The Bay's keyboard: one table of keys, what they do, and the words the F1 list shows.
void handle_keys(const Session& session, BayState& state, Wishes& wishes);

/// The list of keys, over the picture.
void draw_keys_list(BayState& state, const Rect& picture);

}  // namespace voltfall
