#pragma once

#include "desktop/closeout/settled_fall.h"
#include "desktop/rail/paper_column.h"
#include "session/session.h"
#include "wording/wording.h"

namespace voltfall {

// What the debrief's two columns are made of.

void draw_verdict(PaperColumn& column, const Session& session, const Wording& words);
void draw_score(PaperColumn& column, const Score& score, const Wording& words);
void draw_safety(PaperColumn& column, const Session& session, const Wording& words);
void draw_on_a_real_vehicle(PaperColumn& column, const Session& session, const Wording& words);
void draw_timeline(PaperColumn& column, const Session& session, const Wording& words);

/// The power path three times over one another, told apart by the line's pattern and its name.
void draw_fall_comparison(const FallComparison& falls, const Rect& place);

}  // namespace voltfall
