#include "vehicles/scatter.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "faults/limit_keys.h"
#include "rig/crank_run.h"
#include "rig/resting_place.h"
#include "rig/settable.h"
#include "vehicles/vehicle_types.h"

namespace voltfall {
namespace {

TEST(Scatter, NamesValuesThatCanBeSetEachOnce) {
  std::set<std::string_view> paths;
  for (const TypeSpread& spread : all_spreads()) {
    EXPECT_NE(settable_at(spread.path), nullptr) << spread.path;
    EXPECT_TRUE(paths.insert(spread.path).second) << spread.path;
    EXPECT_GT(spread.share, 0.0);
    EXPECT_LT(spread.share, 0.5);
  }
}

TEST(Scatter, IsTheSameForTheSameSeedAndWithinItsShares) {
  const RigParameters typical = all_vehicle_types().front().healthy;
  for (std::uint64_t seed = 0; seed < 200; ++seed) {
    const RigParameters one = scattered(typical, seed), again = scattered(typical, seed);
    int changed = 0;
    for (const Settable& settable : all_settables()) {
      const double before = settable.value_in(typical), value = settable.value_in(one);
      EXPECT_EQ(value, settable.value_in(again));
      EXPECT_GE(value, settable.lowest);
      EXPECT_LE(value, settable.highest);
      if (value == before) continue;
      ++changed;
      const auto spread = std::find_if(all_spreads().begin(), all_spreads().end(),
                                       [&](const TypeSpread& row) { return row.path == settable.path; });
      ASSERT_NE(spread, all_spreads().end()) << settable.path;
      EXPECT_LE(std::abs(value - before), spread->share * before * (1.0 + 1e-9)) << settable.path;
    }
    EXPECT_GT(changed, 20);
  }
}

/// A sound vehicle of each type, and what its readings may be off by and still be called typical.
class ScatteredVehicle : public ::testing::TestWithParam<std::size_t> {};

// A belief takes a reading within `near` of its limit for one that could be on either side: sound vehicles of a type
// have to differ by less, or the beliefs would be wrong about them.
TEST_P(ScatteredVehicle, ReadsAsATypicalOneDoesButForWhatIsCalledNear) {
  const RigParameters typical = all_vehicle_types()[GetParam()].healthy;
  const Settled expected = run_crank(typical, resting_place(typical, 1), {}, {}).settled;
  const auto near = [](std::string_view key) { return limit_key_named(key)->near; };
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    const RigParameters one = scattered(typical, seed);
    const Settled crank = run_crank(one, resting_place(one, seed), {}, {}).settled;
    EXPECT_NEAR(crank.battery_posts_V.mean, expected.battery_posts_V.mean, near("battery_cranking")) << seed;
    EXPECT_NEAR(crank.starter_V.mean, expected.starter_V.mean, near("starter_cranking")) << seed;
    EXPECT_NEAR(crank.loop_A.mean, expected.loop_A.mean, near("cranking_current")) << seed;
    EXPECT_NEAR(crank.crank_rpm.mean, expected.crank_rpm.mean, near("cranking_speed")) << seed;
  }
}

INSTANTIATE_TEST_SUITE_P(EveryType, ScatteredVehicle, ::testing::Range<std::size_t>(0, 3));

}  // namespace
}  // namespace voltfall
