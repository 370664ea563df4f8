#pragma once

#include <array>
#include <vector>

#include "rig/parameters.h"
#include "rig/test_points.h"

namespace voltfall {

/// Volts of every test point against battery -.
using PointVolts = std::array<float, test_point_count>;

/// A crank of the healthy vehicle from rest, to be held behind what another does: the same time after the key.
class HealthyCrank {
 public:
  HealthyCrank(const RigParameters& healthy, const RestingPlace& rest, bool headlamps);

  const PointVolts& at_rest() const { return rest_; }
  /// Millisecond by millisecond while it engages; then the mean of a second of cranking.
  const PointVolts& after_key(double after_s) const;

 private:
  PointVolts rest_{}, settled_{};
  std::vector<PointVolts> engaging_;
};

}  // namespace voltfall
