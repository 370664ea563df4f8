#pragma once

#include <string>

#include "desktop/bay_state.h"
#include "desktop/style/rect.h"
#include "session/session.h"

namespace voltfall {

/// The zone under the picture: what the learner's noted voltage readings add up to, drawn and never judged.
/// Changes only which path and which set of readings is shown.
void draw_fall_line(const Session& session, BayState& state, const Rect& zone);

/// `cranking, lamps on, repaired`
std::string set_text(const FallSet& set);

}  // namespace voltfall
