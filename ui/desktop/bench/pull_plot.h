#pragma once

#include "bench/mechanism.h"
#include "desktop/bench/bench_state.h"
#include "desktop/style/rect.h"

namespace voltfall {

/// Force against the shoe's travel: what spring and hinge ask; what the magnet gives at the present current, at the
/// surge's height and at the current that stands when the shoe stays home; and the way the shoe went. Where the surge
/// lies under what is asked it can't set off.
void draw_pull_plot(const BenchScene& scene, const Mechanism& now, const Rect& place);

}  // namespace voltfall
