#include "instruments/fuse.h"

namespace voltfall {

// d(gathered)/dt = I^2 - gathered / tau; at `holds_A` it comes to rest just at the melting point.
bool Fuse::carry(double amps, double dt_s) {
  if (blown_) return false;
  const double cooling_s = melting_A2s_ / (holds_A_ * holds_A_);
  gathered_A2s_ = (gathered_A2s_ + amps * amps * dt_s) / (1.0 + dt_s / cooling_s);
  blown_ = gathered_A2s_ > melting_A2s_;
  return blown_;
}

}  // namespace voltfall
