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

// A starter held on an engine that can't turn burns within a minute or two (common practice: release at once).
TEST(Damage, ComesFromHoldingTheKeyOnALockedEngine) {
  Rig rig(vehicle_with({{"engine.drag_added_Nm", 900.0}}));
  Controls controls;
  controls.key = KeyPosition::start;
  bool burnt = false;
  for (int step = 0; step < 600000 && !burnt; ++step) {
    rig.step(controls);
    for (const RigEvent& event : rig.take_events()) burnt = burnt || event.kind == RigEventKind::winding_burnt;
  }
  EXPECT_TRUE(burnt);
  EXPECT_GT(rig.readings().time_s, 2.0);
  controls.key = KeyPosition::off;
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
  Controls controls;
  controls.key = KeyPosition::start;
  bool burnt = false;
  for (int step = 0; step < 200000 && !burnt; ++step) {
    rig.step(controls);
    for (const RigEvent& event : rig.take_events()) burnt = burnt || event.kind == RigEventKind::stray_path_burnt;
  }
  EXPECT_TRUE(burnt);
  EXPECT_GE(rig.parameters().body.parasitic_ohm, 1.0e6);
}

// Chatter on a bad joint burns the relay's contacts, and in the end welds them (common practice; trade.md A9).
TEST(Chatter, BurnsTheRelaysContacts) {
  const RigParameters parameters = vehicle_with({{"joints.positive_clamp.added_ohm", 0.05}});
  Rig rig(parameters);
  Controls controls;
  controls.key = KeyPosition::start;
  for (int step = 0; step < 100000; ++step) rig.step(controls);
  EXPECT_GT(rig.energy().arc_heat_J, 10.0);
  const double burnt_J = rig.state().relay_wear.burnt_J;
  EXPECT_TRUE(burnt_J > 1.0 || rig.parameters().relay.contact_ohm > parameters.relay.contact_ohm);
}

}  // namespace
}  // namespace voltfall
