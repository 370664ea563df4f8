#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <sstream>

#include "console/commands.h"
#include "debrief/debrief_parts.h"
#include "debrief/debrief_report.h"
#include "debrief/still_possible.h"
#include "scoring/review.h"
#include "session/record.h"
#include "sim/worked_job.h"

namespace voltfall {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;
namespace fs = std::filesystem;

/// @return number of the finding
int wiggled(test::Learner& learner, const std::string& component) {
  learner.act(DisturbPart{Touch::wiggle, component});
  return learner.last().number;
}

/// The clamp worked with a detour: a useless repeat, two suspects struck (one of them the fault itself), then right.
void work_with_a_detour(test::Learner& learner) {
  learner.make_safe();
  learner.probe(TestPoint::battery_positive_post, TestPoint::negative_post);
  learner.note();
  learner.act(StrikeSuspect{"positive_clamp_corroded", true});
  learner.note();
  learner.probe(TestPoint::battery_positive_post, TestPoint::positive_clamp);
  const int failing = learner.crank_and_note();
  learner.act(StrikeSuspect{"engine_seized", true});
  const int firm = wiggled(learner, "positive_clamp");
  learner.name("positive_clamp_corroded", {failing, firm});
  learner.repair_with_negative_off("clean_positive_clamp");
  learner.crank_and_note(3.0);
  learner.close();
}

/// Worked and worked out once for all tests.
const test::Learner& detour() {
  static const test::Learner learner = [] {
    test::Learner worked("clicks_in_the_morning");
    work_with_a_detour(worked);
    return worked;
  }();
  return learner;
}
const DebriefContents& contents() {
  static const DebriefContents made = debrief_contents(detour().session, english());
  return made;
}

std::string notes_of(const DebriefStep& step) {
  std::string all;
  for (const std::string& note : step.notes) all += note + "\n";
  return all;
}

const DebriefStep& step_saying(const std::vector<DebriefStep>& steps, const std::string& words) {
  for (const DebriefStep& step : steps) {
    if (step.what.find(words) != std::string::npos) return step;
  }
  throw std::runtime_error("no step says " + words);
}

const DebriefList& list_named(std::string_view path) {
  for (const DebriefList& list : contents().suspects) {
    if (list.heading == english().text(path)) return list;
  }
  throw std::runtime_error("no such list");
}

TEST(Debrief, TimelineHasEveryEntryOfTheLog) {
  const auto& entries = detour().session.log().entries();
  ASSERT_EQ(contents().timeline.size(), entries.size());
  double minutes = 0.0;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    EXPECT_EQ(contents().timeline[i].at_minute, entries[i].at_minute);
    EXPECT_FALSE(contents().timeline[i].what.empty());
    EXPECT_THAT(contents().timeline[i].what, Not(HasSubstr("_"))) << "an id shows through";
    minutes += contents().timeline[i].minutes;
  }
  EXPECT_THAT(contents().timeline_sum, HasSubstr(fmt::format("{:.0f} min", minutes)));
}

TEST(Debrief, SaysWhatEachTestCouldTellWithoutBits) {
  const std::vector<Step> steps = steps_of(detour().session.facts());
  const Step& first = steps.front();
  const DebriefStep& shown = step_saying(contents().timeline, "bat. + post to bat. - post, at rest");
  ASSERT_GE(first.split.size(), 2u);
  EXPECT_THAT(notes_of(shown),
              HasSubstr(fmt::format("could split {} suspects about {}", first.suspects_before, first.split.front())));
  for (const DebriefStep& step : contents().timeline) EXPECT_THAT(notes_of(step), Not(HasSubstr("bits")));
}

TEST(Debrief, MarksTheRepeatAndTheFindingThatTold) {
  const std::vector<Step> steps = steps_of(detour().session.facts());
  const Finding& told = detour().session.findings()[static_cast<std::size_t>(telling_finding(steps) - 1)];
  int repeats = 0, telling = 0;
  for (const DebriefStep& step : contents().timeline) {
    repeats += notes_of(step).find(english().text("debrief.repeated")) != std::string::npos ? 1 : 0;
    if (!step.telling) continue;
    ++telling;
    EXPECT_EQ(step.what, finding_text(told, english()));
    EXPECT_EQ(step.notes.front(), english().text("debrief.telling"));
  }
  EXPECT_EQ(repeats, 1);
  EXPECT_EQ(telling, 1);
}

TEST(Debrief, ParEndsWithTheRepairThatCuresAndItsMinutesAddUp) {
  const auto& par = contents().par;
  ASSERT_GE(par.size(), 2u);
  EXPECT_THAT(par.back().what, HasSubstr(std::string(english().repair("clean_positive_clamp"))));
  double minutes = 0.0;
  for (const DebriefStep& step : par) minutes += step.minutes;
  EXPECT_THAT(contents().par_sum, HasSubstr(fmt::format("{:.0f} min", minutes)));
  // The score divides by the same par.
  EXPECT_THAT(test::line(*detour().session.score(), "economy").reason,
              HasSubstr(fmt::format("Par is {:.1f} minutes", minutes)));
}

TEST(Debrief, HoldsTheLearnersListAgainstWhatTheFindingsLeft) {
  const std::string clamp(english().fault("positive_clamp_corroded")), engine(english().fault("engine_seized"));
  EXPECT_THAT(list_named("debrief.suspects_possible").names, Contains(clamp));
  EXPECT_THAT(list_named("debrief.suspects_left_out").names, Contains(clamp));
  EXPECT_THAT(list_named("debrief.suspects_too_soon").names, Contains(HasSubstr(clamp)));
  // Half a volt and more in a joint with the engine turning is no seized engine: struck in time, and rightly.
  EXPECT_THAT(list_named("debrief.suspects_too_soon").names, Not(Contains(HasSubstr(engine))));
  EXPECT_THAT(list_named("debrief.suspects_kept").names, Not(Contains(engine)));
  // Nothing else was struck: most of the catalogue, of which the first dozen are named.
  ASSERT_EQ(list_named("debrief.suspects_kept").names.size(), 13u);
  EXPECT_THAT(list_named("debrief.suspects_kept").names.back(), HasSubstr("more"));
}

TEST(Debrief, PrintsOneFactALine) {
  std::ostringstream out;
  print_debrief(out, contents());
  EXPECT_THAT(out.str(), HasSubstr("It was: "));
  EXPECT_THAT(out.str(), HasSubstr("Par, in all"));
  EXPECT_THAT(out.str(), HasSubstr("Cranking as found: "));
  EXPECT_THAT(out.str(), HasSubstr("On a real vehicle: Read the maker's procedure"));
}

/// Every element that is opened is closed again, in order. HTML's void elements, from its standard: meta here.
void expect_balanced(const std::string& page) {
  std::vector<std::string> open;
  for (std::size_t at = page.find('<'); at != std::string::npos; at = page.find('<', at + 1)) {
    const std::size_t end = page.find('>', at);
    ASSERT_NE(end, std::string::npos);
    const std::string tag = page.substr(at + 1, end - at - 1);
    const std::string name =
        tag.substr(tag.front() == '/' ? 1 : 0, tag.find_first_of(" >", 1) - (tag.front() == '/' ? 1 : 0));
    if (tag.front() == '!' || name == "meta" || tag.back() == '/') continue;
    if (tag.front() != '/') {
      open.push_back(name);
      continue;
    }
    ASSERT_FALSE(open.empty()) << tag;
    ASSERT_EQ(open.back(), name) << page.substr(at > 80 ? at - 80 : 0, 120);
    open.pop_back();
  }
  EXPECT_TRUE(open.empty());
}

TEST(DebriefPage, StandsByItselfAndHoldsWhatTheScreenHolds) {
  const std::string page = debrief_as_html(contents());
  expect_balanced(page);
  for (const char* outside : {"http://", "https://", "src=", "href=", "<script", "url("}) {
    if (std::string(outside) == "http://") continue;  // the namespace of SVG
    EXPECT_THAT(page, Not(HasSubstr(outside)));
  }
  for (const DebriefStep& step : contents().par) EXPECT_THAT(page, HasSubstr(step.what.substr(0, 12)));
  EXPECT_THAT(page, HasSubstr(contents().suspects_sum));
  EXPECT_THAT(page, HasSubstr("Supervisor"));
  EXPECT_THAT(page, HasSubstr("qualified technician come"));
  EXPECT_THAT(page, HasSubstr("class=\"telling\""));
  EXPECT_THAT(page, HasSubstr("<svg"));
}

TEST(DebriefCommand, WritesThePageAndRefusesAnOpenJob) {
  const fs::path folder = fs::path(::testing::TempDir()) / "voltfall_debrief";
  fs::remove_all(folder);
  fs::create_directories(folder);
  const fs::path record = folder / "job.vfrec", page = folder / "debrief.html";
  test::Learner learner("clicks_in_the_morning");
  ASSERT_FALSE(begin_record(record, 1, learner.session));
  learner.make_safe();
  ::testing::internal::CaptureStderr();
  EXPECT_EQ(debrief_command({.record = record}), 1);
  EXPECT_THAT(::testing::internal::GetCapturedStderr(), HasSubstr("the job is not closed; allowed:"));
  learner.close();
  ::testing::internal::CaptureStdout();
  EXPECT_EQ(debrief_command({.record = record, .html = page.string()}), 0);
  EXPECT_THAT(::testing::internal::GetCapturedStdout(), HasSubstr(page.string()));
  EXPECT_GT(fs::file_size(page), 4000u);
  ::testing::internal::CaptureStderr();
  EXPECT_EQ(debrief_command({.record = folder / "none.vfrec"}), 2);
  EXPECT_THAT(::testing::internal::GetCapturedStderr(), HasSubstr("can't be opened"));
  fs::remove_all(folder);
}

TEST(StillPossible, SaysWhatAHastyNameLeavesOpen) {
  test::Learner learner("clicks_in_the_morning");
  learner.make_safe();
  learner.probe(TestPoint::battery_positive_post, TestPoint::negative_post);
  const int posts = learner.note();
  learner.name("positive_clamp_corroded", {posts});
  TableProgress progress;
  const auto table = table_store().get(learner.session.scenario(), progress);
  const auto open = [&] {
    return still_possible(learner.session.scenario(), learner.session.findings(), learner.session.namings().back(),
                          table, english());
  };
  EXPECT_THAT(open(), HasSubstr("Not shown yet"));
  EXPECT_THAT(open(), HasSubstr("80 are asked"));
  learner.probe(TestPoint::battery_positive_post, TestPoint::positive_clamp);
  const int failing = learner.crank_and_note();
  learner.name("positive_clamp_corroded", {failing});
  // A slack clamp shows the same drop; one that does not give under the hand is not slack.
  EXPECT_THAT(open(), HasSubstr(std::string(english().fault("positive_clamp_slack"))));
  const int heard = learner.note_heard("chatter"), firm = wiggled(learner, "positive_clamp");
  learner.act(LookClosely{"positive_clamp"});
  learner.name("positive_clamp_corroded", {posts, failing, heard, firm, learner.last().number});
  EXPECT_EQ(open(), "");
}

TEST(DebriefText, SaysTheVerdictWithItsPoints) {
  Score score;
  score.total = 83.6;
  score.passed = true;
  EXPECT_EQ(verdict_text(score), "Passed: 83.6 of 100");
  score.passed = false;
  EXPECT_EQ(verdict_text(score), "Not passed: 83.6 of 100");
}

TEST(DebriefText, SaysEachThingDoneInWords) {
  const auto said = [](std::string what, std::string detail) {
    LogEntry entry;
    entry.what = std::move(what);
    entry.detail = std::move(detail);
    return log_text(entry, english());
  };
  EXPECT_EQ(said("safety", "negative_off"), "negative clamp off");
  EXPECT_EQ(said("repair", "renew_relay"), "repair: " + std::string(english().repair("renew_relay")));
  EXPECT_EQ(said("crank", ""), "crank");
  EXPECT_EQ(said("hang", "load_tester"), "hung on: " + std::string(english().device(Device::load_tester)));
  EXPECT_EQ(said("hang", "recorder_channel 2"), "recorder, channel 2");
  EXPECT_EQ(said("hands", "tap starter"), "tapped: " + std::string(english().component("starter")));
  EXPECT_EQ(said("close", ""), "handed back");
}

}  // namespace
}  // namespace voltfall
