#pragma once

#include "debrief/debrief_contents.h"
#include "desktop/bay_state.h"
#include "desktop/rail/paper_column.h"
#include "desktop/wishes.h"

namespace voltfall {

// The pages of the debrief. Each draws into its place.

void draw_score_page(const DebriefContents& contents, Hands& hands, const Rect& place);

/// What was done beside par. A press on a step wishes to see it again, where there is a record.
void draw_steps_page(const DebriefContents& contents, BayState& state, Wishes& wishes, const Rect& place);

void draw_suspects_page(const DebriefContents& contents, Hands& hands, const Rect& place);

/// The power path three times over one another, told apart by the line's pattern and its name.
void draw_fall_comparison(const FallComparison& falls, const Rect& place);

void draw_check_page(const DebriefContents& contents, const Wording& words, Hands& hands, const Rect& place);

/// One step: minute, what, notes under it, minutes and money at right; a heavy rule down the side of the one that told.
float step_height(const DebriefStep& step, float width);
void draw_step(const DebriefStep& step, std::string_view currency, const Rect& row);

}  // namespace voltfall
