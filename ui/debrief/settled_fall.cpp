#include "debrief/settled_fall.h"

#include <cmath>

namespace voltfall {

SettledFall settled_fall(const RigParameters& parameters, const RestingPlace& rest) {
  const int steps_per_s = static_cast<int>(std::lround(1.0 / Rig::step_s));
  Controls controls;
  controls.key = KeyPosition::start;
  Rig rig(parameters, rest);
  for (int step = 0; step < 2 * steps_per_s; ++step) rig.step(controls);

  SettledFall mean;
  for (int step = 0; step < steps_per_s; ++step) {
    rig.step(controls);
    const Readings& seen = rig.readings();
    for (std::size_t i = 0; i < test_point_count; ++i) mean.level_V[i] += seen.node_V[i] / steps_per_s;
    mean.loop_A += seen.loop_A / steps_per_s;
    mean.crank_rpm += seen.crank_rpm / steps_per_s;
  }
  return mean;
}

}  // namespace voltfall
