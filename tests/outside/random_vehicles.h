#pragma once

#include <cstdint>
#include <random>
#include <string>

#include "rig/rig.h"

namespace voltfall {

/// Numbers drawn from a generator whose sequence the standard fixes, by arithmetic of our own: the library's
/// distributions may differ from one library to the next.
class Draw {
 public:
  explicit Draw(std::uint64_t seed) : bits_(seed) {}

  /// 0 up to, not including, 1, in steps of 2^-53.
  double unit() { return static_cast<double>(bits_() >> 11U) * 0x1.0p-53; }
  double between(double lowest, double highest) { return lowest + (highest - lowest) * unit(); }
  /// Every decade alike; both ends above 0.
  double in_decades(double lowest, double highest);
  /// 0 up to, not including, `count`.
  std::size_t below(std::size_t count) { return static_cast<std::size_t>(unit() * static_cast<double>(count)); }
  bool chance(double probability) { return unit() < probability; }

 private:
  std::mt19937_64 bits_;
};

/// A vehicle nobody chose, and what is done to it. The same seed gives the same vehicle on every machine.
struct RandomVehicle {
  std::uint64_t seed = 0;
  RigParameters parameters;
  RestingPlace rest;
  Controls held;         ///< while the key is at start
  double key_s = 0.0;    ///< the key is at start for so long,
  double after_s = 0.0;  ///< and at on for so long after that
  std::string made_of;   ///< one line for each departure from the default vehicle, with every digit
};

/// Settables pushed anywhere in their documented ranges or to the very ends, and none, one or two faults of the
/// catalogue at severities from lowest to highest. About a third have many values pushed, the others a few.
RandomVehicle random_vehicle(std::uint64_t seed);

/// A vehicle that is likely to crank: values moved by up to `share` of themselves where a car's would differ.
RandomVehicle random_cranking_vehicle(std::uint64_t seed);

}  // namespace voltfall
