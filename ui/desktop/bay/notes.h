#pragma once

#include "desktop/bay_state.h"
#include "desktop/wishes.h"
#include "session/session.h"
#include "wording/wording.h"

namespace voltfall {

/// The printed notes in the picture's lower left corner: what is heard and seen, what the sheet has to say, and the
/// chosen point with its keys or the open entry line. Needs 440 x 88.
void draw_notes(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place);

inline constexpr float notes_width = 444, notes_height = 88;

}  // namespace voltfall
