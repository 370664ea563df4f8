#include "desktop/closeout/closing.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <thread>

#include "desktop/bay/bay_screen.h"
#include "desktop/start/closed_jobs.h"
#include "session/record.h"
#include "sim/worked_job.h"
#include "support/headless_window.h"

namespace voltfall {
namespace {

using sf::Keyboard;
using ::testing::HasSubstr;
namespace fs = std::filesystem;

/// A job of which the fault is named, its table given out when `table` is set.
struct Waiting {
  std::promise<std::shared_ptr<const SignatureTable>> table;
  std::unique_ptr<Session> session;

  Waiting() {
    auto given = table.get_future().share();
    session = std::make_unique<Session>(test::shipped("clicks_in_the_morning"),
                                        [given](const Scenario&) { return given.get(); });
    session->act(NameFault{{"positive_clamp_corroded"}, {}});
  }
};

std::shared_ptr<const SignatureTable> usual_table() {
  TableProgress progress;
  return table_store().get(test::shipped("clicks_in_the_morning"), progress);
}

void hand_back(HeadlessWindow& window, BayScreen& bay) {
  window.frames(bay, 2);
  window.press(bay, Keyboard::O);
  for (int press = 0; press < 2; ++press) {
    bay.state().hands.focus_on("close_out/hand_back");
    window.press(bay, Keyboard::Enter);
  }
}

bool wait_for_debrief(HeadlessWindow& window, BayScreen& bay) {
  for (int frame = 0; frame < 6000 && !bay.state().debrief; ++frame) {
    window.frames(bay);
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  }
  return bay.state().debrief != nullptr;
}

TEST(ClosingAJob, NeverKeepsTheSheetFromDrawing) {
  Waiting waiting;
  HeadlessWindow window;
  BayScreen bay(std::move(waiting.session), english(), [] { return std::unique_ptr<Screen>(); });
  hand_back(window, bay);
  shortened_texts().clear();
  for (int frame = 0; frame < 30; ++frame) window.frames(bay);
  EXPECT_FALSE(bay.state().debrief) << "nothing can be scored yet";
  EXPECT_FALSE(bay.is_still());
  EXPECT_TRUE(shortened_texts().empty());
  waiting.table.set_value(usual_table());
  ASSERT_TRUE(wait_for_debrief(window, bay));
  EXPECT_TRUE(bay.session().closed());
  EXPECT_TRUE(bay.state().debrief_open);
}

TEST(ClosingAJob, CanBeLeftWithTheJobOpen) {
  Waiting waiting;
  HeadlessWindow window;
  auto bay =
      std::make_unique<BayScreen>(std::move(waiting.session), english(), [] { return std::unique_ptr<Screen>(); });
  hand_back(window, *bay);
  window.press(*bay, Keyboard::Escape);
  EXPECT_TRUE(bay->next.has_value());
  waiting.table.set_exception(std::make_exception_ptr(TableStopped()));  // as its owner does when he goes
  bay.reset();
}

TEST(ClosingAJob, IsRefusedAtOnceWhileSomethingIsOff) {
  Waiting waiting;
  waiting.session->act(ConnectNegative{false});
  HeadlessWindow window;
  BayScreen bay(std::move(waiting.session), english(), [] { return std::unique_ptr<Screen>(); });
  hand_back(window, bay);
  for (int frame = 0; frame < 200 && bay.state().said != english().outcome("negative_still_off"); ++frame) {
    window.frames(bay);
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  }
  EXPECT_EQ(bay.state().said, english().outcome("negative_still_off"));
  EXPECT_FALSE(bay.session().closed());
  waiting.table.set_value(nullptr);
}

TEST(TableAtWork, GivesTheTableOrSaysThatItWasStopped) {
  const Scenario job = test::shipped("clicks_in_the_morning");
  const auto expected = usual_table();
  TableAtWork work(job);
  EXPECT_EQ(work.table()->signatures.size(), expected->signatures.size());
  EXPECT_TRUE(work.ready());

  Scenario other = job;
  other.typical_rest.crank_angle_deg += 1.234;  // of which nobody has a table yet
  auto stopped = std::make_unique<TableAtWork>(other);
  stopped->stop();
  EXPECT_THROW(stopped->table(), TableStopped);
}

TEST(Progress, SaysHowFarItIs) {
  EXPECT_THAT(progress_of(nullptr, english()).words, HasSubstr("scoring"));
}

/// A data folder of its own, with one closed and one open job in it.
class RecordsFolder : public ::testing::Test {
 protected:
  RecordsFolder() {
    fs::remove_all(folder);
    fs::create_directories(folder / "voltfall" / "records");
    if (const char* value = std::getenv("XDG_DATA_HOME")) before = value;
    setenv("XDG_DATA_HOME", folder.c_str(), 1);
    const fs::path records = folder / "voltfall" / "records";
    test::Learner closed("clicks_in_the_morning"), open("healthy_walk");
    EXPECT_FALSE(begin_record(records / "closed.vfrec", 3, closed.session));
    EXPECT_FALSE(begin_record(records / "open.vfrec", 1, open.session));
    score = test::solve_corroded_clamp(closed);
    open.make_safe();
    std::ofstream(records / "nonsense.vfrec") << "nonsense\n";
  }
  ~RecordsFolder() override {
    before.empty() ? unsetenv("XDG_DATA_HOME") : setenv("XDG_DATA_HOME", before.c_str(), 1);
    fs::remove_all(folder);
  }
  fs::path folder = fs::path(::testing::TempDir()) / ("voltfall_closed_jobs_" + std::to_string(getpid()));
  std::string before;
  Score score;
};

TEST_F(RecordsFolder, ListsTheClosedJobsAlone) {
  const auto jobs = closed_jobs();
  ASSERT_EQ(jobs.size(), 1u);
  EXPECT_EQ(jobs[0].attempt, 3);
  EXPECT_EQ(jobs[0].total, score.total);
  EXPECT_EQ(jobs[0].passed, score.passed);
}

TEST_F(RecordsFolder, OpensTheDebriefOfOneAgain) {
  HeadlessWindow window;
  const auto start = [] { return std::unique_ptr<Screen>(); };
  ClosedJobsScreen list(english(), start);
  window.frames(list, 2);
  window.press(list, Keyboard::Tab);
  window.press(list, Keyboard::Enter);
  ASSERT_TRUE(list.next.has_value());
  const std::unique_ptr<Screen> opening = std::move(*list.next);
  for (int frame = 0; frame < 6000 && !opening->next; ++frame) {
    window.frames(*opening);
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  }
  ASSERT_TRUE(opening->next.has_value());
  auto* bay = dynamic_cast<BayScreen*>(opening->next->get());
  ASSERT_NE(bay, nullptr);
  window.frames(*bay, 2);
  EXPECT_TRUE(bay->session().closed());
  EXPECT_TRUE(bay->state().debrief_open);
  EXPECT_FALSE(bay->state().record.empty());
  EXPECT_EQ(bay->state().debrief->verdict, verdict_text(score));
}

}  // namespace
}  // namespace voltfall
