#pragma once

#include "desktop/closeout/close_out_sheet.h"

namespace voltfall {

// The two pages of the close-out sheet; each shows while it is its turn.

void draw_name_page(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place);
void draw_repair_page(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place);

}  // namespace voltfall
