#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "walks/walk_progress.h"
#include "walks/walk_text.h"

namespace voltfall {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

/// Progress looks at ids and at what returns, never into a question.
BenchWalk walk(const std::string& id, bool returns = true) {
  BenchWalk made;
  made.id = id;
  for (const WalkPageKind kind :
       {WalkPageKind::predict, WalkPageKind::see, WalkPageKind::explain, WalkPageKind::unlike}) {
    WalkPage page;
    page.kind = kind;
    if (kind == WalkPageKind::predict && returns) page.repeat.emplace();
    made.pages.push_back(std::move(page));
  }
  return made;
}

const std::vector<BenchWalk>& walks() {
  static const std::vector<BenchWalk> made{walk("one"), walk("two"), walk("three"), walk("once_only", false)};
  return made;
}

constexpr WalkReply right{1, 0, true}, wrong{2, 1, false};

WalkPlace at(const std::string& id, WalkPageKind page) {
  return {id, false, page};
}

WalkPlace returning(const std::string& id) {
  return {id, true, WalkPageKind::predict};
}

void go_through(WalkProgress& progress, const BenchWalk& walk, const WalkReply& predicted,
                const WalkReply& returned = right) {
  progress.begin(walk, walks());
  while (progress.here()->returning) {
    progress.reply(returned);
    ASSERT_TRUE(progress.go_on());
  }
  progress.reply(predicted);
  ASSERT_TRUE(progress.go_on());
  ASSERT_TRUE(progress.go_on());
  progress.explain("because");
  ASSERT_TRUE(progress.go_on());
  progress.reply(right);
  ASSERT_TRUE(progress.go_on());
}

TEST(WalkProgress, GoesPageByPageAndOnlyWithAnAnswer) {
  WalkProgress progress;
  EXPECT_FALSE(progress.here() || progress.go_on() || progress.go_back());
  progress.begin(walks()[0], walks());
  EXPECT_EQ(progress.here(), at("one", WalkPageKind::predict));
  EXPECT_FALSE(progress.go_on()) << "nothing predicted yet";
  progress.reply(right);
  EXPECT_TRUE(progress.go_on());
  EXPECT_EQ(progress.here(), at("one", WalkPageKind::see));
  EXPECT_TRUE(progress.go_on());
  EXPECT_FALSE(progress.go_on()) << "nothing explained yet";
  progress.explain("  \n");
  EXPECT_FALSE(progress.go_on()) << "blanks explain nothing";
  progress.explain("volts need current");
  EXPECT_TRUE(progress.go_on());
  EXPECT_EQ(progress.here(), at("one", WalkPageKind::unlike));
  EXPECT_FALSE(progress.go_on());
  progress.reply(wrong);
  EXPECT_TRUE(progress.go_on());
  EXPECT_FALSE(progress.here().has_value());
  const WalkNotes* notes = progress.notes("one");
  ASSERT_NE(notes, nullptr);
  EXPECT_TRUE(notes->finished);
  EXPECT_EQ(notes->predicted, right);
  EXPECT_EQ(notes->unlike, wrong);
  EXPECT_EQ(notes->line, "volts need current");
}

TEST(WalkProgress, AFirstReplyStands) {
  WalkProgress progress;
  progress.begin(walks()[0], walks());
  progress.reply(wrong);
  progress.reply(right);
  EXPECT_EQ(progress.replied(), wrong);
  EXPECT_THAT(progress.missed(), ElementsAre("one"));
  progress.go_on();
  progress.reply(right);  // nothing is asked on the page where one looks
  EXPECT_FALSE(progress.replied().has_value());
  EXPECT_TRUE(progress.go_back());
  EXPECT_EQ(progress.replied(), wrong) << "looking back changes nothing";
  EXPECT_FALSE(progress.go_back());
}

TEST(WalkProgress, AWrongPredictionReturnsInTheNextWalkAndIsGoneOnceRight) {
  WalkProgress progress;
  go_through(progress, walks()[0], wrong);
  EXPECT_THAT(progress.missed(), ElementsAre("one"));
  progress.begin(walks()[1], walks());
  EXPECT_EQ(progress.here(), returning("one")) << "before the walk's own first page";
  EXPECT_FALSE(progress.go_on());
  EXPECT_FALSE(progress.go_back());
  progress.reply(right);
  EXPECT_THAT(progress.missed(), IsEmpty());
  EXPECT_TRUE(progress.go_on());
  EXPECT_EQ(progress.here(), at("two", WalkPageKind::predict));
  EXPECT_FALSE(progress.replied().has_value()) << "the reply to what returned is not this walk's";
  progress.begin(walks()[2], walks());
  EXPECT_EQ(progress.here(), at("three", WalkPageKind::predict));
}

TEST(WalkProgress, StillWrongItReturnsAgain) {
  WalkProgress progress;
  go_through(progress, walks()[0], wrong);
  go_through(progress, walks()[1], wrong, wrong);
  EXPECT_THAT(progress.missed(), ElementsAre("one", "two"));
  progress.begin(walks()[2], walks());
  EXPECT_EQ(progress.here(), returning("one"));
  progress.reply(right);
  progress.go_on();
  EXPECT_EQ(progress.here(), returning("two"));
  EXPECT_FALSE(progress.replied().has_value());
  progress.reply(right);
  EXPECT_THAT(progress.missed(), IsEmpty());
}

TEST(WalkProgress, AWalksOwnQuestionDoesNotReturnInItselfNorOneWithoutAnotherForm) {
  WalkProgress progress;
  go_through(progress, walks()[0], wrong);
  progress.begin(walks()[0], walks());
  EXPECT_EQ(progress.here(), at("one", WalkPageKind::predict));
  progress.reply(right);
  EXPECT_THAT(progress.missed(), ElementsAre("one")) << "its answer was known by then";
  go_through(progress, walks()[3], wrong);
  progress.begin(walks()[0], walks());
  EXPECT_EQ(progress.here(), at("one", WalkPageKind::predict));
  EXPECT_TRUE(progress.notes("one")->finished) << "taken again, it stays finished";
  EXPECT_FALSE(progress.replied().has_value()) << "and is asked anew";
}

TEST(WalkProgress, CutsALineBetweenCharacters) {
  WalkProgress progress;
  progress.begin(walks()[0], walks());
  progress.explain("too soon");
  EXPECT_EQ(progress.notes("one")->line, "");
  progress.reply(right);
  progress.go_on();
  progress.go_on();
  std::string line;
  for (int i = 0; i < 200; ++i) line += "°";
  progress.explain(line);
  EXPECT_EQ(characters_in(progress.notes("one")->line), longest_walk_line);
  EXPECT_EQ(progress.notes("one")->line.size(), 2 * longest_walk_line);
}

TEST(WalkProgressJson, ComesBackAsItWent) {
  WalkProgress progress;
  EXPECT_EQ(walk_progress_in(progress.to_json(), walks()).progress, progress);
  go_through(progress, walks()[0], wrong);
  progress.begin(walks()[1], walks());
  for (int step = 0; step < 6; ++step) {  // from every place that it can be left at
    const ReadWalkProgress read = walk_progress_in(progress.to_json(), walks());
    EXPECT_EQ(read.message, "");
    EXPECT_EQ(read.progress, progress) << progress.to_json();
    progress.reply(wrong);
    progress.explain("a \"line\"\nof two, 20 °C");
    EXPECT_EQ(walk_progress_in(progress.to_json(), walks()).progress, progress) << progress.to_json();
    progress.go_on();
  }
  EXPECT_FALSE(progress.here().has_value());
}

TEST(WalkProgressJson, BytesThatAreNoTextDoNotEndIt) {
  WalkProgress progress;
  progress.begin(walks()[0], walks());
  progress.reply(right);
  progress.go_on();
  progress.go_on();
  progress.explain("bad \xff byte");
  const ReadWalkProgress read = walk_progress_in(progress.to_json(), walks());
  EXPECT_EQ(read.message, "");
  EXPECT_EQ(read.progress.here(), progress.here());
}

TEST(WalkProgressJson, JunkIsAFreshStartWithAMessage) {
  WalkProgress progress;
  go_through(progress, walks()[0], wrong);
  progress.begin(walks()[1], walks());
  const std::string whole = progress.to_json();
  for (std::size_t length = 0; length + 1 < whole.size(); ++length) {
    const ReadWalkProgress read = walk_progress_in(std::string_view(whole).substr(0, length), walks());
    EXPECT_NE(read.message, "") << "cut off after " << length;
    EXPECT_EQ(read.progress, WalkProgress());
  }
  for (const std::string& junk : {std::string("null"), std::string("[]"), std::string("\xff\xfe"), std::string("{}"),
                                  std::string(100000, '['), std::string(2 << 20, ' ')}) {
    EXPECT_NE(walk_progress_in(junk, walks()).message, "") << junk.substr(0, 20);
  }
}

TEST(WalkProgressJson, AWrongKindOfValueAnywhereIsAFreshStart) {
  WalkProgress progress;
  go_through(progress, walks()[0], wrong);
  progress.begin(walks()[1], walks());
  progress.reply(wrong);
  const auto whole = nlohmann::json::parse(progress.to_json()).flatten();
  ASSERT_GT(whole.size(), 10U);
  for (const auto& [path, value] : whole.items()) {
    if (path.ends_with("/line") && value.is_string()) continue;  // any text is a line
    auto broken = whole;
    broken[path] = value.is_boolean() ? nlohmann::json("yes") : nlohmann::json(true);
    EXPECT_NE(walk_progress_in(broken.unflatten().dump(), walks()).message, "") << path;
    if (!value.is_number()) continue;
    broken[path] = -1;
    EXPECT_NE(walk_progress_in(broken.unflatten().dump(), walks()).message, "") << path << " at -1";
  }
}

TEST(WalkProgressJson, LeavesOutWhatBelongsToWalksThatAreGone) {
  WalkProgress progress;
  go_through(progress, walks()[0], wrong);
  go_through(progress, walks()[1], wrong, wrong);
  progress.begin(walks()[2], walks());
  progress.reply(wrong);  // to what returned from `one`
  const std::vector<BenchWalk> fewer{walk("two"), walk("three")};
  const ReadWalkProgress read = walk_progress_in(progress.to_json(), fewer);
  EXPECT_EQ(read.message, "");
  EXPECT_THAT(read.progress.missed(), ElementsAre("two"));
  EXPECT_EQ(read.progress.here(), returning("two"));
  EXPECT_FALSE(read.progress.replied().has_value()) << "the reply belonged to the other question";
  EXPECT_EQ(read.progress.notes("one"), nullptr);
  const std::vector<BenchWalk> others{walk("one")};
  EXPECT_FALSE(walk_progress_in(progress.to_json(), others).progress.here().has_value());
}

}  // namespace
}  // namespace voltfall
