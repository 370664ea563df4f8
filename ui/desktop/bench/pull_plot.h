#pragma once

#include "bench/mechanism.h"
#include "desktop/bench/bench_state.h"
#include "desktop/style/rect.h"

namespace voltfall {

/// Force against the shoe's travel: what spring and hinge ask, what the magnet gives at the present current and at the
/// most the circuit can drive, and the way the shoe went. Where the second lies under the first it can't come home.
void draw_pull_plot(const BenchScene& scene, const Mechanism& now, const Rect& place);

}  // namespace voltfall
