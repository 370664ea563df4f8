#pragma once

#include "bench/mechanism.h"
#include "desktop/style/rect.h"
#include "rig/parameters.h"
#include "wording/wording.h"

namespace voltfall {

/// The starter cut open along its shaft, in millimetres of its own geometry: shoe, lever and pinion stand where the
/// model has them, coils are as bright as their currents, flux lines as dense as the flux.
void draw_starter_section(const Mechanism& now, const RigParameters& vehicle, const Wording& words, const Rect& place);

}  // namespace voltfall
