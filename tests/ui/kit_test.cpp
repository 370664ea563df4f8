#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "desktop/bay/bay_screen.h"
#include "desktop/bay/entry.h"
#include "desktop/kit/kit_parts.h"
#include "desktop/kit/recorder_traces.h"
#include "desktop/layout.h"
#include "desktop/rail/rail.h"
#include "desktop/rail/rail_text.h"
#include "scenario/read_scenario.h"
#include "support/headless_sheet.h"
#include "support/headless_window.h"

namespace voltfall {
namespace {

using sf::Keyboard;

/// A shipped job with every instrument allowed.
Scenario with_whole_kit(const std::string& name) {
  ReadScenario read = read_scenario(std::filesystem::path(VOLTFALL_SOURCE_DIR) / "scenarios" / (name + ".toml"));
  EXPECT_TRUE(read.scenario) << name;
  Scenario scenario = *read.scenario;
  scenario.kit.assign(all_kit().begin(), all_kit().end());
  return scenario;
}

struct Bench {
  Session session{with_whole_kit("healthy_walk")};
  BayState state;
  Wishes wishes;
  Layout zones = layout_of(1280, 720);
  HeadlessSheet sheet{state.hands, [this] { draw_rail(session, english(), state, wishes, zones.rail); }};

  template <class Wanted>
  const Wanted* only_wish() const {
    return wishes.actions.size() == 1 ? std::get_if<Wanted>(&wishes.actions.front()) : nullptr;
  }
};

class KitOnTheSheet : public testing::Test {
 protected:
  HeadlessWindow window;
  BayScreen bay{std::make_unique<Session>(with_whole_kit("healthy_walk")), english(),
                [] { return std::unique_ptr<Screen>(); }};
  void SetUp() override {
    ASSERT_EQ(window.missing_font(), "");
    window.frames(bay, 2);
  }
  const Session& session() const { return bay.session(); }
  void enter(std::string_view words) {
    window.type(bay, words);
    window.press(bay, Keyboard::Enter);
  }
};

TEST(KitTab, EveryFaceFitsTheRailWithNoTextCut) {
  Bench bench;
  bench.session.act(TakeStarterOff{true});
  for (const Kit kit : all_kit()) {
    bench.state.in_hand = kit;
    bench.state.tab = RailTab::kit;
    bench.sheet.frame();
    shortened_texts().clear();
    bench.sheet.frame();
    EXPECT_EQ(shortened_texts(), std::vector<std::string>{}) << id_of(kit);
    EXPECT_EQ(bench.sheet.corners_outside(bench.zones.rail), 0) << id_of(kit);
  }
}

TEST(KitTab, TakesUpEveryInstrumentByMouseAndByKeyboard) {
  for (const Kit kit : {Kit::load_tester, Kit::conductance_tester}) {
    Bench bench;
    bench.state.tab = RailTab::kit;
    bench.sheet.frame();
    const std::string id = "kit/" + std::string(id_of(kit));
    ASSERT_TRUE(bench.sheet.click_on(id, bench.zones.rail)) << id;
    EXPECT_EQ(bench.state.in_hand, kit);
  }
  for (const Kit kit : all_kit()) {
    if (kit == Kit::multimeter) continue;
    Bench bench;
    bench.state.tab = RailTab::kit;
    bench.sheet.frame();
    ASSERT_TRUE(bench.sheet.enter_on("kit/" + std::string(id_of(kit))));
    EXPECT_EQ(bench.state.in_hand, kit);
  }
}

TEST(KitTab, HandsAskForWhatTheirRowsSay) {
  Bench bench;
  bench.state.tab = RailTab::kit;
  ASSERT_TRUE(bench.sheet.enter_on("hand/s_wire"));
  ASSERT_NE(bench.only_wish<LiftSWire>(), nullptr);
  EXPECT_TRUE(bench.only_wish<LiftSWire>()->lifted);
  bench.wishes.actions.clear();
  ASSERT_TRUE(bench.sheet.enter_on("hand/bar"));
  EXPECT_NE(bench.only_wish<BarEngine>(), nullptr);
}

TEST(KitTab, OffersBenchTestsOnlyWhileTheStarterIsOff) {
  Bench bench;
  bench.state.tab = RailTab::kit;
  bench.sheet.frame();
  EXPECT_FALSE(bench.sheet.tab_to("bench/no_load"));
  bench.session.act(WearEyeProtection{true});
  bench.session.act(ConnectNegative{false});
  ASSERT_TRUE(bench.session.act(TakeStarterOff{true}).done);
  ASSERT_TRUE(bench.sheet.enter_on("bench/hold_in"));
  ASSERT_NE(bench.only_wish<TestOnBench>(), nullptr);
  EXPECT_EQ(bench.only_wish<TestOnBench>()->test, BenchTest::hold_in);
}

TEST(KitTab, WigglesThePartThatIsChosen) {
  Bench bench;
  bench.state.tab = RailTab::findings;
  bench.state.noting = Noting::look;
  ASSERT_TRUE(bench.sheet.enter_on("handle/1"));
  ASSERT_TRUE(bench.sheet.enter_on("look/s_push_on"));
  const auto* disturbed = bench.only_wish<DisturbPart>();
  ASSERT_NE(disturbed, nullptr);
  EXPECT_EQ(disturbed->how, Touch::wiggle);
  EXPECT_EQ(disturbed->component, "s_push_on");
}

TEST(KitFaces, TurnTheLoadTesterInSteps) {
  Bench bench;
  bench.state.in_hand = Kit::load_tester;
  bench.session.act(WearEyeProtection{true});
  ASSERT_TRUE(
      bench.session.act(HangDevice{{Device::load_tester, TestPoint::battery_positive_post, TestPoint::negative_post}})
          .done);
  ASSERT_TRUE(bench.sheet.enter_on("pile/step/3"));
  ASSERT_NE(bench.only_wish<TurnLoadTester>(), nullptr);
  EXPECT_DOUBLE_EQ(bench.only_wish<TurnLoadTester>()->amps, 50.0);
}

TEST_F(KitOnTheSheet, HangsTheTestLampByNumbersAndTakesItOffByItsKey) {
  bay.state().in_hand = Kit::test_lamp;
  window.press(bay, Keyboard::D);
  enter("4");
  EXPECT_EQ(bay.state().first_point, TestPoint::relay_battery_stud);
  enter("21");
  ASSERT_EQ(session().hung().size(), 1U);
  EXPECT_EQ(session().hung().front(), (Hung{Device::test_lamp, TestPoint::relay_battery_stud, TestPoint::body}));
  EXPECT_FALSE(aiming_kit(bay.state()));
  window.frames(bay, 60);
  EXPECT_GT(session().test_lamp_light(), 0.5);
}

TEST_F(KitOnTheSheet, HangsByTwoClicksOnThePicture) {
  const Projection projection(layout_of(1280, 720).picture.inset(1));
  bay.state().in_hand = Kit::fused_jumper;
  window.press(bay, Keyboard::D);
  for (const TestPoint point : {TestPoint::relay_battery_stud, TestPoint::s_terminal}) {
    window.move_mouse(bay, projection.to_screen(place_of(point).disc));
    window.mouse_button(bay, true);
    window.mouse_button(bay, false);
  }
  ASSERT_EQ(session().hung().size(), 1U);
  EXPECT_EQ(session().hung().front().last, TestPoint::s_terminal);
  // The click that landed its end picked up no lead of the meter.
  EXPECT_EQ(bay.state().dragged, Pick::nothing);
}

TEST_F(KitOnTheSheet, HoldsTheRemoteSwitchWhileUIsDownAndNoLonger) {
  bay.state().in_hand = Kit::remote_switch;
  window.press(bay, Keyboard::D);
  enter("4");
  enter("19");
  window.hold(Keyboard::U, true);
  window.frames(bay, 3);
  EXPECT_TRUE(session().remote_pressed());
  window.hold(Keyboard::U, false);
  window.frames(bay, 2);
  EXPECT_FALSE(session().remote_pressed());
}

TEST_F(KitOnTheSheet, LosingTheWindowsFocusLetsGoOfSwitchAndPile) {
  bay.state().in_hand = Kit::load_tester;
  window.press(bay, Keyboard::D);
  enter("1");
  enter("13");
  bay.state().hands.focus_on("pile/step/3");
  window.press(bay, Keyboard::Enter);
  ASSERT_DOUBLE_EQ(session().load_tester_A(), 50.0);
  bay.let_go();
  EXPECT_DOUBLE_EQ(session().load_tester_A(), 0.0);
}

TEST_F(KitOnTheSheet, EscapeLeavesTheHangingHalfWay) {
  bay.state().in_hand = Kit::test_lamp;
  window.press(bay, Keyboard::D);
  enter("4");
  window.press(bay, Keyboard::Escape);
  EXPECT_FALSE(bay.state().first_point);
  EXPECT_TRUE(session().hung().empty());
}

TEST_F(KitOnTheSheet, RecordsACrankAndReadsItBetweenCursors) {
  bay.state().in_hand = Kit::recorder;
  bay.state().recorder_open = true;
  window.press(bay, Keyboard::D);
  enter("1");
  enter("13");
  bay.state().recorder.level = 12.0;
  bay.state().hands.focus_on("recorder/arm");
  window.press(bay, Keyboard::Enter);
  EXPECT_EQ(session().recorder().state(), Recorder::State::armed);
  window.press(bay, Keyboard::Num1);
  window.frames(bay, 160);
  ASSERT_TRUE(session().recorder().capture());
  const Capture& capture = *session().recorder().capture();
  // A tenth of the span was kept from before the trigger: rest there, the starter's draw behind it.
  const auto before = value_at(capture, 0, 0.02), after = value_at(capture, 0, 0.2);
  ASSERT_TRUE(before && after);
  EXPECT_GT(*before, 12.0);
  EXPECT_LT(*after, *before);
  EXPECT_LT(time_at(capture, 0.0), 0.0);
  shortened_texts().clear();
  window.frames(bay, 2);
  EXPECT_TRUE(shortened_texts().empty()) << shortened_texts().front();
}

TEST_F(KitOnTheSheet, SaysADangerousActThatTimeBroughtAbout) {
  bay.state().hands.focus_on("meter/function/amps");
  window.press(bay, Keyboard::Enter);
  for (const auto& [key, number] : {std::pair{Keyboard::R, "1"}, std::pair{Keyboard::B, "13"}}) {
    window.press(bay, key);
    enter(number);
  }
  window.frames(bay, 30);
  ASSERT_TRUE(session().is_practice());
  EXPECT_EQ(bay.state().said, english().outcome("amps_across_battery"));
}

TEST(RecorderZoom, StaysWithinTheCapture) {
  RecorderView view;
  view.cursors = {0.0, 1.0};
  view.cursor = 1;
  for (int i = 0; i < 10; ++i) {
    zoom(view, true);
    EXPECT_GE(view.from_share, 0.0);
    EXPECT_LE(view.to_share, 1.0 + 1e-12);
    EXPECT_GT(view.to_share, view.from_share);
  }
  for (int i = 0; i < 10; ++i) zoom(view, false);
  EXPECT_DOUBLE_EQ(view.from_share, 0.0);
  EXPECT_DOUBLE_EQ(view.to_share, 1.0);
}

TEST(SheetState, NamesABlownFuseAndItsWayOut) {
  Session session(with_whole_kit("healthy_walk"));
  EXPECT_FALSE(sheet_state(session, english()));
  session.act(WearEyeProtection{true});
  session.act(SetMeterFunction{MeterFunction::amps_dc});
  session.act(PutProbe{true, TestPoint::battery_positive_post});
  session.act(PutProbe{false, TestPoint::negative_post});
  session.run_for_s(5.0);
  ASSERT_TRUE(session.meter_fuse_blown()) << "amps across a battery blow the meter's fuse surely";
  const auto state = sheet_state(session, english());
  ASSERT_TRUE(state && state->action);
  EXPECT_TRUE(session.act(*state->action).done);
  EXPECT_FALSE(session.meter_fuse_blown());
}

}  // namespace
}  // namespace voltfall
