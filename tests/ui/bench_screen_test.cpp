#include "desktop/bench/bench_screen.h"

#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <thread>

#include "support/cranks.h"
#include "support/headless_window.h"

namespace voltfall {
namespace {

/// The screen with no window, its user's files in a folder of its own.
class BenchOnPaper : public testing::Test {
 public:
  BenchOnPaper() {
    const auto* info = testing::UnitTest::GetInstance()->current_test_info();
    home_ = std::filesystem::temp_directory_path() / ("voltfall_bench_" + std::string(info->name()));
    std::filesystem::remove_all(home_);
    setenv("XDG_DATA_HOME", home_.c_str(), 1);
  }
  ~BenchOnPaper() override { std::filesystem::remove_all(home_); }

  BenchScreen screen(std::size_t type = 0) {
    return BenchScreen(subject_of(all_vehicle_types()[type]), english(), [] { return nullptr; });
  }
  void crank(HeadlessWindow& window, BenchScreen& on, double held_s) {
    window.hold(sf::Keyboard::C, true);
    window.frames(on, static_cast<int>(held_s * 60.0));
    window.hold(sf::Keyboard::C, false);
    window.frames(on, 90);
  }

  /// By keyboard alone: Tab to it, Enter.
  static void enter_on(HeadlessWindow& window, BenchScreen& on, std::string_view id) {
    for (int step = 0; step < 300 && on.hands().focus() != id; ++step) window.press(on, sf::Keyboard::Tab);
    ASSERT_EQ(on.hands().focus(), id);
    window.press(on, sf::Keyboard::Enter);
  }

  std::filesystem::path home_;
};

TEST_F(BenchOnPaper, EveryViewFitsEveryWindow) {
  for (const auto& [width, height] : {std::pair{1280.0F, 720.0F}, {1280.0F, 800.0F}, {1600.0F, 1000.0F}}) {
    HeadlessWindow window(width, height);
    ASSERT_EQ(window.missing_font(), "");
    BenchScreen bench = screen();
    crank(window, bench, 0.8);
    for (const BenchView view : {BenchView::engage, BenchView::volts, BenchView::threshold}) {
      bench.show(view);
      window.frames(bench, 2);
      shortened_texts().clear();
      window.frames(bench);
      EXPECT_TRUE(shortened_texts().empty())
          << width << " view " << static_cast<int>(view) << ": " << shortened_texts().front();
    }
  }
}

TEST_F(BenchOnPaper, TheKeyCranksAndTheAnswerSaysSo) {
  HeadlessWindow window;
  BenchScreen bench = screen();
  window.frames(bench, 60);
  EXPECT_EQ(bench.answer(), english().text("open_bench.answer.not_cranked"));
  crank(window, bench, 1.2);
  ASSERT_EQ(bench.bench().runs().size(), 1U);
  EXPECT_EQ(bench.bench().runs().front().failing, FirstFailing::nothing);
  EXPECT_NE(bench.answer().find("engaged in"), std::string::npos) << bench.answer();
}

TEST_F(BenchOnPaper, FocusLostLetsGoOfTheKey) {
  HeadlessWindow window;
  BenchScreen bench = screen();
  window.hold(sf::Keyboard::C, true);
  window.frames(bench, 10);
  EXPECT_EQ(bench.bench().key(), KeyPosition::start);
  window.hold(sf::Keyboard::C, false);
  bench.let_go();
  EXPECT_EQ(bench.bench().key(), KeyPosition::off);
}

TEST_F(BenchOnPaper, ATimedCrankIsNotCutShortByTheHand) {
  HeadlessWindow window;
  BenchScreen bench = screen();
  window.frames(bench, 5);
  window.press(bench, sf::Keyboard::Enter);  // the first thing in focus: crank for a second
  window.frames(bench, 30);
  EXPECT_EQ(bench.bench().key(), KeyPosition::start);
  window.frames(bench, 120);
  ASSERT_EQ(bench.bench().runs().size(), 1U);
  EXPECT_NEAR(bench.bench().runs().front().seen.held_s, 1.0, 0.002) << "to the step and its neighbours";
}

TEST_F(BenchOnPaper, TheListOfKeysComesAndGoes) {
  HeadlessWindow window;
  BenchScreen bench = screen();
  window.frames(bench, 3);
  window.press(bench, sf::Keyboard::F1);
  enter_on(window, bench, "keys/close");
  EXPECT_FALSE(bench.next) << "the bench is still there";
  window.press(bench, sf::Keyboard::F1);
  window.press(bench, sf::Keyboard::Escape);
  EXPECT_FALSE(bench.next) << "Esc put the list away, not the bench";
  window.press(bench, sf::Keyboard::Escape);
  EXPECT_TRUE(bench.next) << "and then the bench";
}

TEST_F(BenchOnPaper, EveryWordIsThere) {
  for (const BenchKnob& knob : all_bench_knobs()) {
    EXPECT_TRUE(english().has("open_bench.knob." + std::string(knob.id))) << knob.id;
  }
  for (int failing = 0; failing <= static_cast<int>(FirstFailing::nothing); ++failing) {
    const auto id = std::string(id_of(static_cast<FirstFailing>(failing)));
    EXPECT_TRUE(english().has("open_bench.answer." + id)) << id;
  }
  for (const TapeSignal& signal : plain_tape_signals) {
    EXPECT_TRUE(english().has("open_bench.signal." + std::string(signal.name))) << signal.name;
  }
  for (const SoundKind kind : all_sound_kinds) {
    EXPECT_TRUE(english().has("open_bench.sound." + std::string(id_of(kind)))) << id_of(kind);
  }
}

// Each fault of the catalogue, on each vehicle that can have it, gets a sentence that reads to its end.
TEST_F(BenchOnPaper, EveryFaultHasItsAnswer) {
  HeadlessWindow window;
  BenchScreen bench = screen();
  for (const Fault& fault : all_faults()) {
    // The checked build looks at code, not at answers: one fault of each class will do.
    const bool first_of_class = &fault == all_faults().data() || (&fault - 1)->fault_class != fault.fault_class;
    if (!fault.can_be_on(all_vehicle_types().front().healthy) || (checked_build && !first_of_class)) continue;
    bench.bench().change([&](BenchVehicle& vehicle) {
      vehicle.put_back_healthy();
      vehicle.put_on(fault, fault.highest);
    });
    bench.bench().crank_for(0.8);
    for (int frame = 0; frame < 60; ++frame) bench.bench().advance(1.0 / 60.0);
    window.frames(bench);
    EXPECT_EQ(bench.answer().find("open_bench"), std::string::npos) << fault.id;
    EXPECT_EQ(bench.answer().back(), '.') << fault.id << ": " << bench.answer();
  }
}

TEST_F(BenchOnPaper, WhatIsHeardIsAlsoWritten) {
  HeadlessWindow window;
  BenchScreen bench = screen();
  window.hold(sf::Keyboard::C, true);
  std::string heard;
  for (int frame = 0; frame < 90; ++frame) {
    window.frames(bench);
    heard += bench.heard() + "\n";
  }
  EXPECT_NE(heard.find("relay snaps"), std::string::npos) << heard;
  EXPECT_NE(heard.find("compressions"), std::string::npos) << heard;
}

// Slowed down, the sound keeps to the picture: nothing of the engagement before the relay has closed.
TEST_F(BenchOnPaper, GoneOverSlowlyNothingIsHeardBeforeItHappens) {
  HeadlessWindow window(1280, 800);
  BenchScreen bench = screen();
  crank(window, bench, 0.8);
  window.press(bench, sf::Keyboard::Num4);
  window.press(bench, sf::Keyboard::L);
  constexpr int captions_stand_frames = 60;
  int open_for = 0, held_against = 0;
  bool whine_heard = false;
  for (int frame = 0; frame < 600; ++frame) {
    window.frames(bench);
    open_for = bench.bench().mechanism().relay_closed < 0.5F ? open_for + 1 : 0;
    const bool whine = bench.heard().find("whine") != std::string::npos;
    whine_heard = whine_heard || whine;
    if (open_for < captions_stand_frames) continue;
    ++held_against;
    EXPECT_FALSE(whine) << bench.heard() << " at " << bench.bench().shown_s();
  }
  EXPECT_TRUE(whine_heard);
  EXPECT_GT(held_against, 10);
}

void answer_here(HeadlessWindow& window, BenchScreen& bench, std::string_view choice, std::string_view reason) {
  BenchOnPaper::enter_on(window, bench, choice);
  if (!reason.empty()) BenchOnPaper::enter_on(window, bench, reason);
  BenchOnPaper::enter_on(window, bench, "walk/say");
}

// The first walk from its first page to its last, by keyboard, as somebody who foresees it wrongly; the question then
// returns at the head of the next, also after the program was closed in between.
TEST_F(BenchOnPaper, AWalkIsWalkedAndAWrongPredictionReturns) {
  HeadlessWindow window(1280, 800);
  {
    BenchScreen bench = screen();
    bench.show(BenchColumn::walks);
    window.frames(bench, 2);
    enter_on(window, bench, "walk/begin/one_healthy_crank");
    ASSERT_EQ(bench.walks().progress().here()->page, WalkPageKind::predict);
    answer_here(window, bench, "walk/choice/2", "walk/reason/2");
    enter_on(window, bench, "walk/on");
    ASSERT_EQ(bench.walks().progress().here()->page, WalkPageKind::see);
    for (int sight = 0; sight < 3; ++sight) {
      enter_on(window, bench, "walk/set_up");
      EXPECT_EQ(bench.view(), sight == 1 ? BenchView::engage : BenchView::volts);
      EXPECT_EQ(bench.bench().headlamps(), sight == 2);
      crank(window, bench, 1.0);
      if (sight < 2) enter_on(window, bench, "walk/more");
    }
    enter_on(window, bench, "walk/on");
    ASSERT_EQ(bench.walks().progress().here()->page, WalkPageKind::explain);
    for (int step = 0; step < 300 && bench.hands().focus() != "walk/line"; ++step)
      window.press(bench, sf::Keyboard::Tab);
    window.type(bench, "the battery itself keeps some");
    enter_on(window, bench, "walk/compare");
    enter_on(window, bench, "walk/on");
    ASSERT_EQ(bench.walks().progress().here()->page, WalkPageKind::unlike);
    answer_here(window, bench, "walk/choice/0", "");
    enter_on(window, bench, "walk/on");
    EXPECT_FALSE(bench.walks().progress().here());
    const WalkNotes* notes = bench.walks().progress().notes("one_healthy_crank");
    ASSERT_NE(notes, nullptr);
    EXPECT_TRUE(notes->finished);
    EXPECT_FALSE(notes->predicted->right);
    EXPECT_TRUE(notes->unlike->right);
    EXPECT_EQ(notes->line, "the battery itself keeps some");
  }
  BenchScreen again = screen();
  again.show(BenchColumn::walks);
  window.frames(again, 2);
  enter_on(window, again, "walk/begin/the_other_half");
  ASSERT_TRUE(again.walks().progress().here()->returning);
  EXPECT_EQ(again.walks().progress().here()->walk, "one_healthy_crank");
  answer_here(window, again, "walk/choice/1", "walk/reason/1");
  enter_on(window, again, "walk/on");
  EXPECT_FALSE(again.walks().progress().here()->returning);
  EXPECT_TRUE(again.walks().progress().missed().empty());
}

// A sweep comes to its end beside the screen, and is drawn.
TEST_F(BenchOnPaper, ASweepFindsWhereEngagementIsLost) {
  HeadlessWindow window(1280, 800);
  BenchScreen bench = screen();
  bench.show(BenchView::threshold);
  window.frames(bench, 2);
  enter_on(window, bench, "bench/sweep");
  for (int tenths = 0; tenths < 600 && !bench.is_still(); ++tenths) {
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
    window.frames(bench);
  }
  ASSERT_NE(bench.threshold().result(), nullptr);
  ASSERT_EQ(bench.threshold().result()->thresholds.size(), 1U);
  // Physics document: labours at 22 to 25 mohm added, at 30 the teeth never meet.
  EXPECT_GT(bench.threshold().result()->thresholds.front().engages_at, 0.015);
  EXPECT_LT(bench.threshold().result()->thresholds.front().fails_at, 0.030);
  EXPECT_NE(bench.answer().find("it engages as far as 2"), std::string::npos) << bench.answer();
  shortened_texts().clear();
  window.frames(bench);
  EXPECT_TRUE(shortened_texts().empty()) << shortened_texts().front();
}

// A map that was broken off has nothing to show, and its sentence claims nothing.
TEST_F(BenchOnPaper, ACancelledMapClaimsNothing) {
  HeadlessWindow window(1280, 800);
  BenchScreen bench = screen();
  bench.show(BenchView::threshold);
  window.frames(bench, 2);
  const std::string before = bench.answer();
  enter_on(window, bench, "bench/sweep/kind/1");
  enter_on(window, bench, "bench/sweep");
  enter_on(window, bench, "bench/sweep/cancel");
  for (int tenths = 0; tenths < 600 && !bench.is_still(); ++tenths) {
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
    window.frames(bench);
  }
  ASSERT_NE(bench.threshold().result(), nullptr);
  ASSERT_TRUE(bench.threshold().result()->map.cells.empty());
  EXPECT_EQ(bench.answer(), before);
}

TEST_F(BenchOnPaper, TheTapeIsSavedAsATable) {
  HeadlessWindow window(1280, 800);
  BenchScreen bench = screen();
  crank(window, bench, 0.8);
  bench.show(BenchView::volts);
  window.frames(bench, 2);
  enter_on(window, bench, "tape/csv");
  std::ifstream file(home_ / "voltfall" / "saved" / "tape_1.csv");
  std::string head, row;
  ASSERT_TRUE(std::getline(file, head));
  EXPECT_EQ(head, "after_key_s,loop_A,starter_terminal_V,shoe_travel_m,crank_speed_rpm");
  int rows = 0;
  double highest_A = 0.0;
  while (std::getline(file, row)) {
    ++rows;
    highest_A = std::max(highest_A, std::stod(row.substr(row.find(',') + 1)));
  }
  EXPECT_NEAR(rows, 0.4 / Rig::step_s, 2.0);
  EXPECT_GT(highest_A, 600.0) << "the surge is in it";
}

}  // namespace
}  // namespace voltfall
