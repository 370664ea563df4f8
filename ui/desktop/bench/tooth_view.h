#pragma once

#include "bench/mechanism.h"
#include "desktop/bench/bench_state.h"
#include "desktop/style/rect.h"

namespace voltfall {

/// Pinion and ring teeth on the unrolled pitch cylinder, as the contact world has them; the wheel zooms in to the
/// faces.
void draw_tooth_view(const BenchScene& scene, const Mechanism& now, const Rect& place);

/// Piston, rod and crank of cylinder 1, and the pressure over the piston.
void draw_piston_view(const BenchScene& scene, const Mechanism& now, const Rect& place);

}  // namespace voltfall
