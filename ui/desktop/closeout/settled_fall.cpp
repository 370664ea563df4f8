#include "desktop/closeout/settled_fall.h"

namespace voltfall {

SettledFall settled_fall(const RigParameters& parameters, const RestingPlace& rest) {
  constexpr int steps_per_s = 10000;
  static_assert(Rig::step_s * steps_per_s == 1.0);
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
