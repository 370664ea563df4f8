#include "rig/settable.h"

#include <gtest/gtest.h>

#include <set>
#include <stdexcept>
#include <string>

#include "rig/rig.h"

namespace voltfall {
namespace {

TEST(Settable, PathsAreUniqueAndFoundAgain) {
  std::set<std::string_view> seen;
  for (const Settable& settable : all_settables()) {
    EXPECT_TRUE(seen.insert(settable.path).second) << settable.path;
    EXPECT_EQ(settable_at(settable.path), &settable);
    EXPECT_FALSE(settable.meaning.empty()) << settable.path;
  }
}

TEST(Settable, DefaultsLieWithinTheirRanges) {
  const RigParameters defaults;
  for (const Settable& settable : all_settables()) {
    EXPECT_LT(settable.lowest, settable.highest) << settable.path;
    EXPECT_GE(settable.value_in(defaults), settable.lowest) << settable.path;
    EXPECT_LE(settable.value_in(defaults), settable.highest) << settable.path;
  }
}

// Every path is a place of its own: setting it changes its own value and no other path's.
TEST(Settable, EachPathSetsOneParameter) {
  const RigParameters defaults;
  for (const Settable& settable : all_settables()) {
    RigParameters changed = defaults;
    settable.in(changed) = settable.highest == settable.value_in(defaults) ? settable.lowest : settable.highest;
    for (const Settable& other : all_settables()) {
      const bool differs = other.value_in(changed) != other.value_in(defaults);
      EXPECT_EQ(differs, &other == &settable) << settable.path << " and " << other.path;
    }
  }
}

TEST(Settable, KnowsThePathsThatPeopleRelyOn) {
  for (const char* path :
       {"ambient_C", "battery.charge", "battery.rated_CCA_A", "battery.health", "joints.positive_clamp.added_ohm",
        "joints.relay_battery_stud.added_ohm", "joints.relay_motor_stud.added_ohm", "joints.starter_terminal.added_ohm",
        "joints.mounting_face.added_ohm", "joints.block_lug.added_ohm", "joints.negative_clamp.added_ohm",
        "joints.body_strap.added_ohm", "relay.contact_ohm", "cables.positive.AWG", "cables.positive.length_m",
        "cables.starter.AWG", "cables.starter.length_m", "cables.negative.AWG", "cables.negative.length_m"}) {
    EXPECT_NE(settable_at(path), nullptr) << path;
  }
}

TEST(Settable, FindsTheNearestPath) {
  EXPECT_EQ(settable_at("batery.charge"), nullptr);
  EXPECT_EQ(nearest_settable("batery.charge"), "battery.charge");
  EXPECT_EQ(nearest_settable("joints.positive_clamp.add_ohm"), "joints.positive_clamp.added_ohm");
  EXPECT_FALSE(nearest_settable("").empty());
}

TEST(Settable, TellsWhatContradicts) {
  EXPECT_EQ(contradiction_in({}), "");
  RigParameters parameters;
  parameters.relay.plunger_travel_m = 0.0015;
  EXPECT_EQ(contradiction_in(parameters),
            "relay.contact_touch_m is 0.0022 m; allowed: less than relay.plunger_travel_m, 0.0015 m");
  EXPECT_THROW(Rig{parameters}, std::invalid_argument);
}

}  // namespace
}  // namespace voltfall
