#pragma once

#include "desktop/bay_state.h"
#include "desktop/style/rect.h"
#include "desktop/wishes.h"
#include "session/session.h"
#include "wording/wording.h"

namespace voltfall {

/// Everything at the right of the picture but the title block: meter, the instrument in hand, the four tabs, the
/// close-out key. Needs 336 x 528; a taller one gives the tabs more room.
void draw_rail(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& zone);

/// Opens the close-out (of a closed job: the debrief) over the vehicle, or puts it away.
void turn_close_out(const Session& session, BayState& state);

/// The printed block at lower right. Needs 336 x 144.
void draw_title_block(const Session& session, const Rect& zone);

}  // namespace voltfall
