#pragma once

#include <algorithm>
#include <cmath>

namespace voltfall {

/// The same sums done in another order: some tens of roundings of a double (2e-16 each), never tighter than 1e-12.
inline double rounding(double expected) {
  return 1.0e-12 * std::max(1.0, std::abs(expected));
}

/// Backward Euler over a process with a time constant: its error goes as half the step's share of the time constant.
/// Twice that leaves room for the next order and is still far below a wrong equation.
inline double stepping(double expected, double dt_s, double time_constant_s) {
  return std::abs(expected) * dt_s / time_constant_s;
}

/// A printed figure: half of its last digit is lost to print; `printed_digit` is that last digit's worth (0.01 for a
/// source that prints 12.65).
inline double datasheet(double printed_digit) {
  return 0.5 * printed_digit * (1.0 + 1.0e-9);
}

}  // namespace voltfall
