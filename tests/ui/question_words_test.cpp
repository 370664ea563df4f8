#include "wording/question_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "diagnosis/test_list.h"
#include "sim/worked_job.h"

namespace voltfall {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

std::vector<std::string> every_job() {
  std::vector<std::string> ids;
  for (const auto& entry :
       std::filesystem::directory_iterator(std::filesystem::path(VOLTFALL_SOURCE_DIR) / "scenarios")) {
    if (entry.path().extension() == ".toml") ids.push_back(entry.path().stem().string());
  }
  return ids;
}

TEST(QuestionWords, EveryConditionHasItsOwn) {
  std::set<std::string_view> words;
  for (const Condition condition : all_conditions()) {
    const std::string path = "condition." + std::string(id_of(condition));
    ASSERT_TRUE(english().has(path)) << path;
    EXPECT_TRUE(words.insert(english().text(path)).second) << path;
  }
}

TEST(QuestionWords, EverySensibleQuestionIsAskedInWordsOfItsOwn) {
  for (const std::string& id : every_job()) {
    const Scenario job = test::with_whole_kit(test::shipped(id));
    std::set<std::string> asked;
    for (const Question& question : sensible_questions(job)) {
      const std::string words = question_in_words(question, english());
      EXPECT_TRUE(asked.insert(words).second) << id << ": two tests are called " << words;
      EXPECT_THAT(words, Not(HasSubstr("_"))) << "an id shows through";
      EXPECT_THAT(words, Not(HasSubstr("question.")));
    }
  }
}

TEST(QuestionWords, EveryAnswerIsSaidInWords) {
  const Scenario job = test::with_whole_kit(test::shipped("clicks_in_the_morning"));
  for (const Question& question : sensible_questions(job)) {
    std::set<std::string> said;
    for (int answer = 0; answer < answers_to(question); ++answer) {
      const std::string words = answer_words(question, answer, english());
      EXPECT_THAT(words, Not(HasSubstr("_"))) << question_in_words(question, english());
      EXPECT_TRUE(said.insert(words).second) << words;
    }
  }
}

TEST(QuestionWords, ReadAsAPersonWouldSayThem) {
  Question posts{
      Finding::Kind::volts, Condition::rest, TestPoint::battery_positive_post, TestPoint::negative_post, {}, 0, {}};
  EXPECT_EQ(question_in_words(posts, english()), "battery posts, at rest");
  Question drop = posts;
  drop.black = TestPoint::positive_clamp;
  drop.condition = Condition::cranking;
  EXPECT_EQ(question_in_words(drop, english()), "volts from bat. + post to + clamp, cranking");
  EXPECT_EQ(answer_words(drop, static_cast<int>(Answer::above), english()), "over its limit");
}

}  // namespace
}  // namespace voltfall
