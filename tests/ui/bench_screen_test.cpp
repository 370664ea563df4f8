#include "desktop/bench/bench_screen.h"

#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <thread>

#include "support/headless_window.h"

namespace voltfall {
namespace {

/// The screen with no window, its user's files in a folder of its own.
class BenchOnPaper : public testing::Test {
 protected:
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
    if (!fault.can_be_on(all_vehicle_types().front().healthy)) continue;
    bench.bench().change([&](BenchVehicle& vehicle) {
      vehicle.put_back_healthy();
      vehicle.put_on(fault, fault.highest);
    });
    crank(window, bench, 1.0);
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

// Every sweep of a walk has its knob on the bench, whose range holds it.
TEST_F(BenchOnPaper, WalksSweepWhatCanBeTurned) {
  const ReadWalks read = read_walks(std::filesystem::path(VOLTFALL_SOURCE_DIR) / "assets/walks");
  ASSERT_EQ(read.walks.size(), 10U);
  int sweeps = 0;
  for (const BenchWalk& walk : read.walks) {
    for (const WalkSight& sight : walk.page(WalkPageKind::see).sights) {
      if (!sight.sweep) continue;
      ++sweeps;
      const auto knobs = all_bench_knobs();
      const auto found = std::find_if(knobs.begin(), knobs.end(),
                                      [&](const BenchKnob& knob) { return knob.path == sight.sweep->settable->path; });
      ASSERT_NE(found, knobs.end()) << walk.id;
      EXPECT_GE(sight.sweep->from / found->per_unit, found->from - 1.0e-9) << walk.id;
      EXPECT_LE(sight.sweep->to / found->per_unit, found->to + 1.0e-9) << walk.id;
    }
  }
  EXPECT_GT(sweeps, 0);
}

}  // namespace
}  // namespace voltfall
