#include "session/session.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <vector>

#include "session/outcomes.h"
#include "sim/worked_job.h"

namespace voltfall {
namespace {

using test::Learner;

std::vector<std::string> mark_ids(const Session& session) {
  std::vector<std::string> ids;
  for (const SafetyMark& mark : session.log().marks()) ids.push_back(mark.id);
  return ids;
}

bool marked(const Session& session, std::string_view id) {
  const auto ids = mark_ids(session);
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

TEST(SessionTime, StandsStillWhenTheVehicleIsAtRestAndWakesOnAnAction) {
  Session session(test::shipped("healthy_walk"));
  const int settling = session.run_steps(1'000'000);
  EXPECT_NEAR(settling * Session::step_s, 1.5, 0.01);  // settling time, to the step it runs out in
  EXPECT_EQ(session.run_steps(1000), 0);
  session.act(SwitchHeadlamps{true});
  EXPECT_EQ(session.run_steps(1000), 1000);
}

TEST(SessionTime, GoesOnAsLongAsTheKeyIsHeld) {
  Session session(test::shipped("healthy_walk"));
  session.act(TurnKey{KeyPosition::start});
  EXPECT_NEAR(session.run_for_s(4.0) * Session::step_s, 4.0, Session::step_s);
  session.act(TurnKey{KeyPosition::off});
  const double run_down_s = session.run_for_s(60.0) * Session::step_s;
  EXPECT_GE(run_down_s, 1.5);
  EXPECT_LT(run_down_s, 20.0);
  EXPECT_EQ(session.run_steps(1), 0);
}

TEST(SessionTime, HoweverTheStepsArePortionedTheBitsAreTheSame) {
  const auto run = [](int portion) {
    Session session(test::shipped("clicks_in_the_morning"));
    session.act(PutProbe{true, TestPoint::battery_positive_post});
    session.act(PutProbe{false, TestPoint::positive_clamp});
    session.act(TurnKey{KeyPosition::start});
    for (int done = 0; done < 12000; done += portion) session.run_steps(portion);
    return session.rig().readings().node_V;
  };
  EXPECT_EQ(run(12000), run(24));
  EXPECT_EQ(run(12000), run(1));
}

TEST(SessionHearing, ACorrodedClampChattersWithItsLampsDimOrOut) {
  Learner learner("clicks_in_the_morning");
  learner.act(SwitchHeadlamps{true});
  learner.crank(1.5);
  const CrankSeen& seen = *learner.session.last_crank();
  EXPECT_EQ(seen.state, CrankState::chattering);
  EXPECT_LT(seen.lamp_V, 8.0);  // design words: dim below 8 V
  EXPECT_EQ(learner.session.crank_state(), CrankState::at_rest);
}

TEST(SessionHearing, AHealthyEngineCranksWithItsLampsBright) {
  Learner learner("healthy_walk");
  learner.act(DisableIgnition{true});
  learner.act(SwitchHeadlamps{true});
  learner.crank(2.0);
  EXPECT_EQ(learner.session.last_crank()->state, CrankState::cranking);
  EXPECT_EQ(lamp_look_at(learner.session.last_crank()->lamp_V), LampLook::bright);
  EXPECT_EQ(learner.session.last_crank()->relay_closings, 1);
}

TEST(SessionHearing, AHealthyEngineStartsWithItsIgnitionLive) {
  Learner learner("healthy_walk");
  learner.act(TurnKey{KeyPosition::start});
  learner.session.run_for_s(2.5);
  learner.act(TurnKey{KeyPosition::on});
  learner.session.run_for_s(1.0);
  const CrankSeen& seen = *learner.session.last_crank();
  EXPECT_TRUE(seen.engine_started);
  EXPECT_EQ(seen.state, CrankState::running);
  EXPECT_EQ(learner.session.crank_state(), CrankState::running);  // and goes on with the key back at on
  EXPECT_TRUE(observation_named("normal_crank")->holds(seen));
  learner.act(TurnKey{KeyPosition::off});
  learner.session.run_for_s(20.0);
  EXPECT_EQ(learner.session.crank_state(), CrankState::at_rest);
}

TEST(SessionHearing, APittedRelayClicksOnceWithItsLampsBright) {
  Learner learner("one_click_lamps_bright");
  learner.act(SwitchHeadlamps{true});
  learner.crank(1.5);
  EXPECT_EQ(lamp_look_at(learner.session.last_crank()->lamp_V), LampLook::bright);
  EXPECT_TRUE(observation_named("one_click")->holds(*learner.session.last_crank()));
  EXPECT_FALSE(observation_named("chatter")->holds(*learner.session.last_crank()));
}

TEST(SessionNotes, AReadingBelongsToTheStateItsWholeWindowWasTakenIn) {
  Learner learner("healthy_walk");
  learner.make_safe();
  learner.probe(TestPoint::battery_positive_post, TestPoint::negative_post);
  // The display was last renewed 1.333 s after the probe was put down and settling ended at 1.5 s. So the key falls
  // in the middle of a window: the old figure stands for 0.167 s more, then for 0.333 s a mixed one.
  learner.session.act(TurnKey{KeyPosition::start});
  learner.session.run_for_s(0.1);
  learner.note();
  EXPECT_EQ(learner.session.findings().back().state, ElectricalState::at_rest);
  EXPECT_LT(learner.session.findings().back().loop_A, 1.0);
  learner.session.run_for_s(0.2);
  EXPECT_FALSE(learner.session.meter_can_be_noted());
  EXPECT_EQ(learner.session.act(NoteReading{}).id, outcome::reading_unsteady);
  learner.session.run_for_s(0.6);
  learner.note();
  EXPECT_EQ(learner.session.findings().back().state, ElectricalState::cranking);
  EXPECT_GT(learner.session.findings().back().loop_A, 100.0);
}

TEST(SessionNotes, AHeldExtremeKnowsTheStateItCameFrom) {
  Learner learner("healthy_walk");
  learner.make_safe();
  learner.probe(TestPoint::battery_positive_post, TestPoint::negative_post);
  learner.act(SetMeterHold{MeterHold::lowest});
  learner.crank(1.5);
  EXPECT_EQ(learner.session.held_from(), ElectricalState::cranking);
  learner.note();
  const Finding& finding = learner.session.findings().front();
  EXPECT_EQ(finding.state, ElectricalState::cranking);
  EXPECT_EQ(finding.hold, MeterHold::lowest);
  EXPECT_LT(finding.shown.base_value(), 11.0);
  EXPECT_GT(finding.loop_A, 300.0);  // the first surge, 400 to 650 A as a 50 ms mean
}

TEST(SessionNotes, NothingIsNotedFromAnEmptyDisplayOrAMeterNotInTheKit) {
  Session session(test::shipped("healthy_walk"));
  EXPECT_EQ(session.act(NoteReading{}).id, outcome::nothing_on_display);
  Scenario no_clamp = test::shipped("healthy_walk");
  no_clamp.kit = {Kit::multimeter};
  Session bare(no_clamp);
  EXPECT_EQ(bare.act(PutClamp{HeavyCable::starter}).id, outcome::not_in_kit);
}

TEST(SessionNotes, AnObservationIsHeldAgainstWhatReallyHappened) {
  Learner learner("clicks_in_the_morning");
  EXPECT_EQ(learner.act(NoteObservation{"chatter"}).id, outcome::no_crank_yet);
  learner.crank(1.5);
  learner.note_heard("chatter");
  learner.note_heard("normal_crank");
  EXPECT_TRUE(learner.session.findings()[0].observation_true);
  EXPECT_FALSE(learner.session.findings()[1].observation_true);
}

TEST(SessionNotes, ACloseLookShowsWhatLifeWouldShow) {
  Learner clamp("clicks_in_the_morning");
  EXPECT_EQ(clamp.act(LookClosely{"positive_clamp"}).id, "crust");
  EXPECT_EQ(clamp.act(LookClosely{"negative_clamp"}).id, "clean");
  EXPECT_EQ(clamp.act(LookClosely{"flux_pot"}).id, outcome::no_such_component);
  Learner relay("one_click_lamps_bright");
  EXPECT_EQ(relay.act(LookClosely{"relay"}).id, "clean");  // pitted contacts are inside
  EXPECT_DOUBLE_EQ(clamp.session.job_minutes(), 2.0 * job_minutes::look);
}

TEST(SessionOhms, TheRelayCoilReadsFourOhmsWithTheBatteryOff) {
  Learner learner("healthy_walk");
  learner.act(WearEyeProtection{true});
  learner.act(ConnectNegative{false});
  learner.act(SetMeterFunction{MeterFunction::ohms});
  learner.probe(TestPoint::s_terminal, TestPoint::relay_case);
  // 4 ohm at 20 °C is the coil's own figure; the shed's few degrees are 0.4 % each, other ways round are open.
  EXPECT_NEAR(learner.session.meter().display().base_value(), 4.0, 0.2);
}

TEST(SessionSafety, CrankingWithNothingMadeSafeIsMarkedOnceForEachStep) {
  Learner learner("healthy_walk");
  learner.crank(1.0);
  learner.crank(1.0);
  const std::vector<std::string> wanted{"cranked_ignition_live", "cranked_brake_off", "no_eye_protection"};
  EXPECT_EQ(mark_ids(learner.session), wanted);
}

TEST(SessionSafety, ASafeStateThatIsUndoneIsLost) {
  Learner learner("healthy_walk");
  learner.make_safe();
  learner.crank(1.0);
  EXPECT_TRUE(mark_ids(learner.session).empty());
  learner.act(DisableIgnition{false});
  learner.crank(1.0);
  EXPECT_TRUE(marked(learner.session, outcome::cranked_ignition_live));
}

TEST(SessionSafety, HoldingAStalledStarterOverTwoSecondsIsMarkedAndASilentOneIsNot) {
  Learner stalled("one_click_lamps_bright");
  stalled.make_safe();
  stalled.crank(1.8);
  EXPECT_FALSE(marked(stalled.session, outcome::held_while_stalled));
  stalled.crank(2.5);
  EXPECT_TRUE(marked(stalled.session, outcome::held_while_stalled));
  Learner silent("no_click_with_the_lamps_on");
  silent.make_safe();
  silent.act(SwitchHeadlamps{true});
  silent.crank(4.0);
  EXPECT_FALSE(marked(silent.session, outcome::held_while_stalled));
}

TEST(SessionSafety, CrankingOverFifteenSecondsAndAgainWithoutRestIsMarked) {
  Learner learner("healthy_walk");
  learner.make_safe();
  learner.crank(15.5);
  EXPECT_TRUE(marked(learner.session, outcome::cranked_too_long));
  learner.crank(1.0);
  EXPECT_TRUE(marked(learner.session, outcome::no_rest_after_long_crank));
}

TEST(SessionSafety, TwoMinutesOfRestAfterALongCrankAreEnough) {
  Learner learner("healthy_walk");
  learner.make_safe();
  learner.crank(12.0);
  learner.act(PassTime{120.0});
  learner.crank(1.0);
  EXPECT_TRUE(mark_ids(learner.session).empty());
}

TEST(SessionCloseOut, TheNameComesBeforeTheFirstRepair) {
  Learner learner("clicks_in_the_morning");
  EXPECT_EQ(learner.act(DoRepair{"clean_positive_clamp"}).id, outcome::name_first);
  EXPECT_DOUBLE_EQ(learner.session.money_spent(), 0.0);
  EXPECT_EQ(learner.act(NameFault{{"positive_clamp_corroded"}, {1}}).id, outcome::no_such_finding);
  EXPECT_EQ(learner.act(NameFault{{"nothing_found", "battery_aged"}, {}}).id, outcome::nothing_found_stands_alone);
  EXPECT_EQ(learner.act(NameFault{{"positive_clamp_corroded"}, {}}).id, outcome::named);
  EXPECT_EQ(learner.act(NameFault{{"battery_aged"}, {}}).id, outcome::named_again);
}

TEST(SessionCloseOut, AWrenchOnAPowerJointWithTheNegativeOnIsASparkAtTheBattery) {
  Learner learner("clicks_in_the_morning");
  learner.make_safe();
  learner.name("positive_clamp_corroded", {});
  EXPECT_EQ(learner.act(DoRepair{"clean_positive_clamp"}).id, outcome::spark_at_battery);
  EXPECT_TRUE(learner.session.is_practice());
  EXPECT_EQ(learner.session.repairs_done().size(), 1U);  // the learner may go on, as practice
}

TEST(SessionCloseOut, ARepairPutsThePartRightAndCostsItsMinutes) {
  Learner learner("clicks_in_the_morning");
  learner.make_safe();
  learner.name("positive_clamp_corroded", {});
  const double before = learner.session.job_minutes();
  learner.act(ConnectNegative{false});
  learner.act(DoRepair{"clean_positive_clamp"});
  EXPECT_DOUBLE_EQ(learner.session.rig().parameters().joints.positive_clamp.added_ohm, 0.0);
  EXPECT_DOUBLE_EQ(learner.session.job_minutes(), before + job_minutes::negative_clamp + 15.0);  // catalogue: 15 min
  EXPECT_EQ(learner.act(CloseJob{}).id, outcome::negative_still_off);
}

TEST(SessionCloseOut, AClosedJobTakesNoMoreActions) {
  Learner learner("healthy_walk");
  learner.close();
  EXPECT_EQ(learner.act(SwitchHeadlamps{true}).id, outcome::job_is_closed);
  EXPECT_FALSE(learner.session.controls().headlamps);
}

TEST(SessionMinutes, AreThoseOfThePublishedTable) {
  Learner learner("healthy_walk");
  learner.probe(TestPoint::battery_positive_post, TestPoint::negative_post);
  learner.note();            // 1: at rest, new pair
  learner.crank_and_note();  // 3 + 1.5: first crank, new state
  learner.crank_and_note();  // 1 + 0.5: later crank, repeated reading
  learner.probe(TestPoint::ignition_feed, TestPoint::negative_post);
  learner.note();  // 1 + 12: behind the dash, once
  EXPECT_DOUBLE_EQ(learner.session.job_minutes(), 1.0 + 4.5 + 1.5 + 13.0);
}

}  // namespace
}  // namespace voltfall
