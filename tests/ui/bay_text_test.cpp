#include "console/bay_text.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "console/bay_commands.h"
#include "console/commands.h"
#include "console/typed_words.h"
#include "session/record.h"
#include "sim/worked_job.h"

namespace voltfall {
namespace {

using ::testing::AllOf;
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
    "safe\nred 1\nblack 13\ncrank 1.5 note\nhear chatter\nwiggle positive_clamp\nblack positive_clamp\n"
    "crank 1.5 note\nname corroded positive clamp evidence 1 2 3 4\n"
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
  EXPECT_EQ(mark_command({path}, {}), 0);
  const std::string marked = ::testing::internal::GetCapturedStdout();
  EXPECT_THAT(marked, HasSubstr("Verdict: passed"));
  EXPECT_THAT(marked, AllOf(HasSubstr("Mark: counts"), HasSubstr("compared with their replay: 5")));
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

// Every kind of action has a command that leads to it.
TEST(BayText, TheWholeKitCanBeWorkedInLines) {
  Session session(test::with_whole_kit(test::shipped("healthy_walk")));
  std::set<std::size_t> kinds;
  session.listen(
      [&](const Session&, std::uint64_t, const Action& action, const Outcome&) { kinds.insert(action.index()); });
  const auto answers = [&](std::string_view line, std::string_view expected) {
    EXPECT_THAT(answer_to(session, line), HasSubstr(std::string(expected))) << line;
  };
  answer_to(session, "safe");
  answers("cell 3", "gravity of cell 3: 1.2");
  answers("conductance", "A of cold cranking");
  answers("hang load_tester 1 to 13", "Hung: Load tester");
  answers("load 300 10 note load_tester", "load on for 10 s");
  answer_to(session, "take load_tester");
  answers("hang test_lamp fusible link out to body", "Hung: Test lamp");
  answers("note test_lamp", "Test lamp bright");
  answers("hang remote_switch 4 to 19", "Remote switch");
  answer_to(session, "channel 1 positive");
  answer_to(session, "channel 2 1 to 13");
  answer_to(session, "arm 50 rising 0.5");
  answer_to(session, "red 1");
  answer_to(session, "black 13");
  answers("remote 1.5 note multimeter tachometer", "rpm");
  answers("trace", "Channel 2: peak 12");
  answers("aim starter_case", "degC");
  answers("note thermometer", "degC");
  answers("feel positive_clamp", "No warmer than the air");
  answer_to(session, "continuity");
  answer_to(session, "hold highest");
  answer_to(session, "clamp starter");
  answer_to(session, "zero");
  answers("fuse jumper", "No fuse has blown");
  answers("pedal down", "no clutch pedal");
  answer_to(session, "s_wire off");
  answer_to(session, "belt off");
  answer_to(session, "plugs out");
  answers("bar", "Turns freely by hand");
  answers("wiggle positive_clamp", "Firm");
  answer_to(session, "negative off");
  answer_to(session, "starter off");
  answers("bench hold_in", "ohm");
  answer_to(session, "strike battery_aged");
  answers("suspects", "struck: battery_aged");
  answer_to(session, "bridge");
  answer_to(session, "key on");
  answer_to(session, "key off");
  answer_to(session, "hear normal_crank");
  answer_to(session, "look relay");
  answer_to(session, "name nothing_found");
  answer_to(session, "repair charge_battery");
  answer_to(session, "lamps on");
  answer_to(session, "rest 1");
  answers("close", "negative clamp is still off");
  EXPECT_EQ(kinds.size(), std::variant_size_v<Action>);
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

TEST(BayText, ADamagedRecordIsRefusedWithItsLine) {
  const fs::path path = fs::path(::testing::TempDir()) / "damaged.vfrec";
  std::ofstream(path) << "this is no record\n";
  ::testing::internal::CaptureStdout();
  EXPECT_EQ(mark_command({path}, {}), 1);
  EXPECT_THAT(::testing::internal::GetCapturedStdout(), AllOf(HasSubstr("REFUSED"), HasSubstr("Reason: line 1: ")));
  fs::remove(path);
}

TEST(BayText, AnUnfinishedRecordIsReportedAsSuch) {
  const fs::path path = fs::path(::testing::TempDir()) / "unfinished.vfrec";
  fs::remove(path);
  Session session(test::shipped("healthy_walk"), table_store().source());
  ASSERT_FALSE(begin_record(path, 1, session));
  answer_to(session, "lamps on");
  ::testing::internal::CaptureStdout();
  EXPECT_EQ(mark_command({path}, {}), 0);
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
