#include "text/nearest.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <vector>

namespace voltfall {

int edit_distance(std::string_view one, std::string_view other) {
  std::vector<int> row(other.size() + 1);
  std::iota(row.begin(), row.end(), 0);
  for (std::size_t i = 1; i <= one.size(); ++i) {
    int diagonal = row[0];
    row[0] = static_cast<int>(i);
    for (std::size_t j = 1; j <= other.size(); ++j) {
      const int substituted = diagonal + (one[i - 1] == other[j - 1] ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, substituted});
    }
  }
  return row[other.size()];
}

std::string_view nearest_name(std::string_view wrong, std::span<const std::string_view> candidates) {
  std::string_view nearest;
  int least = std::numeric_limits<int>::max();
  for (const std::string_view candidate : candidates) {
    const int distance = edit_distance(wrong, candidate);
    if (distance < least) {
      least = distance;
      nearest = candidate;
    }
  }
  return nearest;
}

}  // namespace voltfall
