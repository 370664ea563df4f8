#include "session/record.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <set>
#include <sstream>

#include "scenario/read_scenario.h"
#include "session/action_json.h"
#include "sim/worked_job.h"
#include "support/rechained.h"

namespace voltfall {
namespace {

namespace fs = std::filesystem;
using test::Learner;

class RecordFile : public ::testing::Test {
 protected:
  RecordFile() {
    const auto* test = ::testing::UnitTest::GetInstance()->current_test_info();
    path = fs::path(::testing::TempDir()) / "voltfall_records" / (std::string(test->name()) + ".vfrec");
    fs::remove(path);
  }
  ~RecordFile() override { fs::remove(path); }

  std::string text() const {
    std::ifstream file(path);
    std::ostringstream all;
    all << file.rdbuf();
    return all.str();
  }

  fs::path path;
};

TEST_F(RecordFile, GivesTheSameScoreAndReadingsToTheLastDigit) {
  Learner learner("clicks_in_the_morning");
  ASSERT_FALSE(begin_record(path, 1, learner.session));
  const Score score = test::solve_corroded_clamp(learner);

  Replay played = replay(path, table_store().source());
  ASSERT_TRUE(played.session) << played.problems.front().text();
  EXPECT_TRUE(played.finished);
  EXPECT_EQ(played.attempt, 1);
  EXPECT_EQ(played.readings, 5);
  EXPECT_TRUE(played.differences.empty());
  EXPECT_EQ(played.session->score()->total, score.total);
  EXPECT_EQ(*played.recorded_total, score.total);
  ASSERT_EQ(played.session->findings().size(), learner.session.findings().size());
  for (std::size_t i = 0; i < score.lines.size(); ++i) {
    EXPECT_EQ(played.session->score()->lines[i].points, score.lines[i].points);
    EXPECT_EQ(played.session->score()->lines[i].reason, score.lines[i].reason);
  }
  played.session->run_for_s(10.0);  // as the learner's vehicle came to rest after the last action
  EXPECT_EQ(played.session->rig().readings().node_V, learner.session.rig().readings().node_V);
}

// A job in which every instrument, device and hand is used.
void work_with_the_whole_kit(Learner& learner) {
  using enum TestPoint;
  learner.make_safe();
  learner.act(StrikeSuspect{"battery_aged", true});
  for (int cell = 1; cell <= 6; ++cell) learner.act(DipHydrometer{cell});
  learner.act(TestConductance{});
  learner.act(HangDevice{{Device::load_tester, battery_positive_post, negative_post}});
  learner.session.act(TurnLoadTester{300.0});
  learner.session.run_for_s(5.0);
  learner.note(Kit::load_tester);
  learner.session.act(TurnLoadTester{0.0});
  learner.act(TakeDeviceOff{Device::load_tester});
  learner.act(HangDevice{{Device::test_lamp, fusible_link_out, body}});
  learner.note(Kit::test_lamp);
  learner.act(HangDevice{{Device::heavy_lead_1, block_lug, starter_case}});
  learner.act(HangDevice{{Device::booster_pack, battery_positive_post, engine_block}});
  learner.act(HangDevice{{Device::remote_switch, relay_battery_stud, s_terminal}});
  learner.act(PutRecorderChannel{1, {}, {}, HeavyCable::positive});
  learner.act(PutRecorderChannel{2, battery_positive_post, negative_post, {}});
  learner.act(ArmRecorder{40.0, true, 0.5});
  learner.act(PutClamp{HeavyCable::starter});
  learner.act(ZeroClamp{});
  learner.session.act(PressRemote{true});
  learner.session.run_for_s(1.4);
  learner.note(Kit::clamp_meter);
  learner.note(Kit::tachometer);
  learner.act(PressRemote{false});
  learner.note(Kit::recorder);
  learner.act(AimThermometer{positive_clamp});
  learner.note(Kit::thermometer);
  learner.act(FeelPart{"positive_clamp"});
  learner.act(HangDevice{{Device::fused_jumper, relay_battery_stud, relay_motor_stud}});
  learner.act(ReplaceFuse{Kit::fused_jumper});
  learner.act(SetMeterFunction{MeterFunction::continuity});
  learner.probe(s_terminal, relay_case);
  learner.note();
  learner.act(LiftSWire{true});
  learner.act(TakeBeltOff{true});
  learner.act(TakePlugsOut{true});
  learner.act(BarEngine{});
  learner.act(DisturbPart{Touch::tap, "starter"});
  learner.act(DisturbPart{Touch::wiggle, "positive_clamp"});
  learner.act(TakeDeviceOff{Device::booster_pack});
  learner.act(ConnectNegative{false});
  learner.act(TakeStarterOff{true});
  for (const BenchTest test :
       {BenchTest::no_load, BenchTest::hold_in, BenchTest::clutch_torque, BenchTest::brush_length}) {
    learner.act(TestOnBench{test});
  }
  learner.act(BridgeStuds{});  // harmless: the battery is off
}

TEST_F(RecordFile, OfAJobWithTheWholeKitReplaysToTheSameFindings) {
  // The kit is in the scenario's text, as a record is bound to it.
  std::string text_with_kit = test::shipped("clicks_in_the_morning").source_text;
  const std::size_t list = text_with_kit.find("instruments = [");
  ASSERT_NE(list, std::string::npos);
  std::string every_kit;
  for (const Kit kit : all_kit()) every_kit += (every_kit.empty() ? "\"" : ", \"") + std::string(id_of(kit)) + "\"";
  text_with_kit.replace(list, text_with_kit.find(']', list) - list + 1, "instruments = [" + every_kit + "]");
  const ReadScenario read = read_scenario_text(text_with_kit, "whole_kit.toml");
  ASSERT_TRUE(read.scenario) << read.problems.front().text();

  Learner learner(*read.scenario);
  ASSERT_FALSE(begin_record(path, 1, learner.session));
  work_with_the_whole_kit(learner);
  const auto& findings = learner.session.findings();
  EXPECT_GE(findings.size(), 20U);

  Replay played = replay(path, table_store().source());
  ASSERT_TRUE(played.session) << played.problems.front().text();
  EXPECT_TRUE(played.differences.empty());
  EXPECT_EQ(played.readings, static_cast<int>(findings.size()));
  ASSERT_EQ(played.session->findings().size(), findings.size());
  for (std::size_t i = 0; i < findings.size(); ++i) {
    const Finding& again = played.session->findings()[i];
    EXPECT_EQ(in_words(again), in_words(findings[i]));
    EXPECT_EQ(again.around, findings[i].around);
  }
  EXPECT_EQ(played.session->suspect_marks().size(), 1U);
  EXPECT_EQ(played.session->job_minutes(), learner.session.job_minutes());
  EXPECT_EQ(played.session->money_spent(), learner.session.money_spent());
  played.session->run_for_s(10.0);  // as the learner's vehicle came to rest after the last action
  EXPECT_EQ(played.session->rig().state().battery.charge, learner.session.rig().state().battery.charge);
}

TEST_F(RecordFile, IsWrittenAsThingsHappen) {
  Learner learner("healthy_walk");
  ASSERT_FALSE(begin_record(path, 2, learner.session));
  const std::string header = text();
  EXPECT_NE(header.find("\"attempt\":2"), std::string::npos);
  learner.act(SwitchHeadlamps{true});
  EXPECT_EQ(text().substr(header.size()).rfind("{\"v\":3,\"step\":0,\"act\":\"headlamps\",\"on\":true,\"n\":2,", 0),
            0U);
}

TEST_F(RecordFile, OfAnUnfinishedJobCanBeGoneOnWith) {
  {
    Learner first("clicks_in_the_morning");
    ASSERT_FALSE(begin_record(path, 1, first.session));
    first.make_safe();
    test::find_corroded_clamp(first);
  }
  Replay played = replay(path, table_store().source());
  ASSERT_TRUE(played.session);
  EXPECT_FALSE(played.finished);
  ASSERT_FALSE(resume_record(path, *played.session));
  Learner second("clicks_in_the_morning");
  second.session = std::move(*played.session);
  second.name("positive_clamp_corroded", {1, 2, 3, 4});
  second.repair_with_negative_off("clean_positive_clamp");
  second.crank_and_note(3.0);
  const Score score = second.close();
  EXPECT_TRUE(score.passed);

  const Replay whole = replay(path, table_store().source());
  ASSERT_TRUE(whole.session) << whole.problems.front().text();
  EXPECT_EQ(whole.session->score()->total, score.total);
  EXPECT_TRUE(whole.differences.empty());
}

TEST_F(RecordFile, IsNeverWrittenOver) {
  Learner first("healthy_walk");
  ASSERT_FALSE(begin_record(path, 1, first.session));
  Learner second("healthy_walk");
  const auto problem = begin_record(path, 1, second.session);
  ASSERT_TRUE(problem);
  EXPECT_NE(problem->text().find("never written over"), std::string::npos);
}

// What only a program that went wrong could write: the chain is whole, the line is not.
TEST_F(RecordFile, ALineThatCantBePlayedIsToldWithItsPlace) {
  Learner learner("healthy_walk");
  ASSERT_FALSE(begin_record(path, 1, learner.session));
  learner.act(SwitchHeadlamps{true});
  const std::string good = text();
  const auto problem_with = [&](const std::string& extra) {
    const Replay played = replay_text(test::rechained(good + extra), "some.vfrec", table_store().source());
    EXPECT_FALSE(played.session);
    EXPECT_TRUE(played.whole_chain);
    return played.problems.empty() ? std::string() : played.problems.front().text();
  };
  EXPECT_EQ(problem_with("{\"v\":3,\"step\":99}\n").rfind("some.vfrec:3:", 0), 0U);
  EXPECT_NE(problem_with("{\"v\":3,\"step\":99,\"act\":\"headlamp\",\"on\":true}\n").find("nearest: `headlamps`"),
            std::string::npos);
  EXPECT_NE(problem_with("{\"v\":3,\"step\":99,\"act\":\"turn_key\",\"to\":\"of\"}\n").find("nearest: `off`"),
            std::string::npos);
  EXPECT_NE(problem_with("{\"v\":1,\"step\":99,\"act\":\"close_job\"}\n").find("format 1 is not known"),
            std::string::npos);
  EXPECT_NE(problem_with("{\"v\":3,\"step\":90000000000,\"act\":\"close_job\"}\n").find("can't follow"),
            std::string::npos);
  EXPECT_NE(problem_with("{\"v\":3,\"step\":900000,\"act\":\"close_job\"}\n").find("comes to rest"), std::string::npos);
}

TEST_F(RecordFile, AReadingStandsAsDisplayedWhenItsReplayIsTwoCountsAway) {
  Learner learner("healthy_walk");
  ASSERT_FALSE(begin_record(path, 1, learner.session));
  learner.probe(TestPoint::battery_positive_post, TestPoint::negative_post);
  learner.note();
  const MeterDisplay shown = learner.session.findings().front().shown;
  const auto played_with = [&](int counts) {
    MeterDisplay other = shown;
    other.value += counts * std::pow(10.0, -shown.decimals);
    std::string changed = text();
    changed.replace(changed.rfind(shown.text_with_unit()), shown.text_with_unit().size(), other.text_with_unit());
    Replay played = replay_text(test::rechained(changed), "some.vfrec", table_store().source());
    EXPECT_TRUE(played.session);
    EXPECT_EQ(played.session->findings().front().shown.text_with_unit(), other.text_with_unit());
    return played.differences;
  };
  EXPECT_TRUE(played_with(0).empty());
  EXPECT_TRUE(played_with(2).empty());
  ASSERT_EQ(played_with(3).size(), 1U);
  EXPECT_NE(played_with(-300).front().find("replayed " + shown.text_with_unit()), std::string::npos);
}

TEST_F(RecordFile, AJobInItThatIsNotItsOwnIsRefused) {
  Learner learner("healthy_walk");
  ASSERT_FALSE(begin_record(path, 1, learner.session));
  std::string changed = text();
  changed.replace(changed.find("[job]"), 5, "[job] ");
  const Replay played = replay_text(test::rechained(changed), "some.vfrec", table_store().source());
  ASSERT_FALSE(played.problems.empty());
  EXPECT_NE(played.problems.front().text().find("foreign"), std::string::npos);
}

TEST_F(RecordFile, NotesThatItWasGoneOnWithAndFromWhere) {
  std::optional<ChainPlace> ledger;
  const LineWritten keep = [&](const ChainPlace& place) { ledger = place; };
  Learner learner("healthy_walk");
  ASSERT_FALSE(begin_record(path, 1, learner.session, keep));
  learner.act(SwitchHeadlamps{true});
  const std::string early = text();
  const auto go_on = [&](const std::optional<ChainPlace>& known) {
    Replay played = replay(path, table_store().source());
    ASSERT_TRUE(played.session);
    ASSERT_FALSE(resume_record(path, *played.session, known, keep));
    played.session->act(WearEyeProtection{true});
  };
  go_on(ledger);
  Replay honest = replay(path, table_store().source());
  EXPECT_TRUE(honest.session && honest.session->eye_protection_on());
  EXPECT_TRUE(honest.taken_back.empty());
  EXPECT_EQ(honest.resumed_unseen, 0);

  go_on(std::nullopt);
  EXPECT_EQ(replay(path, table_store().source()).resumed_unseen, 1);

  std::ofstream(path, std::ios::binary) << early;
  go_on(ledger);
  const Replay rewound = replay(path, table_store().source());
  ASSERT_EQ(rewound.taken_back.size(), 1U);
  EXPECT_NE(rewound.taken_back.front().find("from line 2, after line 6"), std::string::npos) << rewound.taken_back[0];
}

TEST(ActionJson, EveryActionComesBackAsItWent) {
  const std::vector<Action> actions{TurnKey{KeyPosition::start},
                                    SwitchHeadlamps{true},
                                    ShiftGear{Gear::neutral},
                                    SetBrake{true},
                                    DisableIgnition{true},
                                    WearEyeProtection{true},
                                    ConnectNegative{false},
                                    PutProbe{false, TestPoint::relay_case},
                                    PutProbe{true, std::nullopt},
                                    PutClamp{HeavyCable::negative},
                                    PutClamp{std::nullopt},
                                    ZeroClamp{},
                                    SetMeterFunction{MeterFunction::ohms},
                                    SetMeterHold{MeterHold::highest},
                                    NoteReading{Kit::clamp_meter},
                                    NoteObservation{"chatter"},
                                    LookClosely{"relay"},
                                    NameFault{{"battery_aged", "block_lug_rusted"}, {1, 3}},
                                    DoRepair{"renew_battery"},
                                    PassTime{120.5},
                                    CloseJob{},
                                    MoveClutchPedal{true},
                                    LiftSWire{true},
                                    TakeBeltOff{true},
                                    TakePlugsOut{true},
                                    BarEngine{},
                                    DisturbPart{Touch::tap, "starter"},
                                    FeelPart{"relay"},
                                    HangDevice{{Device::heavy_lead_2, TestPoint::engine_block, TestPoint::body}},
                                    TakeDeviceOff{Device::booster_pack},
                                    PressRemote{true},
                                    TurnLoadTester{310.0},
                                    BridgeStuds{},
                                    DipHydrometer{4},
                                    TestConductance{},
                                    AimThermometer{TestPoint::starter_case},
                                    AimThermometer{std::nullopt},
                                    PutRecorderChannel{1, TestPoint::starter_terminal, TestPoint::starter_case, {}},
                                    PutRecorderChannel{2, {}, {}, HeavyCable::positive},
                                    ArmRecorder{9.5, false, 2.5},
                                    TakeStarterOff{true},
                                    TestOnBench{BenchTest::clutch_torque},
                                    StrikeSuspect{"battery_aged", true},
                                    ReplaceFuse{Kit::fused_jumper}};
  std::set<std::size_t> kinds;
  for (const Action& action : actions) kinds.insert(action.index());
  EXPECT_EQ(kinds.size(), std::variant_size_v<Action>);  // every kind there is
  for (const Action& action : actions) {
    const std::string once = json_of(action).dump();
    EXPECT_EQ(json_of(action_in(nlohmann::json::parse(once))).dump(), once);
  }
}

}  // namespace
}  // namespace voltfall
