#include "rig/resting_place.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "mechanical/pinion_mesh.h"
#include "support/cranks.h"
#include "support/tolerance.h"

namespace voltfall {
namespace {

TEST(RestingPlace, IsTheSameForTheSameSeed) {
  const RestingPlace one = resting_place({}, 7), again = resting_place({}, 7), other = resting_place({}, 8);
  EXPECT_EQ(one.crank_angle_deg, again.crank_angle_deg);
  EXPECT_EQ(one.tooth_phase, again.tooth_phase);
  EXPECT_NE(one.crank_angle_deg, other.crank_angle_deg);
}

// trade.md fault 68: a four stops at two places of a revolution, a six at three, an eight at four.
TEST(RestingPlace, IsOneOfHalfAsManyPlacesAsCylinders) {
  for (const double cylinders : {4.0, 6.0, 8.0}) {
    const RigParameters parameters = vehicle_with({{"engine.cylinders", cylinders}});
    const double apart_deg = 720.0 / cylinders;
    std::array<int, 8> found{};
    for (std::uint64_t seed = 0; seed < 4000; ++seed) {
      const double turn_deg = std::fmod(resting_place(parameters, seed).crank_angle_deg, 360.0);
      const double place = turn_deg / apart_deg - 0.5;
      EXPECT_LE(std::abs(place - std::round(place)) * apart_deg, 12.0);
      ++found[static_cast<std::size_t>(std::lround(place + cylinders / 2.0)) %
              static_cast<std::size_t>(cylinders / 2.0)];
    }
    const double each = 4000.0 / (0.5 * cylinders);
    for (int place = 0; place < static_cast<int>(0.5 * cylinders); ++place) {
      EXPECT_NEAR(found[static_cast<std::size_t>(place)], each, 5.0 * std::sqrt(each));  // five sigma
    }
  }
}

// The ring turns with the crank: one tooth on is one phase round.
TEST(RestingPlace, SetsTheToothPhase) {
  const DriveParameters drive;
  const double tooth_deg = 360.0 / drive.ring_teeth;
  EXPECT_NEAR(tooth_phase_at(drive, 10.25 * tooth_deg), 0.25, 1.0e-9);
  EXPECT_NEAR(tooth_phase_at(drive, 77.75 * tooth_deg), 0.75, 1.0e-9);
}

// Scattered over many degrees the teeth stand anywhere: faces meet as often as their lands are wide.
TEST(RestingPlace, PutsFacesOnFacesAsOftenAsLandsAreWide) {
  const double land_share = 4.0 * tooth_land_half_m / DriveParameters{}.circular_pitch_m;
  int abutting = 0;
  constexpr int seeds = 10000;
  for (std::uint64_t seed = 0; seed < seeds; ++seed) {
    const double phase = resting_place({}, seed).tooth_phase;
    if (std::min(phase, 1.0 - phase) < 0.5 * land_share) ++abutting;
  }
  EXPECT_NEAR(abutting, seeds * land_share, 5.0 * std::sqrt(seeds * land_share * (1.0 - land_share)));
}

}  // namespace
}  // namespace voltfall
