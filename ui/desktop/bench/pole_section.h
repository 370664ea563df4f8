#pragma once

#include "bench/mechanism.h"
#include "desktop/style/rect.h"
#include "rig/parameters.h"
#include "wording/wording.h"

namespace voltfall {

/// The starter cut across its four poles, in millimetres: the movable pole at the top, then clockwise the poles of
/// field coils 2, 3 and 4. Through each pole go as many lines as it has flux, and home through yoke and armature.
void draw_pole_section(const Mechanism& now, const RigParameters& vehicle, const Wording& words, const Rect& place);

}  // namespace voltfall
