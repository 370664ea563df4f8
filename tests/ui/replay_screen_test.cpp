#include "desktop/replay/replay_screen.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <fstream>
#include <sstream>
#include <thread>

#include "desktop/bay/bay_screen.h"
#include "session/record.h"
#include "sim/worked_job.h"
#include "support/headless_window.h"

namespace voltfall {
namespace {

using sf::Keyboard;
namespace fs = std::filesystem;

/// A closed job with its record, worked once for all tests.
struct Worked {
  fs::path path = fs::path(::testing::TempDir()) / ("voltfall_replay_screen_" + std::to_string(getpid()) + ".vfrec");
  std::string record;
  std::shared_ptr<const DebriefContents> contents;

  Worked() {
    fs::remove(path);
    test::Learner learner("clicks_in_the_morning");
    EXPECT_FALSE(begin_record(path, 1, learner.session));
    test::solve_corroded_clamp(learner);
    contents = std::make_shared<const DebriefContents>(debrief_contents(learner.session, english()));
    std::ifstream file(path);
    std::ostringstream text;
    text << file.rdbuf();
    record = text.str();
  }
};
const Worked& job() {
  static const Worked made;
  return made;
}

std::size_t step_saying(const std::string& words) {
  const auto& steps = job().contents->timeline;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (steps[i].what.find(words) != std::string::npos) return i + 1;
  }
  return 0;
}

class SeenAgain : public ::testing::Test {
 protected:
  HeadlessWindow window;
  ReplayScreen replay{job().record, job().contents, english(), 1};

  const Session* arrived() {
    for (int frame = 0; frame < 3000 && replay.session() == nullptr; ++frame) {
      window.frames(replay);
      std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
    window.frames(replay, 2);
    return replay.session();
  }
};

TEST_F(SeenAgain, StandsAsTheJobStoodAtTheStepChosen) {
  const std::size_t noted = step_saying("bat. + post to + clamp");
  ASSERT_GT(noted, 0u);
  ReplayScreen at_reading(job().record, job().contents, english(), noted);
  while (at_reading.session() == nullptr) window.frames(at_reading);
  const Session& session = *at_reading.session();
  EXPECT_EQ(session.log().entries().size(), noted);
  EXPECT_EQ(session.meter().red(), TestPoint::battery_positive_post);
  EXPECT_EQ(session.meter().black(), TestPoint::positive_clamp);
  EXPECT_EQ(session.controls().key, KeyPosition::start);
  ASSERT_EQ(session.findings().size(), 4u);
  EXPECT_EQ(shown_words(session.findings()[3]), session.meter().display().text_with_unit());
  EXPECT_FALSE(session.closed());
}

TEST_F(SeenAgain, GoesForwardAndBackByTheArrowKeys) {
  ASSERT_NE(arrived(), nullptr);
  EXPECT_EQ(replay.session()->log().entries().size(), 1u);
  window.press(replay, Keyboard::Right);
  window.press(replay, Keyboard::Right);
  ASSERT_NE(arrived(), nullptr);
  EXPECT_EQ(replay.shown(), 3u);
  EXPECT_EQ(replay.session()->log().entries().size(), 3u);
  const auto volts_then = replay.session()->rig().readings().node_V;
  window.press(replay, Keyboard::End);
  ASSERT_NE(arrived(), nullptr);
  EXPECT_EQ(replay.shown(), job().contents->timeline.size());
  EXPECT_FALSE(replay.session()->closed()) << "as it was just before it was handed back";
  window.press(replay, Keyboard::Home);
  ASSERT_NE(arrived(), nullptr);
  EXPECT_TRUE(replay.session()->log().entries().empty());
  for (int step = 0; step < 3; ++step) window.press(replay, Keyboard::Right);
  ASSERT_NE(arrived(), nullptr);
  EXPECT_EQ(replay.session()->rig().readings().node_V, volts_then);
}

TEST_F(SeenAgain, ChangesNothingWhateverIsPressed) {
  ASSERT_NE(arrived(), nullptr);
  const std::uint64_t step = replay.session()->step_count();
  const std::size_t entries = replay.session()->log().entries().size();
  for (const auto key : {Keyboard::C, Keyboard::K, Keyboard::E, Keyboard::N, Keyboard::H, Keyboard::O}) {
    window.press(replay, key);
  }
  for (float x = 20; x < 1280; x += 70) {
    for (float y = 60; y < 560; y += 60) {
      window.move_mouse(replay, {x, y});
      window.mouse_button(replay, true);
      window.mouse_button(replay, false);
    }
  }
  ASSERT_NE(replay.session(), nullptr);
  EXPECT_EQ(replay.session()->step_count(), step);
  EXPECT_EQ(replay.session()->log().entries().size(), entries);
}

TEST_F(SeenAgain, FitsItsPlaceAtEveryStep) {
  const std::size_t steps = job().contents->timeline.size();
  for (std::size_t step = 0; step < steps; ++step) {
    ASSERT_NE(arrived(), nullptr);
    shortened_texts().clear();
    window.frames(replay, 2);
    EXPECT_TRUE(shortened_texts().empty()) << "step " << step << ": " << shortened_texts().front();
    window.press(replay, Keyboard::Right);
  }
}

TEST(SeeItAgain, OpensFromTheDebriefAndGoesBackToIt) {
  HeadlessWindow window;
  Replay played = replay_until(job().record, "record", 10'000, table_store().source());
  ASSERT_TRUE(played.session);
  BayScreen bay(std::make_unique<Session>(std::move(*played.session)), english(),
                [] { return std::unique_ptr<Screen>(); }, {nullptr, job().path, job().contents});
  window.frames(bay, 2);
  ASSERT_TRUE(bay.state().debrief_open);
  bay.state().hands.focus_on("debrief/again");
  window.press(bay, Keyboard::Enter);
  EXPECT_TRUE(bay.is_seen_again());
  window.frames(bay, 3);
  window.press(bay, Keyboard::Escape);
  EXPECT_FALSE(bay.is_seen_again());
  window.frames(bay, 2);
  EXPECT_TRUE(bay.state().debrief_open);
}

}  // namespace
}  // namespace voltfall
