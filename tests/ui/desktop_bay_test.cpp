#include <gtest/gtest.h>

#include <filesystem>

#include "desktop/bay/bay_screen.h"
#include "desktop/bay/caption.h"
#include "desktop/bay/entry.h"
#include "desktop/layout.h"
#include "desktop/walk/walk_screen.h"
#include "scenario/read_scenario.h"
#include "support/headless_window.h"

namespace voltfall {
namespace {

using sf::Keyboard;

std::filesystem::path scenarios() {
  return std::filesystem::path(VOLTFALL_SOURCE_DIR) / "scenarios";
}

std::unique_ptr<BayScreen> bay_on(const std::filesystem::path& file) {
  const ReadScenario read = read_scenario(file);
  if (!read.scenario) return nullptr;
  return std::make_unique<BayScreen>(std::make_unique<Session>(*read.scenario), english(),
                                     [] { return std::unique_ptr<Screen>(); });
}

class Bay : public testing::Test {
 protected:
  HeadlessWindow window;
  std::unique_ptr<BayScreen> bay = bay_on(scenarios() / "clicks_in_the_morning.toml");
  void SetUp() override {
    ASSERT_EQ(window.missing_font(), "");
    ASSERT_NE(bay, nullptr);
    window.frames(*bay, 2);
  }
  const Session& session() const { return bay->session(); }
};

TEST(BayOfEveryScenario, DrawsWithNoTextCut) {
  for (const auto& entry : std::filesystem::directory_iterator(scenarios())) {
    if (entry.path().extension() != ".toml") continue;
    HeadlessWindow window;
    const auto bay = bay_on(entry.path());
    ASSERT_NE(bay, nullptr) << entry.path();
    shortened_texts().clear();
    for (const RailTab tab : {RailTab::work_order, RailTab::findings, RailTab::suspects, RailTab::kit}) {
      bay->state().tab = tab;
      window.frames(*bay, 2);
    }
    for (const TestPoint point : all_test_points()) {
      bay->state().chosen = point;
      window.frames(*bay);
    }
    EXPECT_TRUE(shortened_texts().empty()) << entry.path() << ": " << shortened_texts().front();
    EXPECT_GT(ImGui::GetDrawData()->TotalVtxCount, 2000);
  }
}

TEST_F(Bay, PutsALeadByItsKeyAndANumber) {
  window.press(*bay, Keyboard::R);
  window.type(*bay, "5");
  window.press(*bay, Keyboard::Enter);
  EXPECT_EQ(session().meter().red(), TestPoint::relay_motor_stud);
  window.press(*bay, Keyboard::B);
  window.type(*bay, "13");
  window.press(*bay, Keyboard::Enter);
  EXPECT_EQ(session().meter().black(), TestPoint::negative_post);
}

TEST_F(Bay, LettersOfANameAreNotTakenForCommands) {
  window.press(*bay, Keyboard::R);
  ImGui::GetIO().KeysDown[Keyboard::C] = true;  // a C in the name must not crank
  window.type(*bay, "neg");
  ImGui::GetIO().KeysDown[Keyboard::C] = false;
  EXPECT_EQ(session().controls().key, KeyPosition::off);
}

// More than 2 s on an engine that does not turn is held against people, so the key for 2 s must not overrun.
TEST_F(Bay, TimedCrankOfTwoSecondsIsNoLonger) {
  window.press(*bay, Keyboard::Num1);
  for (int frame = 0; frame < 400 && session().controls().key == KeyPosition::start; ++frame) window.frames(*bay);
  ASSERT_TRUE(session().last_crank());
  EXPECT_EQ(session().controls().key, KeyPosition::on);
  EXPECT_LE(session().last_crank()->held_s, 2.0);
  EXPECT_NEAR(session().last_crank()->held_s, 2.0, 5 * Session::step_s);  // ends within a few steps of its time
}

TEST_F(Bay, MakesSafeByLetters) {
  for (const auto letter : {Keyboard::E, Keyboard::P, Keyboard::I}) window.press(*bay, letter);
  EXPECT_TRUE(session().eye_protection_on());
  EXPECT_TRUE(session().brake_on());
  EXPECT_FALSE(session().controls().ignition_live);
}

TEST_F(Bay, OpensTheCloseOutByItsLetterAndTypesOn) {
  window.press(*bay, Keyboard::O);
  window.frames(*bay, 2);
  EXPECT_TRUE(bay->state().close_out_open);
  window.type(*bay, "strap");
  EXPECT_EQ(bay->state().close_out.words, "strap");
}

TEST_F(Bay, ArrowsWalkTheLeadMovedLast) {
  window.press(*bay, Keyboard::B);
  window.type(*bay, "13");
  window.press(*bay, Keyboard::Enter);
  window.press(*bay, Keyboard::Left);
  EXPECT_EQ(session().meter().black(), TestPoint::negative_clamp);
}

TEST_F(Bay, CranksWhileCIsHeldAndNoLonger) {
  window.hold(Keyboard::C, true);
  window.frames(*bay, 3);
  EXPECT_EQ(session().controls().key, KeyPosition::start);
  window.hold(Keyboard::C, false);
  window.frames(*bay);
  EXPECT_EQ(session().controls().key, KeyPosition::on);
}

// A learner who leaves the ignition live on a sound vehicle gets a running engine, and is told so, key held or not.
TEST(BayOnASoundVehicle, SaysThatTheEngineRuns) {
  HeadlessWindow window;
  const auto bay = bay_on(scenarios() / "healthy_walk.toml");
  ASSERT_NE(bay, nullptr);
  shortened_texts().clear();
  window.hold(Keyboard::C, true);
  window.frames(*bay, 180);
  EXPECT_EQ(caption_of(bay->session()).words, "The engine has started. Release the key.");
  window.hold(Keyboard::C, false);
  window.frames(*bay, 60);
  EXPECT_EQ(caption_of(bay->session()).words, "Key on. The engine runs.");
  EXPECT_EQ(caption_of(bay->session()).advice, "The ignition is live. Key off, then disable it.");
  EXPECT_TRUE(shortened_texts().empty()) << shortened_texts().front();
}

TEST_F(Bay, LosingTheWindowsFocusReleasesTheKey) {
  window.hold(Keyboard::C, true);
  window.frames(*bay, 3);
  bay->let_go();
  EXPECT_EQ(session().controls().key, KeyPosition::on);
}

TEST_F(Bay, ATimedCrankEndsByItself) {
  window.press(*bay, Keyboard::Num1);
  EXPECT_EQ(session().controls().key, KeyPosition::start);
  window.frames(*bay, 60);
  EXPECT_EQ(session().controls().key, KeyPosition::start);
  window.frames(*bay, 80);  // 2 s are 120 frames
  EXPECT_EQ(session().controls().key, KeyPosition::on);
}

TEST_F(Bay, ALeadIsDraggedByMouseFromItsShelfToANumber) {
  const Projection projection(layout_of(1280, 720).picture.inset(1));
  window.move_mouse(*bay, projection.to_screen(parked.red));
  window.mouse_button(*bay, true);
  window.move_mouse(*bay, projection.to_screen(place_of(TestPoint::starter_case).disc));
  window.mouse_button(*bay, false);
  EXPECT_EQ(session().meter().red(), TestPoint::starter_case);
  EXPECT_FALSE(session().meter().black());
}

TEST_F(Bay, ALeadDroppedOnACrowdedJointMustChooseItsSurface) {
  const Projection projection(layout_of(1280, 720).picture.inset(1));
  window.move_mouse(*bay, projection.to_screen(parked.red));
  window.mouse_button(*bay, true);
  window.move_mouse(*bay, projection.to_screen(crowded_places()[0].middle));
  window.mouse_button(*bay, false);
  EXPECT_TRUE(bay->state().close_up);
  EXPECT_FALSE(session().meter().red());
}

TEST_F(Bay, NNotesWhatTheMeterShows) {
  for (const auto& [key, number] : {std::pair{Keyboard::R, "1"}, std::pair{Keyboard::B, "13"}}) {
    window.press(*bay, key);
    window.type(*bay, number);
    window.press(*bay, Keyboard::Enter);
  }
  window.frames(*bay, 90);  // the meter settles
  window.press(*bay, Keyboard::N);
  ASSERT_EQ(session().findings().size(), 1U);
  EXPECT_EQ(session().findings()[0].red, TestPoint::battery_positive_post);
}

TEST(Entry, FindsPointsByNumberAndByTheBeginningsOfWords) {
  EXPECT_EQ(points_meant(english(), "30"), std::vector{TestPoint::alternator_output});
  EXPECT_TRUE(points_meant(english(), "31").empty());
  EXPECT_FALSE(points_meant(english(), "relay").empty());
  EXPECT_TRUE(points_meant(english(), "zzz").empty());
}

TEST(Walk, EveryStepsCardFits) {
  HeadlessWindow window;
  std::vector<Problem> problems;
  const auto walk = make_walk(english(), problems);
  ASSERT_NE(walk, nullptr);
  shortened_texts().clear();
  window.frames(*walk, 2);
  EXPECT_TRUE(shortened_texts().empty());
  constexpr float card_width = 336 - 2 * gap_16, words_height = 144 - 2 * gap_8 - 24 - 30;
  for (const WalkStep& step : walk_steps()) {
    EXPECT_LE(wrapped_height(Type::body, step.words, card_width), words_height) << step.title;
  }
}

}  // namespace
}  // namespace voltfall
