#include "rig/resting_place.h"

#include <cmath>
#include <random>

namespace voltfall {

double tooth_phase_at(const DriveParameters& drive, double crank_angle_deg) {
  const double teeth = crank_angle_deg / 360.0 * drive.ring_teeth;
  return teeth - std::floor(teeth);
}

RestingPlace resting_place(const RigParameters& parameters, std::uint64_t seed) {
  constexpr double scatter_deg = 12.0;  // most of it, to either side; from memory
  std::mt19937_64 bits(seed);
  const auto unit = [&] { return static_cast<double>(bits() >> 11U) * 0x1.0p-53; };
  const int places = cylinder_count(parameters.engine);  // of the 720° cycle: half of them in a revolution
  const int place = static_cast<int>(unit() * places);
  const double aside = unit() + unit() - 1.0;  // more often little than much
  const double angle_deg = resting_angle_deg(parameters.engine, place, scatter_deg * aside);
  return {.crank_angle_deg = angle_deg, .tooth_phase = tooth_phase_at(parameters.drive, angle_deg)};
}

}  // namespace voltfall
