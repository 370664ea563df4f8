#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "walks/read_walk.h"
#include "walks/walk_answer.h"

namespace voltfall {
namespace {

using testing::HasSubstr;

// A walk as an instructor might write it: sound, short, and easy to break in one place.
constexpr std::string_view sound_text = R"(number = 11
group = "circuit"
title = "A clamp"
intro = "One clamp."

[predict]
question = "Post to clamp, cranking?"
vehicle = "pickup_v8"
measure = "volts"
red = "battery_positive_post"
black = "positive_clamp"
setup = { "joints.positive_clamp.added_ohm" = 0.01 }
choice = [
  { words = "nothing", to = 0.3 },
  { words = "volts", from = 1, to = 4 },
  { words = "all", from = 9 },
]
reason = [
  { words = "current flows", right = true },
  { words = "it is green" },
]

[predict.repeat]
question = "And with paint?"
vehicle = "van_six"
measure = "loop_A"
against = "ratio"
setup = { faults = [{ id = "mounting_face_painted", severity = 0.01 }] }
compare = { setup = {} }
choice = [
  { words = "less", to = 0.75 },
  { words = "the same", from = 0.75, to = 1.25 },
  { words = "more", from = 1.25 },
]

[[see]]
words = "Look."
view = "volts"

[[see]]
words = "Turn it up."
view = "threshold"
sweep = { knob = "battery.charge", from = 1, to = 0.1 }

[explain]
ask = "Why?"
ours = "Because."

[unlike]
question = "The small car?"
vehicle = "compact_four"
measure = "state"
choice = [
  { words = "cranks", is = ["cranking", "labouring"] },
  { words = "clicks", is = "not_engaged" },
  { words = "chatters", is = "chattering" },
]
)";

std::string with(std::string_view old_words, std::string_view new_words) {
  std::string text(sound_text);
  const std::size_t at = text.find(old_words);
  if (at == std::string::npos) throw std::logic_error("not in the sound walk: " + std::string(old_words));
  return text.replace(at, old_words.size(), new_words);
}

int line_of(std::string_view words) {
  const std::size_t at = sound_text.find(words);
  return static_cast<int>(std::count(sound_text.begin(), sound_text.begin() + static_cast<std::ptrdiff_t>(at), '\n')) +
         1;
}

BenchWalk sound_walk() {
  return read_walk_text(sound_text, "walks/clamp.toml").walk.value();
}

/// One slip makes the walk unusable and is told of in its place, with what would be allowed.
void expect_refused(std::string_view old_words, std::string_view new_words, const std::vector<std::string>& told,
                    std::string_view place = {}) {
  const ReadWalk read = read_walk_text(with(old_words, new_words), "bad.toml");
  EXPECT_FALSE(read.walk.has_value()) << new_words;
  ASSERT_FALSE(read.problems.empty()) << new_words;
  const int line = line_of(place.empty() ? old_words : place);
  const auto here = std::find_if(read.problems.begin(), read.problems.end(),
                                 [&](const Problem& problem) { return problem.line == line; });
  ASSERT_NE(here, read.problems.end()) << new_words << "\nfirst: " << read.problems.front().text();
  EXPECT_GT(here->column, 0);
  EXPECT_EQ(here->file, "bad.toml");
  for (const std::string& words : told) EXPECT_THAT(here->what, HasSubstr(words));
}

TEST(ReadWalkFile, ReadsEveryPart) {
  const BenchWalk walk = sound_walk();
  EXPECT_EQ(walk.id, "clamp");
  EXPECT_EQ(walk.number, 11);
  EXPECT_EQ(walk.minutes, 5.0);
  ASSERT_EQ(walk.pages.size(), 4U);
  const WalkQuestion& question = *walk.page(WalkPageKind::predict).question;
  EXPECT_EQ(question.trial.vehicle->id, "pickup_v8");
  EXPECT_EQ(question.trial.key_s, 1.5);
  EXPECT_EQ(question.measured.red, TestPoint::battery_positive_post);
  EXPECT_EQ(set_up(*question.trial.vehicle, question.trial.setup).joints.positive_clamp.added_ohm, 0.01);
  EXPECT_EQ(question.at.line, line_of("[predict]"));
  const WalkQuestion& repeat = *walk.page(WalkPageKind::predict).repeat;
  EXPECT_EQ(repeat.against, WalkAgainst::ratio);
  EXPECT_EQ(repeat.reasons.size(), 2U) << "a repeat without reasons has those of its predict";
  EXPECT_EQ(set_up(*repeat.trial.vehicle, repeat.trial.setup).joints.mounting_face.added_ohm, 0.01);
  EXPECT_TRUE(repeat.compare_trial.setup.faults.empty());
  const auto& sights = walk.page(WalkPageKind::see).sights;
  ASSERT_EQ(sights.size(), 2U);
  EXPECT_EQ(sights[0].trial.vehicle->id, "pickup_v8") << "a sight is on the predicted vehicle unless it says otherwise";
  EXPECT_EQ(sights[1].sweep->to, 0.1);
}

TEST(ReadWalkFile, TakesPathsInQuotesOrDotted) {
  const ReadWalk read = read_walk_text(
      with("{ \"joints.positive_clamp.added_ohm\" = 0.01 }", "{ joints.positive_clamp.added_ohm = 0.01 }"), "w.toml");
  ASSERT_TRUE(read.walk) << read.problems.front().text();
  const WalkTrial& trial = read.walk->page(WalkPageKind::predict).question->trial;
  EXPECT_EQ(set_up(*trial.vehicle, trial.setup).joints.positive_clamp.added_ohm, 0.01);
}

TEST(ReadWalkFile, TellsWhereANameIsWrongAndWhichIsNearest) {
  expect_refused("vehicle = \"pickup_v8\"", "vehicle = \"pickup_v6\"", {"pickup_v6", "allowed", "nearest: pickup_v8"});
  expect_refused("measure = \"volts\"", "measure = \"volt\"", {"nearest: volts"});
  expect_refused("\"battery_positive_post\"", "\"battery_positive_pots\"", {"nearest: battery_positive_post"});
  expect_refused("joints.positive_clamp.added_ohm", "joints.positive_clamp.aded_ohm",
                 {"nearest: joints.positive_clamp.added_ohm"});
  expect_refused("mounting_face_painted", "mounting_face_paint", {"nearest: mounting_face_painted"});
  expect_refused("is = \"chattering\"", "is = \"chatering\"", {"nearest: chattering"});
  expect_refused("view = \"volts\"", "view = \"volt\"", {"engage, volts, threshold"});
  expect_refused("knob = \"battery.charge\"", "knob = \"battery.charg\"", {"nearest: battery.charge"});
  // A value of the vehicle, but none that the bench has a knob for.
  expect_refused("knob = \"battery.charge\"", "knob = \"engine.bore_m\"",
                 {"'engine.bore_m' is not", "nearest: engine."});
  expect_refused("group = \"circuit\"", "group = \"motor\"", {"circuit, starter"});
  expect_refused("ask = \"Why?\"", "asks = \"Why?\"", {"nearest: ask"});
}

TEST(ReadWalkFile, TellsWhatIsOutOfRange) {
  expect_refused("added_ohm\" = 0.01", "added_ohm\" = -1", {"allowed: 0 to"});
  expect_refused("severity = 0.01", "severity = 9", {"mounting_face_painted", "allowed: 0.003 to 0.06"});
  expect_refused("number = 11", "number = 1.5", {"whole number"});
  expect_refused("number = 11", "number = 0", {"allowed: 1 to 999"});
  expect_refused("from = 1, to = 0.1", "from = 1, to = 1", {"two ends are the same"});
  expect_refused("from = 1, to = 0.1", "from = 1, to = 1.2", {"allowed: 0 to 1"});
  expect_refused("measure = \"loop_A\"", "key_s = 99\nmeasure = \"loop_A\"", {"key_s", "allowed: 0.5 to 15 s"});
}

TEST(ReadWalkFile, TellsWhatIsMissingOrTooMuch) {
  expect_refused("red = \"battery_positive_post\"\n", "", {"predict.red is missing"}, "[predict]");
  expect_refused("measure = \"state\"", "red = \"body\"\nmeasure = \"state\"", {"without leads"});
  expect_refused("against = \"ratio\"\n", "", {"allowed: both, or neither"}, "[predict.repeat]");
  expect_refused("  { words = \"all\", from = 9 },\n", "", {"allowed: 3 times"}, "choice = [");
  expect_refused("view = \"threshold\"\nsweep", "view = \"volts\"\nsweep", {"only there"}, "[[see]]\nwords = \"Turn");
  expect_refused("ours = \"Because.\"", "ours = \"\"", {"empty"});
}

TEST(ReadWalkFile, RefusesBandsThatOverlapOrAreEmpty) {
  expect_refused("from = 1, to = 4", "from = 0.2, to = 4", {"number 1", "do not overlap"});
  expect_refused("from = 1, to = 4", "from = 4, to = 1", {"empty"});
  expect_refused("{ words = \"all\", from = 9 }", "{ words = \"all\" }", {"allowed: from, to, or both"});
  expect_refused("is = \"not_engaged\"", "is = \"labouring\"", {"do not overlap"});
}

TEST(ReadWalkFile, WantsOneRightReasonAndNoRightChoice) {
  expect_refused("words = \"it is green\"", "words = \"it is green\", right = true", {"exactly one"}, "reason = [");
  expect_refused(", right = true", "", {"exactly one"}, "reason = [");
  // An author can't write the answer down: it is the model's to give.
  expect_refused("{ words = \"nothing\", to = 0.3 }", "{ words = \"nothing\", to = 0.3, right = true }",
                 {"'right' is not a key"});
}

TEST(ReadWalkFile, WantsTheUnlikeItemOnAnotherVehicle) {
  expect_refused("vehicle = \"compact_four\"", "vehicle = \"pickup_v8\"", {"allowed: another: van_six, compact_four"},
                 "[unlike]");
}

TEST(ReadWalkFile, RefusesTextsThatNobodyReads) {
  expect_refused("title = \"A clamp\"", "title = \"" + std::string(41, 'x') + "\"", {"41 characters", "at most 40"});
  expect_refused("ours = \"Because.\"", "ours = \"" + std::string(161, 'x') + "\"", {"at most 160"});
}

TEST(ReadWalkFile, RefusesFaultsOfTheOtherGearboxAndTwoOfOneValue) {
  expect_refused("id = \"mounting_face_painted\", severity = 0.01", "id = \"neutral_switch_wet\"",
                 {"can't be on van_six"});
  expect_refused("[{ id = \"mounting_face_painted\", severity = 0.01 }]",
                 R"([{ id = "relay_contacts_pitted" }, { id = "relay_contact_open" }])", {"one fault for each value"});
}

TEST(ReadWalkFile, SurvivesWhatIsNoWalk) {
  for (const std::string& text :
       {std::string("number = "), std::string("[,"), std::string(), std::string("see = 3"), std::string("predict = []"),
        std::string("\xff\xfe"), std::string(100000, '['), "a" + std::string(5000, '.') + "b = 1",
        std::string("[[see]]\nwords = 1\nview = 2")}) {
    const ReadWalk read = read_walk_text(text, "bad.toml");
    EXPECT_FALSE(read.walk.has_value()) << text.substr(0, 40);
    EXPECT_FALSE(read.problems.empty()) << text.substr(0, 40);
  }
  EXPECT_FALSE(read_walk("/nowhere/at/all.toml").problems.empty());
}

TEST(ReadWalkFile, OneBadFileKeepsNoOtherAway) {
  const std::filesystem::path folder = std::filesystem::path(testing::TempDir()) / "voltfall_walks_read_test";
  std::filesystem::remove_all(folder);
  std::filesystem::create_directories(folder);
  std::ofstream(folder / "b.toml") << sound_text;
  std::ofstream(folder / "a.toml") << with("number = 11", "number = 12");
  std::ofstream(folder / "bad.toml") << "number = 3";
  std::ofstream(folder / "notes.txt") << "not a walk";
  const ReadWalks read = read_walks(folder);
  ASSERT_EQ(read.walks.size(), 2U);
  EXPECT_EQ(read.walks[0].id, "b") << "by number, not by name";
  EXPECT_FALSE(read.problems.empty());
  for (const Problem& problem : read.problems) EXPECT_THAT(problem.file, HasSubstr("bad.toml"));
  std::ofstream(folder / "c.toml") << sound_text;
  EXPECT_THAT(read_walks(folder).problems.back().what, HasSubstr("number 11 is also that of"));
  EXPECT_EQ(read_walks(folder / "none").problems.size(), 1U);
  std::filesystem::remove_all(folder);
}

TEST(WalkAnswers, AreTheModels) {
  const BenchWalk walk = sound_walk();
  const WalkQuestion& ratio = *walk.page(WalkPageKind::predict).repeat;
  const WalkAnswer found = answer(ratio);
  RigParameters van = vehicle_type_named("van_six")->healthy;
  const auto current_A = [](const RigParameters& vehicle) {
    return run_crank(vehicle, {}, {}, {.for_s = 1.5}).settled.loop_A.mean;
  };
  const double sound_A = current_A(van);
  van.joints.mounting_face.added_ohm = 0.01;
  EXPECT_DOUBLE_EQ(found.value.value().figure, current_A(van) / sound_A);
  EXPECT_EQ(found.compare_value.value().figure, sound_A);
  EXPECT_EQ(found.right, 1U);
  EXPECT_EQ(found.doubt, "");
  EXPECT_TRUE(prove(walk).empty());
}

TEST(WalkAnswers, FollowTheModelAndNotTheFile) {
  BenchWalk walk = sound_walk();
  WalkQuestion& question = *walk.pages[0].question;
  EXPECT_EQ(answer(question).right, 1U);
  question.trial.setup.settings[0].value = 0.0;  // the clamp cleaned
  EXPECT_EQ(answer(question).right, 0U);
  question.trial.setup.settings[0].value = 1.0;  // next to open: lamps out, and the relay's coil takes what there is
  EXPECT_NE(answer(question).right, 1U);
}

TEST(WalkAnswers, RefuseBandsThatMissTheModel) {
  const ReadWalk read = read_walk_text(with("from = 1, to = 4", "from = 4, to = 6"), "missed.toml");
  ASSERT_TRUE(read.walk);
  const std::vector<Problem> problems = prove(*read.walk);
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems[0].line, line_of("[predict]"));
  EXPECT_EQ(problems[0].file, "missed.toml");
  EXPECT_THAT(problems[0].what, HasSubstr("no choice is right"));
  EXPECT_THAT(problems[0].what, HasSubstr(" V"));
}

TEST(WalkAnswers, RefuseACloseCall) {
  BenchWalk walk = sound_walk();
  WalkQuestion& question = *walk.pages[0].question;
  const double drop_V = answer(question).value.value().figure;
  question.choices[1].from = drop_V * 0.95;  // within the tenth that a question keeps clear
  EXPECT_THAT(answer(question).doubt, HasSubstr("too near to the edge"));
  EXPECT_EQ(answer(question).right, 1U) << "a doubt for the author; the learner's answer is still right";
  question.margin = 0.02;
  EXPECT_EQ(answer(question).doubt, "");
}

TEST(WalkAnswers, RefuseWhatHangsOnWhereTheEngineWasLeft) {
  // On the brink: where tooth meets tooth the shoe has a harder way, and with this joint it does not get home.
  BenchWalk walk = sound_walk();
  WalkQuestion& question = *walk.pages[3].question;
  question.trial.setup.settings = {{settable_at("joints.starter_terminal.added_ohm"), 0.02}};
  ASSERT_EQ(answer(question).value.value().word, "cranking");
  ASSERT_EQ(answer(question, {300.0, 0.8}).value.value().word, "not_engaged");
  const std::vector<Problem> problems = prove(walk);
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems[0].line, line_of("[unlike]"));
  EXPECT_THAT(problems[0].what, HasSubstr("left at 300 degrees the model gives not_engaged"));
}

TEST(WalkAnswers, SayWhyAQuestionCannotBeWorkedOut) {
  BenchWalk walk = sound_walk();
  WalkQuestion& question = *walk.pages[0].question;
  question.measured.measure = walk_measure_named("engaged_after_s");
  question.trial.setup.settings[0].value = 0.06;  // chatters, never engages
  const WalkAnswer never = answer(question);
  EXPECT_FALSE(never.value || never.right);
  EXPECT_THAT(never.doubt, HasSubstr("gives no engaged_after_s"));
  question.trial.setup.settings = {{settable_at("relay.contact_touch_m"), 0.004},
                                   {settable_at("relay.plunger_travel_m"), 0.002}};
  EXPECT_THAT(answer(question).doubt, HasSubstr("less than relay.plunger_travel_m"));
}

TEST(WalkAnswers, AreToldInAMetersDigits) {
  const BenchWalk walk = sound_walk();
  const WalkQuestion& volts = *walk.page(WalkPageKind::predict).question;
  EXPECT_EQ(text_of(volts, {0.0149, {}}), "0.01 V");
  EXPECT_EQ(text_of(volts, {-0.001, {}}), "0.00 V") << "no meter shows a minus before nothing";
  EXPECT_EQ(text_of(*walk.page(WalkPageKind::predict).repeat, {0.976, {}}), "0.98 times");
  EXPECT_EQ(text_of(*walk.page(WalkPageKind::unlike).question, {0.0, "chattering"}), "chattering");
}

TEST(WalkMeasures, AreNamedOnceAndGiveTheirOwnWords) {
  WalkTrial trial;
  trial.vehicle = vehicle_type_named("compact_four");
  trial.headlamps = true;
  const WalkOutcome outcome = try_out(trial);
  for (const WalkMeasure& measure : all_walk_measures()) {
    EXPECT_EQ(walk_measure_named(measure.id), &measure) << measure.id;
    const auto value = measure.of(outcome, TestPoint::battery_positive_post, TestPoint::negative_post);
    ASSERT_TRUE(value.has_value()) << measure.id;
    const bool word = std::find(measure.words.begin(), measure.words.end(), value->word) != measure.words.end();
    EXPECT_EQ(word, measure.in_words()) << measure.id;
  }
  EXPECT_EQ(walk_measure_named("nothing_such"), nullptr);
}

TEST(WalkMeasures, SeeTheLampsAsTheBayDoes) {
  WalkTrial trial;
  trial.vehicle = vehicle_type_named("pickup_v8");
  const auto look = [&] { return walk_measure_named("lamps")->of(try_out(trial), {}, {})->word; };
  EXPECT_EQ(look(), "off");
  trial.headlamps = true;
  EXPECT_EQ(look(), "bright");
  trial.setup.settings = {{settable_at("joints.positive_clamp.added_ohm"), 0.05}};
  EXPECT_EQ(look(), "out");
  trial.key_at_start = false;
  EXPECT_EQ(look(), "bright") << "with the key off the lamps alone hardly load the clamp";
}

}  // namespace
}  // namespace voltfall
