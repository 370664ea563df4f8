#pragma once

#include <cstddef>

#include "debrief/debrief_contents.h"
#include "desktop/style/hands.h"
#include "desktop/style/rect.h"
#include "wording/wording.h"

namespace voltfall {

/// A job's timeline as a ruled scale in minutes, a mark for each thing done, the one shown in bold, its words beside
/// the keys to the one before and the one after. Arrow keys, Home and End do the same. Needs 944 x 144.
/// @param shown  number of the step shown, 0 for the moment before anything was done
/// @return the step that is to be shown
std::size_t draw_scrubber(const DebriefContents& contents, std::size_t shown, const Wording& words, Hands& hands,
                          const Rect& place);

}  // namespace voltfall
