#include "rig/damage.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/cranks.h"
#include "support/tolerance.h"

namespace voltfall {
namespace {

std::ptrdiff_t told(const Harm& harm, RigEventKind kind) {
  return std::count(harm.begin(), harm.end(), kind);
}

TEST(Damage, LeavesWhatIsCoolAlone) {
  RigParameters parameters;
  const Harm harm = damage_after(parameters, PartTemperatures{90.0}, 10.0);
  EXPECT_EQ(harm.begin(), harm.end());
  EXPECT_EQ(parameters.starter.flux_fraction, 1.0);
  EXPECT_EQ(parameters.starter.brush_added_ohm, 0.0);
}

TEST(Damage, ShortsTurnsOfAWindingThatIsTooHotAndTellsItOnce) {
  RigParameters parameters;
  PartTemperatures hot{20.0};
  hot.drive_C = 300.0;
  EXPECT_EQ(told(damage_after(parameters, hot, 1.0), RigEventKind::winding_burnt), 1);
  EXPECT_LT(parameters.starter.flux_fraction, 1.0);
  EXPECT_EQ(told(damage_after(parameters, hot, 1.0), RigEventKind::winding_burnt), 0);
  for (int second = 0; second < 1000; ++second) damage_after(parameters, hot, 1.0);
  EXPECT_GE(parameters.starter.flux_fraction, 0.2);  // the documented range's end
}

TEST(Damage, OxidisesAHotBadJointAndNoCleanOne) {
  RigParameters parameters = vehicle_with({{"joints.starter_terminal.added_ohm", 0.01}});
  PartTemperatures hot{250.0};
  damage_after(parameters, hot, 10.0);
  EXPECT_GT(parameters.joints.starter_terminal.added_ohm, 0.01);
  EXPECT_EQ(parameters.joints.block_lug.added_ohm, 0.0);
}

// Holds the key at start until this is heard; false when it is not within so many seconds.
bool held_until(Rig& rig, RigEventKind kind, double within_s) {
  Controls controls;
  controls.key = KeyPosition::start;
  while (rig.readings().time_s < within_s) {
    rig.step(controls);
    for (const RigEvent& event : rig.take_events()) {
      if (event.kind == kind) return true;
    }
  }
  return false;
}

// A starter held on an engine that can't turn burns within a minute or two (common practice: release at once).
TEST(Damage, ComesFromHoldingTheKeyOnALockedEngine) {
  Rig rig(vehicle_with({{"engine.drag_added_Nm", 900.0}}));
  EXPECT_TRUE(held_until(rig, RigEventKind::winding_burnt, 120.0));
  EXPECT_GT(rig.readings().time_s, 2.0);
  rig.rest(3600.0);
  EXPECT_LT(rig.parameters().starter.flux_fraction, 1.0);  // cooled down, and still burnt
}

TEST(Damage, DoesNotComeFromFifteenSecondsOfCranking) {
  Rig rig({});
  Controls controls;
  controls.key = KeyPosition::start;
  for (int step = 0; step < 75000; ++step) rig.step(controls);
  EXPECT_EQ(rig.parameters().starter.flux_fraction, 1.0);
  EXPECT_EQ(rig.parameters().starter.brush_added_ohm, 0.0);
  EXPECT_GT(rig.readings().winding_C, 25.0);
}

// Design document section 1: with the negative cable off the block, strap, lead and control cables carry the starter's
// current. Common practice: a throttle cable glows and burns through.
TEST(StrayPath, BurnsThroughWhenItHasToCarryTheStarter) {
  RigParameters parameters = vehicle_with({{"joints.block_lug.added_ohm", 1.0e7},
                                           {"joints.body_strap.added_ohm", 1.0e7},
                                           {"body.lead_fitted", 1.0},
                                           {"body.parasitic_ohm", 0.5},
                                           {"body.parasitic_ampacity_A", 8.0}});
  Rig rig(parameters);
  EXPECT_TRUE(held_until(rig, RigEventKind::stray_path_burnt, 40.0));
  EXPECT_GE(rig.parameters().body.parasitic_ohm, 1.0e6);
}

// Low volts, chatter, weld (trade.md A9): on a key that is held for long the arcs' heat adds up in the contacts' faces,
// and the relay stays shut. It goes on with the key let go.
TEST(Chatter, WeldsTheRelayInTheEnd) {
  Rig rig(vehicle_with({{"joints.positive_clamp.added_ohm", 0.03}}));
  EXPECT_TRUE(held_until(rig, RigEventKind::relay_welded, 60.0));
  EXPECT_GT(rig.readings().time_s, 5.0);
  EXPECT_GT(rig.state().relay_wear.burnt_J, 100.0);
  Controls let_go;
  let_go.key = KeyPosition::on;
  for (int step = 0; step < 5000; ++step) rig.step(let_go);
  EXPECT_TRUE(rig.readings().relay_closed);
}

// A softer chatter, held for longer, burns the contacts to a figure that a meter shows.
TEST(Chatter, BurnsTheRelaysContacts) {
  const RigParameters parameters = vehicle_with({{"joints.positive_clamp.added_ohm", 0.05}});
  Rig rig(parameters);
  held_until(rig, RigEventKind::relay_welded, 45.0);
  EXPECT_GT(rig.parameters().relay.contact_ohm, parameters.relay.contact_ohm);
}

// As a technician would: the key let go within two seconds, over and over with a rest between.
TEST(Chatter, WeldsNothingInShortTries) {
  Rig rig(vehicle_with({{"joints.positive_clamp.added_ohm", 0.03}}));
  for (int attempt = 0; attempt < 5; ++attempt) {
    EXPECT_FALSE(held_until(rig, RigEventKind::relay_welded, rig.readings().time_s + 2.0));
    rig.rest(30.0);
  }
}

}  // namespace
}  // namespace voltfall
