#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <fstream>
#include <sstream>

#include "session/action_json.h"
#include "session/record.h"
#include "sim/worked_job.h"

namespace voltfall {
namespace {

namespace fs = std::filesystem;

std::string recorded_job() {
  const fs::path path =
      fs::path(::testing::TempDir()) / ("voltfall_replay_until_" + std::to_string(getpid()) + ".vfrec");
  fs::remove(path);
  test::Learner learner("clicks_in_the_morning");
  EXPECT_FALSE(begin_record(path, 1, learner.session));
  test::solve_corroded_clamp(learner);
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  fs::remove(path);
  return text.str();
}

int lines_in(const std::string& record) {
  return static_cast<int>(std::count(record.begin(), record.end(), '\n'));
}

TEST(ReplayUntil, StandsAsTheJobStoodAtEveryLine) {
  const std::string record = recorded_job();
  const int closing = lines_in(record);
  for (int line = 1; line < closing; line += 3) {
    const Replay played = replay_until(record, "record", line);
    ASSERT_TRUE(played.session) << played.problems.front().text();
    EXPECT_FALSE(played.finished);
    std::istringstream lines(record);
    std::string text;
    for (int number = 1; number <= line; ++number) std::getline(lines, text);
    if (line > 1) {
      EXPECT_EQ(played.session->step_count(), nlohmann::json::parse(text).at("step").get<std::uint64_t>());
    }
  }
}

TEST(ReplayUntil, HasTheSameBitsAsTheSameActionsByHand) {
  const std::string record = recorded_job();
  const int noted = [&] {  // the first line that leaves a finding
    std::istringstream lines(record);
    std::string text;
    int number = 0;
    while (std::getline(lines, text)) {
      ++number;
      if (text.find("\"shown\"") != std::string::npos) return number;
    }
    return 0;
  }();
  ASSERT_GT(noted, 1);
  const Replay played = replay_until(record, "record", noted);
  ASSERT_TRUE(played.session);
  std::istringstream lines(record);  // worked anew from the lines themselves
  std::string text;
  std::getline(lines, text);
  Session by_hand(test::shipped("clicks_in_the_morning"));
  for (int number = 2; number <= noted && std::getline(lines, text); ++number) {
    const auto json = nlohmann::json::parse(text);
    by_hand.run_steps(static_cast<int>(json.at("step").get<std::uint64_t>() - by_hand.step_count()));
    by_hand.act(action_in(json));
  }
  EXPECT_EQ(played.session->rig().readings().node_V, by_hand.rig().readings().node_V);
  EXPECT_EQ(played.session->meter().display().text_with_unit(), by_hand.meter().display().text_with_unit());
  EXPECT_EQ(played.session->log().entries().size(), by_hand.log().entries().size());
  ASSERT_EQ(played.session->findings().size(), 1u);
  EXPECT_EQ(shown_words(played.session->findings()[0]), shown_words(by_hand.findings()[0]));
}

TEST(ReplayUntil, PastTheEndIsTheWholeJob) {
  const std::string record = recorded_job();
  const Replay played = replay_until(record, "record", 10'000, table_store().source());
  ASSERT_TRUE(played.session);
  EXPECT_TRUE(played.finished);
  EXPECT_TRUE(played.session->closed());
}

TEST(RecordPlayer, RunsUpToTheNextActionWithoutDoingIt) {
  const std::string record = recorded_job();
  RecordPlayer player(record, "record");
  while (player.play_line() && player.so_far().session->controls().key != KeyPosition::start) {
  }
  const int cranking = player.line();
  player.run_to_next_action();
  EXPECT_EQ(player.line(), cranking);
  EXPECT_EQ(player.so_far().session->controls().key, KeyPosition::start);
  EXPECT_TRUE(player.so_far().session->findings().empty());
  const std::uint64_t step = player.so_far().session->step_count();
  ASSERT_TRUE(player.play_line());
  EXPECT_EQ(player.so_far().session->step_count(), step);
}

TEST(RecordPlayer, SaysWhichLineIsDamagedAndPlaysNone) {
  std::string record = recorded_job();
  record.insert(record.find('\n') + 1, "nonsense\n");
  RecordPlayer player(record, "a.vfrec");
  EXPECT_FALSE(player.play_line());
  ASSERT_EQ(player.so_far().problems.size(), 1u);
  EXPECT_EQ(player.so_far().problems[0].line, 2);
  EXPECT_FALSE(player.so_far().session);
}

}  // namespace
}  // namespace voltfall
