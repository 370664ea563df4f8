#include "desktop/step_clock.h"

#include <algorithm>

namespace voltfall {

int StepClock::steps_due(double frame_s) {
  owed_s_ += std::clamp(frame_s, 0.0, longest_frame_s);
  const int steps = static_cast<int>(owed_s_ / step_s_);
  owed_s_ -= steps * step_s_;
  return steps;
}

}  // namespace voltfall
