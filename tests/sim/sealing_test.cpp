#include <gmock/gmock.h>

#include <fstream>
#include <sstream>

#include "sealing/bytes.h"
#include "sealing/json_fields.h"
#include "sealing/line_chain.h"
#include "sealing/program_key.h"
#include "sealing/release.h"
#include "sealing/sealed_job.h"
#include "sim/worked_job.h"

namespace voltfall {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

Bytes bytes_in_hex(std::string_view digits) {
  Bytes bytes;
  for (std::size_t i = 0; i + 1 < digits.size(); i += 2) {
    bytes.push_back(static_cast<char>(std::stoi(std::string(digits.substr(i, 2)), nullptr, 16)));
  }
  return bytes;
}

// RFC 4648, section 10.
TEST(Base64, GivesThePublishedVectors) {
  EXPECT_EQ(base64(""), "");
  EXPECT_EQ(base64("f"), "Zg==");
  EXPECT_EQ(base64("foob"), "Zm9vYg==");
  EXPECT_EQ(base64("foobar"), "Zm9vYmFy");
  EXPECT_EQ(from_base64("Zm9vYg=="), "foob");
  EXPECT_FALSE(from_base64("Zm9vYg"));
  EXPECT_FALSE(from_base64("Zm9v Yg=="));
}

// RFC 8032, section 7.1, test 2.
TEST(Signature, OfThePublishedVectorIsTakenAndNoOther) {
  const InstructorName name{{}, bytes_in_hex("3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c")};
  const Bytes signature = bytes_in_hex(
      "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aee"
      "b00d"
      "291612bb0c00");
  EXPECT_TRUE(is_signed(name, "\x72", signature));
  EXPECT_FALSE(is_signed(name, "\x73", signature));
  EXPECT_FALSE(is_signed(name, "\x72", signature.substr(1)));
}

TEST(InstructorKey, ComesBackFromItsFile) {
  const InstructorKey key = InstructorKey::made();
  const auto again = InstructorKey::in_text(key.text());
  ASSERT_TRUE(again);
  EXPECT_EQ(again->name(), key.name());
  EXPECT_EQ(again->opened(sealed_to(key.name().box, "the answer")), "the answer");
  EXPECT_TRUE(is_signed(key.name(), "a job", again->signature_of("a job")));
  EXPECT_NE(InstructorKey::made().name(), key.name());
}

TEST(InstructorKey, IsNotFoundInOtherFiles) {
  for (const char* text :
       {"", "{", "[]", "{\"voltfall\":1}", "{\"v\":1,\"voltfall\":\"instructor's key\",\"secret\":\"Zm9v\"}"}) {
    EXPECT_FALSE(InstructorKey::in_text(text)) << text;
  }
}

/// A job sealed for a pupil, and what opens it.
struct Dealt {
  InstructorKey key = InstructorKey::made();
  Scenario scenario = test::shipped("clicks_in_the_morning");
  std::string text = sealed_job_text(scenario.id, scenario.source_text, "AB-12", key);
};

TEST(SealedJob, ShowsNothingOfTheScenario) {
  const Dealt dealt;
  for (const char* word : {"corroded", "clamp", "Clicks", "battery", "severity"}) {
    EXPECT_THAT(dealt.text, Not(HasSubstr(word)));
  }
}

// Neither length nor digest tells one answer from another.
TEST(SealedJob, OfAShortAnswerIsAsLongAsThatOfALongOne) {
  const InstructorKey key = InstructorKey::made();
  const auto sealed = [&](std::string_view answer) { return sealed_job_text("job", answer, "A", key); };
  EXPECT_EQ(sealed("brushes_worn").size(), sealed("positive_cable_undersized, and a longer text besides").size());
  EXPECT_NE(sealed("brushes_worn"), sealed("brushes_worn"));
}

TEST(SealedJob, OpensForTheProgramWithItsScoreClosed) {
  const Dealt dealt;
  ReadScenario read = by_program()(dealt.text, "x.vfjob");
  ASSERT_TRUE(read.scenario);
  EXPECT_EQ(read.scenario->source_text, dealt.scenario.source_text);
  EXPECT_EQ(read.scenario->id, dealt.scenario.id);
  ASSERT_TRUE(read.scenario->seal);
  EXPECT_EQ(read.scenario->seal->code, "AB-12");
  EXPECT_TRUE(read.scenario->score_stays_closed());
}

TEST(SealedJob, OpensWithItsKeyAndNoOther) {
  const Dealt dealt;
  const ReadScenario own = by_key(dealt.key)(dealt.text, "x.vfjob");
  ASSERT_TRUE(own.scenario);
  EXPECT_FALSE(own.scenario->score_stays_closed());
  EXPECT_EQ(own.scenario->seal->job, by_program()(dealt.text, "x.vfjob").scenario->seal->job);
  const ReadScenario foreign = by_key(InstructorKey::made())(dealt.text, "x.vfjob");
  EXPECT_FALSE(foreign.scenario);
  EXPECT_THAT(foreign.problems.front().text(), HasSubstr("x.vfjob: foreign"));
  EXPECT_THAT(by_no_key()(dealt.text, "x.vfjob").problems.front().text(), HasSubstr("opens only in the Bay"));
}

TEST(SealedJob, ThatWasChangedAnywhereIsRefused) {
  const Dealt dealt;
  int tried = 0;
  for (std::size_t at = 20; at < dealt.text.size(); at += 997) {
    std::string changed = dealt.text;
    changed[at] = changed[at] == 'A' ? 'B' : 'A';
    if (changed == dealt.text) continue;
    ++tried;
    EXPECT_FALSE(by_program()(changed, "x").scenario) << at;
    EXPECT_FALSE(by_key(dealt.key)(changed, "x").scenario) << at;
  }
  EXPECT_GT(tried, 10);
  EXPECT_FALSE(by_program()(dealt.text.substr(0, dealt.text.size() / 2), "x").scenario);
}

// A pupil with a key of his own must not pass as dealt by his instructor.
TEST(SealedJob, OfAnEasierJobUnderTheInstructorsNameIsRefused) {
  const Dealt dealt;
  auto json = nlohmann::ordered_json::parse(sealed_job_text("easy", "answer", "AB-12", InstructorKey::made()));
  const auto own = nlohmann::ordered_json::parse(dealt.text);
  for (const char* field : {"instructor_box", "instructor_sign"}) json[field] = own[field];
  EXPECT_FALSE(by_key(dealt.key)(json.dump(), "x").scenario);
  EXPECT_FALSE(by_program()(json.dump(), "x").scenario);
}

TEST(SealedJob, CodeIsLettersDigitsAndHyphens) {
  const InstructorKey key = InstructorKey::made();
  for (const char* code : {"", "a b", "../x", "x\n", "12345678901234567890123456789012345678901"}) {
    EXPECT_THROW(sealed_job_text("job", "text", code, key), std::invalid_argument) << code;
  }
}

// Its own mistakes would tell what is in it.
TEST(SealedJob, ThatHoldsNoScenarioSaysNothingOfIt) {
  const InstructorKey key = InstructorKey::made();
  const ReadScenario read = by_program()(sealed_job_text("job", "[fault]\nid = \"brushes\"", "A", key), "x.vfjob");
  ASSERT_EQ(read.problems.size(), 1U);
  EXPECT_THAT(read.problems.front().text(), Not(HasSubstr("brushes")));
}

TEST(Release, OpensTheScoreOfItsJobsAlone) {
  const Dealt dealt, other;
  const Seal seal = *by_program()(dealt.text, "x").scenario->seal;
  const auto release = release_in(release_text({seal.job}, dealt.key));
  ASSERT_TRUE(release);
  const SealOpener opener = by_releases({*release});
  EXPECT_FALSE(opener(dealt.text, "x").scenario->score_stays_closed());
  EXPECT_TRUE(opener(other.text, "x").scenario->score_stays_closed());
  // One that anybody could make.
  const SealOpener forged = by_releases({*release_in(release_text({seal.job}, InstructorKey::made()))});
  EXPECT_TRUE(forged(dealt.text, "x").scenario->score_stays_closed());
}

TEST(Release, ThatWasChangedIsNone) {
  const InstructorKey key = InstructorKey::made();
  auto json = nlohmann::json::parse(release_text({"aa"}, key));
  json["jobs"] = {"aa", "bb"};
  EXPECT_FALSE(release_in(json.dump()));
  EXPECT_FALSE(release_in("{}"));
  EXPECT_FALSE(release_in("nonsense"));
}

// ---- the chain of a record's lines

std::string chain_of(LineChain& chain, int lines) {
  std::string text;
  for (int i = 0; i < lines; ++i) text += chain.next_line({{"step", i}}) + "\n";
  return text;
}

std::string without_line(const std::string& text, int line) {
  std::istringstream in(text);
  std::string row, rest;
  for (int number = 1; std::getline(in, row); ++number) rest += number == line ? "" : row + "\n";
  return rest;
}

std::string broken(const std::string& text) {
  const CheckedChain checked = check_chain(text);
  return checked.broken ? std::to_string(checked.broken->line) + " " + checked.broken->what : "whole";
}

TEST(LineChain, HoldsAndSaysHowFarItHasCome) {
  LineChain chain = LineChain::begun();
  const std::string text = chain_of(chain, 5);
  EXPECT_EQ(broken(text), "whole");
  EXPECT_EQ(check_chain(text).place.lines, 5);
  EXPECT_EQ(check_chain(text).place.head, chain.place().head);
  LineChain resumed(check_chain(text).place);
  EXPECT_EQ(broken(text + chain_of(resumed, 3)), "whole");
}

TEST(LineChain, TellsWhatWasDoneToIt) {
  LineChain chain = LineChain::begun(), second = LineChain::begun();
  const std::string text = chain_of(chain, 5), other = chain_of(second, 5);
  std::string edited = text;
  edited.replace(edited.find("\"step\":2"), 8, "\"step\":9");
  EXPECT_THAT(broken(edited), HasSubstr("3 edited"));
  EXPECT_THAT(broken(without_line(text, 3)), HasSubstr("3 cut: line 4 of the record follows line 2"));
  EXPECT_THAT(broken(text.substr(0, text.size() - 1)), HasSubstr("5 cut"));
  EXPECT_THAT(broken(text + text), HasSubstr("6 spliced: line 1"));
  std::string spliced = without_line(text, 5);
  spliced += without_line(without_line(without_line(without_line(other, 1), 1), 1), 1);
  EXPECT_THAT(broken(spliced), HasSubstr("5 spliced: the line comes from another record"));
  EXPECT_THAT(broken("nonsense\n"), HasSubstr("1 the line is damaged"));
}

// Another branch of the same record: numbers and id fit, what stands before does not.
TEST(LineChain, TellsALineOfAnotherBranch) {
  LineChain chain = LineChain::begun();
  const std::string start = chain_of(chain, 2);
  LineChain branch = chain;
  const std::string own = chain_of(chain, 2);
  branch.next_line({{"step", 70}});
  const std::string strange = branch.next_line({{"step", 80}}) + "\n";
  EXPECT_EQ(broken(start + own), "whole");
  EXPECT_THAT(broken(start + own.substr(0, own.find('\n') + 1) + strange), HasSubstr("4 edited"));
}

// The record's id becomes the name of a file.
TEST(LineChain, TakesNoRecordIdThatCouldBeAPath) {
  LineChain chain(ChainPlace{"../../../../etc/passwd", 0, {}});
  EXPECT_THAT(broken(chain.next_line({{"step", 0}}) + "\n"), HasSubstr("names no record"));
}

}  // namespace
}  // namespace voltfall
