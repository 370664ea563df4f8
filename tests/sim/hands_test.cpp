#include <gtest/gtest.h>

#include <functional>

#include "faults/catalogue.h"
#include "job/touch.h"
#include "session/outcomes.h"
#include "session/session.h"
#include "sim/worked_job.h"

// Hands on the vehicle, the starter on the bench, and the learner's own list.

namespace voltfall {
namespace {

using test::Learner;

Learner healthy_with(const std::function<void(RigParameters&)>& change) {
  Scenario scenario = test::with_whole_kit(test::shipped("healthy_walk"));
  scenario.faults.clear();
  change(scenario.healthy);
  return Learner(std::move(scenario));
}

// A hidden change: `healthy` stays as it was, so that hands can tell.
Learner faulty_with(const std::string& fault, double severity) {
  Scenario scenario = test::with_whole_kit(test::shipped("healthy_walk"));
  scenario.faults = {HiddenFault{fault, severity}};
  return Learner(std::move(scenario));
}

std::string barred_in(Learner learner) {
  learner.act(BarEngine{});
  return learner.last().observation;
}

TEST(BarEngine, TellsAFreeEngineFromATightOneAndALockedOne) {
  const RigParameters healthy;
  RigParameters now;
  EXPECT_EQ(barred(now, healthy, {}), "bar_free");
  now.engine.drag_added_Nm = 60.0;
  EXPECT_EQ(barred(now, healthy, {}), "bar_hard");
  now.engine.drag_added_Nm = 800.0;
  EXPECT_EQ(barred(now, healthy, {}), "bar_locked");
  now.engine.drag_added_Nm = 0.0;
  now.engine.weak_cylinder = 1.0;
  EXPECT_EQ(barred(now, healthy, {}), "bar_one_soft");
}

TEST(BarEngine, ASeizedAccessoryLetsGoWithTheBeltOff) {
  const RigParameters healthy;
  RigParameters now;
  now.engine.accessory_drag_Nm = 500.0;
  EXPECT_EQ(barred(now, healthy, {}), "bar_locked");
  Controls belt_off;
  belt_off.belt_off = true;
  EXPECT_EQ(barred(now, healthy, belt_off), "bar_free");
}

TEST(BarEngine, LiquidStopsItSolidAndSpurtsOutOfAnOpenHole) {
  EXPECT_EQ(barred_in(healthy_with([](RigParameters& vehicle) { vehicle.engine.liquid_cm3 = 90.0; })),
            "bar_stops_solid");
  Learner open = healthy_with([](RigParameters& vehicle) { vehicle.engine.liquid_cm3 = 90.0; });
  open.act(TakePlugsOut{true});
  EXPECT_EQ(barred_in(std::move(open)), "bar_liquid_out");
}

TEST(BarEngine, LeavesTheEngineAtAnotherPlaceForItsMinutes) {
  Learner learner = healthy_with([](RigParameters&) {});
  const double before_rad = learner.session.rig().state().engine.crank_angle_rad;
  learner.act(BarEngine{});
  EXPECT_DOUBLE_EQ(learner.session.job_minutes(), 8.0);  // trade.md C: bar the engine, 8 min
  const double after_rad = learner.session.rig().state().engine.crank_angle_rad;
  EXPECT_NE(after_rad, before_rad);
  learner.make_safe();
  learner.crank(1.5);
  EXPECT_EQ(learner.session.last_crank()->state, CrankState::cranking);
  EXPECT_EQ(learner.session.findings().front().kind, Finding::Kind::felt);
}

TEST(Access, IsCountedOnceInAJob) {
  Learner learner = healthy_with([](RigParameters&) {});
  learner.act(TakeBeltOff{true});
  learner.act(TakePlugsOut{true});
  EXPECT_DOUBLE_EQ(learner.session.job_minutes(), 40.0);  // trade.md C: belt 10, plugs 30
  EXPECT_EQ(learner.act(CloseJob{}).id, outcome::not_put_together);
  learner.act(TakeBeltOff{false});
  learner.act(TakePlugsOut{false});
  learner.act(TakePlugsOut{true});
  learner.act(TakePlugsOut{false});
  EXPECT_DOUBLE_EQ(learner.session.job_minutes(), 40.0);
  EXPECT_TRUE(learner.act(CloseJob{}).done);
}

TEST(SparkPlugsOut, LetTheEngineSpinFaster) {
  const auto rpm = [](bool out) {
    Learner learner = healthy_with([](RigParameters&) {});
    learner.make_safe();
    if (out) learner.act(TakePlugsOut{true});
    learner.crank(2.0);
    return learner.session.last_crank()->crank_rpm;
  };
  EXPECT_GT(rpm(true), 1.1 * rpm(false));  // trade.md 0.3: 255 against 205 rpm
}

TEST(LiftedSWire, LeavesTheRelaySilent) {
  Learner learner = healthy_with([](RigParameters&) {});
  learner.make_safe();
  learner.act(LiftSWire{true});
  learner.crank(1.0);
  EXPECT_TRUE(observation_named("silence")->holds(*learner.session.last_crank()));
  learner.act(LiftSWire{false});
  learner.crank(1.5);
  EXPECT_EQ(learner.session.last_crank()->state, CrankState::cranking);
}

TEST(Wiggle, FindsAPushOnThatGivesAndNotACrustyClamp) {
  Learner loose = faulty_with("s_push_on_loose", 5.0);
  loose.act(DisturbPart{Touch::wiggle, "s_push_on"});
  EXPECT_EQ(loose.last().observation, "moves");
  loose.act(DisturbPart{Touch::press, "relay"});
  EXPECT_EQ(loose.last().observation, "firm");
  EXPECT_EQ(loose.act(DisturbPart{Touch::tap, "flux_pot"}).id, outcome::no_such_component);
}

TEST(Tap, FreesHungUpBrushesForOneCrankOnly) {
  Learner learner = faulty_with("brushes_hung_up", 1.0);
  learner.make_safe();
  const auto turns = [&] {
    learner.crank(1.5);
    return learner.session.last_crank()->crank_rpm > 60.0;
  };
  EXPECT_FALSE(turns());
  learner.act(DisturbPart{Touch::tap, "starter"});
  EXPECT_TRUE(turns());
  EXPECT_FALSE(turns());
}

TEST(Tap, DoesNotUndoARepair) {
  Learner learner = faulty_with("brushes_hung_up", 1.0);
  learner.make_safe();
  learner.act(DisturbPart{Touch::tap, "starter"});
  learner.name("brushes_hung_up", {});
  learner.repair_with_negative_off("renew_brushes");
  learner.crank(1.5);
  learner.crank(1.5);
  EXPECT_GT(learner.session.last_crank()->crank_rpm, 100.0);
}

TEST(Feel, BurnsAHandThatDidNotAskTheThermometer) {
  const auto hot = [] {
    Learner learner = healthy_with([](RigParameters& vehicle) { vehicle.joints.starter_terminal.added_ohm = 0.015; });
    learner.make_safe();
    learner.crank(12.0);
    return learner;
  };
  Learner rash = hot();
  ASSERT_GT(hand_temperature_C("starter_terminal", rash.session.rig().state().temperatures, 20.0), burns_from_C);
  EXPECT_EQ(rash.act(FeelPart{"starter_terminal"}).id, outcome::burnt_hand);
  EXPECT_EQ(rash.last().observation, "feels_hot");
  EXPECT_FALSE(rash.session.is_practice());
  Learner patient = hot();
  patient.act(PassTime{900.0});
  patient.act(AimThermometer{TestPoint::starter_terminal});
  EXPECT_TRUE(patient.act(FeelPart{"starter_terminal"}).id.empty());
  EXPECT_FALSE(patient.marked(outcome::burnt_hand));
  patient.session.act(TurnKey{KeyPosition::on});
  EXPECT_EQ(patient.act(FeelPart{"relay"}).id, outcome::key_not_off);
}

TEST(StarterOff, WantsTheNegativeOffFirst) {
  Learner learner = healthy_with([](RigParameters&) {});
  learner.act(WearEyeProtection{true});
  EXPECT_EQ(learner.act(TakeStarterOff{true}).id, outcome::spark_at_battery);
  EXPECT_TRUE(learner.session.is_practice());
}

TEST(StarterOff, OpensTheBenchAndCantCrank) {
  Learner learner = healthy_with([](RigParameters&) {});
  learner.make_safe();
  EXPECT_EQ(learner.act(TestOnBench{BenchTest::hold_in}).id, outcome::starter_is_on);
  learner.act(ConnectNegative{false});
  const double before = learner.session.job_minutes();
  learner.act(TakeStarterOff{true});
  EXPECT_DOUBLE_EQ(learner.session.job_minutes(), before + 50.0);
  learner.act(TestOnBench{BenchTest::no_load});
  EXPECT_EQ(learner.last().kind, Finding::Kind::bench);
  EXPECT_EQ(learner.last().observation, "no_load");
  EXPECT_TRUE(learner.last().around.starter_off);
  learner.act(TestOnBench{BenchTest::hold_in});
  EXPECT_DOUBLE_EQ(learner.session.job_minutes(), before + 63.0);  // the bench set up 10, each further test 3
  learner.act(ConnectNegative{true});
  EXPECT_EQ(learner.act(TurnKey{KeyPosition::start}).id, outcome::starter_is_off);
  learner.act(ConnectNegative{false});
  learner.act(TakeStarterOff{false});
  learner.act(ConnectNegative{true});
  learner.crank(1.5);
  EXPECT_EQ(learner.session.last_crank()->state, CrankState::cranking);
}

TEST(StarterOff, MakesARepairOnTheBenchCheaperByItsAccess) {
  Learner learner = faulty_with("brushes_worn", 0.02);
  learner.make_safe();
  learner.act(ConnectNegative{false});
  learner.act(TakeStarterOff{true});
  learner.name("brushes_worn", {});
  const double before = learner.session.job_minutes();
  learner.act(DoRepair{"renew_brushes"});
  EXPECT_DOUBLE_EQ(learner.session.job_minutes(), before + repair_named("renew_brushes")->minutes - 50.0);
}

TEST(Hydrolock, ASecondCrankAfterAThudIsACriticalAct) {
  Learner learner = healthy_with([](RigParameters& vehicle) { vehicle.engine.liquid_cm3 = 90.0; });
  learner.make_safe();
  learner.crank(1.5);
  ASSERT_EQ(learner.session.last_crank()->state, CrankState::stalled);
  EXPECT_FALSE(learner.session.is_practice());
  EXPECT_EQ(learner.session.act(TurnKey{KeyPosition::start}).id, outcome::cranked_hydrolocked);
}

TEST(Suspects, KeepWhenEachWasStruckAndTakenBack) {
  Learner learner = healthy_with([](RigParameters&) {});
  EXPECT_EQ(learner.act(StrikeSuspect{"no_such_thing", true}).id, outcome::no_such_fault);
  learner.act(StrikeSuspect{"battery_aged", true});
  learner.act(LookClosely{"positive_clamp"});
  learner.act(StrikeSuspect{"positive_clamp_corroded", true});
  learner.act(StrikeSuspect{"battery_aged", false});
  learner.act(StrikeSuspect{"battery_aged", false});  // no change, so no mark
  EXPECT_EQ(learner.session.struck_suspects(), std::set<std::string>{"positive_clamp_corroded"});
  ASSERT_EQ(learner.session.suspect_marks().size(), 3U);
  EXPECT_EQ(learner.session.suspect_marks()[1].findings_then, 1);
  EXPECT_DOUBLE_EQ(learner.session.suspect_marks()[1].job_minute, 1.0);
  EXPECT_FALSE(learner.session.suspect_marks()[2].struck);
}

}  // namespace
}  // namespace voltfall
