#pragma once

#include "desktop/bay_state.h"
#include "desktop/style/rect.h"
#include "desktop/wishes.h"
#include "session/session.h"
#include "wording/wording.h"

namespace voltfall {

/// The sheet on which a job is closed: name with evidence, repair, prove, hand back. It lies where the picture is.
/// Needs 944 x 528.
void draw_close_out(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place);

/// The sheet after the score is made: verdict with reasons, what was done, how the volts fell. Needs 944 x 528.
/// @pre the session is closed
void draw_debrief(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place);

/// Everything that can be named, by alphabet; with three letters or more typed only what they fit.
std::vector<Nameable> names_for(const Wording& words, std::string_view typed);

}  // namespace voltfall
