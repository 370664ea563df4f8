#include "console/bay_text.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "console/bay_commands.h"
#include "console/commands.h"
#include "console/typed_words.h"
#include "session/record.h"
#include "sim/worked_job.h"

namespace voltfall {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
namespace fs = std::filesystem;

std::string answer_to(Session& session, std::string_view line) {
  std::ostringstream out;
  TextBay bay(session, out);
  bay.obey(line);
  return out.str();
}

constexpr std::string_view whole_job =
    "safe\nred 1\nblack positive_clamp\ncrank 1.5 note\nname corroded positive clamp evidence 1\n"
    "negative off\nrepair clean_positive_clamp\nnegative on\ncrank 3 note\nclose\nleave\n";

TEST(BayText, AJobWorkedInLinesPassesAndItsRecordMarksTheSame) {
  const fs::path path = fs::path(::testing::TempDir()) / "bay_text_whole_job.vfrec";
  fs::remove(path);
  Session session(test::shipped("clicks_in_the_morning"), table_store().source());
  ASSERT_FALSE(begin_record(path, 1, session));
  std::istringstream in{std::string(whole_job)};
  std::ostringstream out;
  work_in_text(session, in, out);
  EXPECT_THAT(out.str(), HasSubstr("Verdict: passed"));
  ASSERT_TRUE(session.score());
  EXPECT_TRUE(session.score()->passed);

  ::testing::internal::CaptureStdout();
  EXPECT_EQ(mark_command({path}), 0);
  const std::string marked = ::testing::internal::GetCapturedStdout();
  EXPECT_THAT(marked, HasSubstr("Verdict: passed"));
  EXPECT_THAT(marked, HasSubstr("Readings: all 2 replayed as recorded"));
  fs::remove(path);
}

TEST(BayText, TellsTheSameScoreAsTheSameActionsElsewhere) {
  Session session(test::shipped("clicks_in_the_morning"), table_store().source());
  std::istringstream in{std::string(whole_job)};
  std::ostringstream out;
  work_in_text(session, in, out);
  test::Learner learner("clicks_in_the_morning");
  const Score other = test::solve_corroded_clamp(learner);
  EXPECT_EQ(session.score()->total, other.total);
}

TEST(BayText, AnUnknownWordIsAnsweredWithTheNearest) {
  Session session(test::shipped("healthy_walk"), table_store().source());
  EXPECT_THAT(answer_to(session, "crnk 2"), HasSubstr("Nearest: crank"));
  EXPECT_THAT(answer_to(session, "red relay_batery_stud"), HasSubstr("Nearest: relay_battery_stud"));
  EXPECT_THAT(answer_to(session, "red 31"), HasSubstr("No test point `31`"));
  EXPECT_THAT(answer_to(session, "repair clean_positiv_clamp"), HasSubstr("Nearest: clean_positive_clamp"));
  EXPECT_THAT(answer_to(session, "crank minus"), HasSubstr("0.1 to 60 seconds"));
  EXPECT_EQ(session.step_count() * Session::step_s, 0.0);  // nothing was done
}

TEST(BayText, EveryCommandIsInTheHelp) {
  Session session(test::shipped("healthy_walk"), table_store().source());
  const std::string help = answer_to(session, "help");
  for (const TextCommand& command : all_text_commands()) EXPECT_THAT(help, HasSubstr(std::string(command.usage)));
}

TEST(BayText, SafetyLeftOutIsSaidAtTheMomentOfHazard) {
  Session session(test::shipped("healthy_walk"), table_store().source());
  EXPECT_THAT(answer_to(session, "crank 1"), HasSubstr("Safety: "));
  Session safe(test::shipped("healthy_walk"));
  answer_to(safe, "safe");
  EXPECT_THAT(answer_to(safe, "crank 1"), Not(HasSubstr("Safety: ")));
}

TEST(BayText, ADamagedRecordIsToldOnStandardErrorWithFileAndLine) {
  const fs::path path = fs::path(::testing::TempDir()) / "damaged.vfrec";
  std::ofstream(path) << "this is no record\n";
  ::testing::internal::CaptureStderr();
  EXPECT_EQ(mark_command({path}), 1);
  EXPECT_THAT(::testing::internal::GetCapturedStderr(), HasSubstr(path.string() + ":1:"));
  fs::remove(path);
}

TEST(BayText, AnUnfinishedRecordIsReportedAsSuch) {
  const fs::path path = fs::path(::testing::TempDir()) / "unfinished.vfrec";
  fs::remove(path);
  Session session(test::shipped("healthy_walk"), table_store().source());
  ASSERT_FALSE(begin_record(path, 1, session));
  answer_to(session, "lamps on");
  ::testing::internal::CaptureStdout();
  EXPECT_EQ(mark_command({path}), 0);
  EXPECT_THAT(::testing::internal::GetCapturedStdout(), HasSubstr("Unfinished"));
  fs::remove(path);
}

TEST(Demonstration, PlaysTheCorrodedClampToAPass) {
  ::testing::internal::CaptureStdout();
  EXPECT_EQ(demonstration_command(), 0);
  const std::string played = ::testing::internal::GetCapturedStdout();
  EXPECT_THAT(played, HasSubstr("Finding 5: "));
  EXPECT_THAT(played, HasSubstr("Verdict: passed"));
}

TEST(TypedWords, NumbersOutsideTheirBoundsOrWithTailsAreNone) {
  EXPECT_EQ(number_within("2.5", 0.0, 3.0), 2.5);
  EXPECT_FALSE(number_within("2.5s", 0.0, 3.0));
  EXPECT_FALSE(number_within("4", 0.0, 3.0));
  EXPECT_FALSE(number_within("nan", 0.0, 3.0));
  EXPECT_FALSE(number_within("", 0.0, 3.0));
}

TEST(TypedWords, ABeginningMeansWhatOnlyOneIdBeginsWith) {
  const std::vector<std::string_view> ids{"positive_clamp", "positive_cable", "relay"};
  EXPECT_EQ(meant_among("rel", ids), "relay");
  EXPECT_FALSE(meant_among("positive", ids));
  EXPECT_EQ(meant_among("positive_cl", ids), "positive_clamp");
}

}  // namespace
}  // namespace voltfall
