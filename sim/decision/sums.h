#pragma once

#include <cmath>
#include <cstddef>
#include <numeric>
#include <vector>

/// What the sources of this folder share; of no use outside it.
namespace voltfall::decision {

inline std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

inline double total_of(const std::vector<double>& weights) {
  return std::accumulate(weights.begin(), weights.end(), 0.0);
}

/// -w log2 w, and 0 for 0: summed over shares, an entropy in bits.
inline double surprise_bits(double weight) {
  return weight > 0.0 ? -weight * std::log2(weight) : 0.0;
}

}  // namespace voltfall::decision
