#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "sim/sound_run.h"

// What captions say is to be heard, in each kind of crank.

namespace voltfall {
namespace {

using Kinds = std::set<SoundKind>;

const HeardSound* found(const std::vector<HeardSound>& heard, SoundKind kind) {
  const auto at = std::find_if(heard.begin(), heard.end(), [=](const HeardSound& one) { return one.kind == kind; });
  return at == heard.end() ? nullptr : &*at;
}

TEST(SoundsHeard, OfAHealthyCrank) {
  SoundRun run({});
  run.turn_key(KeyPosition::off, 0.2);
  EXPECT_TRUE(run.kinds.empty());
  run.turn_key(KeyPosition::start, 2.0);
  EXPECT_EQ(run.kinds, (Kinds{SoundKind::relay_snap, SoundKind::shoe_clunk, SoundKind::whirr, SoundKind::whine,
                              SoundKind::compression_beat}));
  EXPECT_EQ(run.maker.heard().front().kind, SoundKind::compression_beat);  // above all others
  run.kinds.clear();
  run.turn_key(KeyPosition::off, 0.5);
  EXPECT_TRUE(run.kinds.count(SoundKind::relay_release) == 1 && run.kinds.count(SoundKind::shoe_drop) == 1);
  run.turn_key(KeyPosition::off, 2.0);
  EXPECT_TRUE(run.maker.heard().empty());
}

TEST(SoundsHeard, OfABareMotor) {
  SoundRun run({}, {.kind = Load::free, .supply_V = 12.0});
  run.turn_key(KeyPosition::start, 1.5);
  EXPECT_EQ(run.kinds, (Kinds{SoundKind::shoe_clunk, SoundKind::whirr}));
}

TEST(SoundsHeard, OfAChatterTellsItsRate) {
  SoundRun run(vehicle_with({{"joints.positive_clamp.added_ohm", 0.05}}));
  run.turn_key(KeyPosition::start, 1.5);
  EXPECT_EQ(run.kinds, (Kinds{SoundKind::relay_snap, SoundKind::chatter}));
  const std::vector<HeardSound> heard = run.maker.heard();
  const HeardSound* chatter = found(heard, SoundKind::chatter);
  ASSERT_NE(chatter, nullptr);
  // Closings counted over a second may be one more or fewer than their rate.
  EXPECT_NEAR(chatter->per_s, run.told(RigEventKind::relay_closed, 0.5, 1.5), 1.0);
  run.turn_key(KeyPosition::off, 1.5);
  EXPECT_EQ(found(run.maker.heard(), SoundKind::chatter), nullptr);
}

TEST(SoundsHeard, OfASingleSnapIsNoChatter) {
  SoundRun run(vehicle_with({{"joints.mounting_face.added_ohm", 0.05}}));
  run.turn_key(KeyPosition::start, 1.5);
  EXPECT_EQ(run.kinds, (Kinds{SoundKind::relay_snap}));
}

TEST(SoundsHeard, OfALabouringEngine) {
  SoundRun run(vehicle_with({{"joints.starter_terminal.added_ohm", 0.022}, {"engine.drag_added_Nm", 20.0}}));
  run.turn_key(KeyPosition::start, 2.5);
  EXPECT_EQ(run.maker.heard().front().kind, SoundKind::labouring);
}

// Stopped dead by liquid in a cylinder it draws more than ever; but nothing labours where nothing turns.
TEST(SoundsHeard, OfAnEngineStoppedDead) {
  SoundRun run(vehicle_with({{"engine.liquid_cm3", 100.0}}));
  run.turn_key(KeyPosition::start, 3.0);
  ASSERT_GT(run.rig.readings().loop_A, 500.0);
  EXPECT_TRUE(run.maker.heard().empty());
}

TEST(SoundsHeard, OfAStarterThatRunsOn) {
  const SoundRun run = run_on(4.0);
  const std::vector<HeardSound> heard = run.maker.heard();
  EXPECT_NE(found(heard, SoundKind::run_on_howl), nullptr);
  EXPECT_NE(found(heard, SoundKind::engine_idle), nullptr);
  EXPECT_EQ(found(heard, SoundKind::compression_beat), nullptr);
  EXPECT_EQ(found(heard, SoundKind::whine), nullptr);
}

TEST(SoundsHeard, OfAnEngineThatRunsByItself) {
  SoundRun run({});
  run.controls.ignition_live = true;
  run.turn_key(KeyPosition::start, 1.5);
  run.turn_key(KeyPosition::on, 3.5);
  const std::vector<HeardSound> heard = run.maker.heard();
  ASSERT_EQ(heard.size(), 1U);
  EXPECT_EQ(heard.front().kind, SoundKind::engine_idle);
  EXPECT_EQ(run.kinds.count(SoundKind::grind), 0U);
}

TEST(SoundsHeard, OfAStarterThrownAgainstARunningEngine) {
  EXPECT_EQ(restart_of_a_running_engine().kinds.count(SoundKind::grind), 1U);
}

TEST(SoundsHeard, OfARingWithAGapKnocksOnceATurn) {
  SoundRun run(vehicle_with({{"drive.missing_teeth", 4.0}, {"drive.missing_at_deg", 135.0}}));
  run.turn_key(KeyPosition::start, 2.0);
  ASSERT_GT(run.told(RigEventKind::teeth_struck, 0.0, 2.0), 0);
  EXPECT_EQ(run.kinds.count(SoundKind::grind), 1U);
}

TEST(SoundsHeard, LeaveNoKindOut) {
  Kinds kinds = restart_of_a_running_engine().kinds;
  kinds.merge(Kinds(healthy_crank(1.0).kinds));
  for (const double added_ohm : {0.022, 0.05}) {
    const char* joint = added_ohm > 0.03 ? "joints.positive_clamp.added_ohm" : "joints.starter_terminal.added_ohm";
    SoundRun run(vehicle_with({{joint, added_ohm}, {"engine.drag_added_Nm", 20.0}}));
    run.turn_key(KeyPosition::start, 2.0);
    kinds.merge(run.kinds);
  }
  for (const SoundKind kind : all_sound_kinds) EXPECT_EQ(kinds.count(kind), 1U) << id_of(kind);
  EXPECT_EQ(kinds.size(), sound_kind_count);
}

// A knock is over within a few hundredths; a person needs longer to read of it, however slowly the model goes.
TEST(SoundsHeard, StandLongEnoughToBeRead) {
  for (const double speed : {1.0, 0.1}) {
    SoundRun run({});
    run.turn_key(KeyPosition::start, 0.04);  // the relay has just closed
    ASSERT_EQ(run.told(RigEventKind::relay_closed, 0.0, 0.04), 1);
    run.speed = speed;
    double stood_s = 0.0;
    for (; found(run.maker.heard(), SoundKind::relay_snap) != nullptr && stood_s < 5.0; stood_s += 0.01) run.play();
    EXPECT_NEAR(stood_s, SoundsHeard::stands_s, 0.011);  // the pieces of a hundredth in which it is played
  }
}

TEST(SoundKind, HasANameOfItsOwn) {
  std::set<std::string_view> names;
  for (const SoundKind kind : all_sound_kinds) names.insert(id_of(kind));
  EXPECT_EQ(names.size(), sound_kind_count);
}

}  // namespace
}  // namespace voltfall
