#pragma once

#include <algorithm>
#include <array>
#include <cstddef>

namespace voltfall {

/// One row of a printed table.
struct TablePoint {
  double at, value;
};

/// Straight lines between points in rising order of `at`, level beyond the ends.
template <std::size_t count>
double on_straight_lines(const std::array<TablePoint, count>& points, double at) {
  const double within = std::clamp(at, points.front().at, points.back().at);
  std::size_t upper = 1;
  while (points[upper].at < within) ++upper;
  const TablePoint& low = points[upper - 1];
  const TablePoint& high = points[upper];
  return low.value + (within - low.at) / (high.at - low.at) * (high.value - low.value);
}

}  // namespace voltfall
