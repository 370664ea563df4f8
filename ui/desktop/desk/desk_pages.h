#pragma once

#include "desktop/desk/desk_watch.h"
#include "desktop/style/draw.h"
#include "wording/wording.h"

namespace voltfall {

enum class DeskPage { findings, readings, points, trace, par };

/// The file as it is, mistakes under their lines.
void draw_source(const DeskWatch& watch, Hands& hands, const Rect& place);

/// Every mistake with its line, wherever the file is scrolled to.
void draw_mistakes(const DeskWatch& watch, const Wording& words, Hands& hands, const Rect& place);

/// What vetting found, one page of it. Null report: nothing yet.
void draw_desk_page(DeskPage page, const VetReport& report, const Wording& words, Hands& hands, const Rect& place);

}  // namespace voltfall
