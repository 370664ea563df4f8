#pragma once

#include "desktop/bay_state.h"
#include "desktop/style/rect.h"
#include "desktop/wishes.h"
#include "session/session.h"
#include "wording/wording.h"

namespace voltfall {

// The kit on the rail: the tab it is taken from, and the face of the one in hand.

/// The Kit tab: each allowed instrument as one row that can be taken up, then what the hands can do.
void draw_kit_tab(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place);

/// Height of the dark face of the instrument in hand; 0 when nothing of the kit can be in hand.
float face_height(const Session& session, const BayState& state);

/// The face of the instrument in hand: its display and keys.
void draw_face(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place);

/// Where a device hangs; null when it does not.
const Hung* hung_at(const Session& session, Device device);

/// Opens the entry for the points of the instrument in hand: its next ones are typed or clicked on the picture. Of two
/// heavy leads, the one that does not hang yet. False when it has no points.
bool begin_aiming(const Session& session, BayState& state);

}  // namespace voltfall
