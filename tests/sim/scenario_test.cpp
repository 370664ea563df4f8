#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <random>

#include "faults/limit_keys.h"
#include "scenario/read_scenario.h"

namespace voltfall {
namespace {

using testing::HasSubstr;
using testing::SizeIs;

const std::string sound = R"([job]
title = "A title"
setting = "A yard"
complaint = "It clicks."
level = "plain"

[vehicle]
name = "A vehicle"
battery.rated_CCA_A = 600
joints.block_lug.added_ohm = 0.0002

[[fault]]
id = "positive_clamp_corroded"
severity = 0.03

[kit]
instruments = ["multimeter"]

[limits]
joint = { highest_V = 0.15, from_A = 120, to_A = 260 }

[prices]
renew_battery = 95

[debrief]
text = "Measure."
)";

std::string with(std::string text, std::string_view old, std::string_view now) {
  const std::size_t at = text.find(old);
  EXPECT_NE(at, std::string::npos) << old;
  return text.replace(at, old.size(), now);
}

std::vector<std::string> problems_of(const std::string& text) {
  std::vector<std::string> lines;
  for (const Problem& problem : read_scenario_text(text, "job.toml").problems) lines.push_back(problem.text());
  return lines;
}

TEST(ReadScenario, FillsTheScenarioFromASoundFile) {
  const ReadScenario read = read_scenario_text(sound, "some/where/job.toml");
  ASSERT_THAT(read.problems, SizeIs(0));
  const Scenario& job = *read.scenario;
  EXPECT_EQ(job.id, "job");
  EXPECT_EQ(job.title, "A title");
  EXPECT_EQ(job.complaint, "It clicks.");
  EXPECT_EQ(job.vehicle_name, "A vehicle");
  EXPECT_EQ(job.level, Level::plain);
  EXPECT_EQ(job.healthy.battery.rated_CCA_A, 600.0);
  EXPECT_EQ(job.healthy.joints.block_lug.added_ohm, 0.0002);
  EXPECT_EQ(job.healthy.joints.positive_clamp.added_ohm, 0.0);
  EXPECT_EQ(job.faulty().joints.positive_clamp.added_ohm, 0.03);
  EXPECT_EQ(job.faulty().joints.block_lug.added_ohm, 0.0002);
  EXPECT_EQ(job.kit, std::vector<Kit>{Kit::multimeter});
  EXPECT_EQ(job.limits.at("joint").highest, 0.15);
  EXPECT_EQ(job.limits.at("joint").from_A, 120.0);
  EXPECT_EQ(job.part_prices.at("renew_battery"), 95.0);
  EXPECT_EQ(job.source_text, sound);
}

TEST(ReadScenario, GivesEveryUndeclaredLimitItsUsualFigure) {
  const Scenario job = *read_scenario_text(sound, "job.toml").scenario;
  EXPECT_EQ(job.limits.size(), all_limit_keys().size());
  EXPECT_EQ(job.limits.at("relay_contact").highest, 0.3);
  EXPECT_EQ(job.limits.at("battery_rest").lowest, 12.4);
  EXPECT_EQ(job.limits.at("relay_coil").highest, 5.0);
}

TEST(ReadScenario, TakesAFileWithoutFaultsAsAHealthyVehicle) {
  const std::string healthy = with(sound, "[[fault]]\nid = \"positive_clamp_corroded\"\nseverity = 0.03\n", "");
  const ReadScenario read = read_scenario_text(healthy, "job.toml");
  ASSERT_THAT(read.problems, SizeIs(0));
  EXPECT_THAT(read.scenario->faults, SizeIs(0));
}

TEST(ReadScenario, UsesTheUsualSeverityWhenNoneIsGiven) {
  const ReadScenario read = read_scenario_text(with(sound, "severity = 0.03\n", ""), "job.toml");
  ASSERT_THAT(read.problems, SizeIs(0));
  EXPECT_EQ(read.scenario->faults.front().severity, 0.05);
}

TEST(ReadScenario, TellsThreeMistakesAtOnceEachWithItsPlaceAndTheNearestName) {
  std::string text = with(sound, "complaint =", "complaints =");
  text = with(text, "battery.rated_CCA_A = 600", "battery.rated_CA_A = 600");
  text = with(text, "[\"multimeter\"]", "[\"multimetre\"]");
  EXPECT_THAT(
      problems_of(text),
      testing::ElementsAre(
          "job.toml:1:1: job.complaint is missing; every scenario needs it",
          "job.toml:4:1: 'complaints' is not a key of [job]; allowed: title, sheet, setting, complaint, symptoms, "
          "level; "
          "nearest: "
          "complaint",
          "job.toml:9:9: 'battery.rated_CA_A' is not a value of the vehicle; nearest: battery.rated_CCA_A",
          "job.toml:17:16: 'multimetre' is not one of kit.instruments; allowed: multimeter, clamp_meter, load_tester, "
          "conductance_tester, hydrometer, test_lamp, remote_switch, fused_jumper, thermometer, tachometer, recorder, "
          "booster_pack, heavy_leads; nearest: multimeter"));
}

TEST(ReadScenario, TellsWrongTypesRangesAndUnits) {
  std::string text = with(sound, "title = \"A title\"", "title = 7");
  text = with(text, "battery.rated_CCA_A = 600", "battery.rated_CCA_A = 6");
  text = with(text, "severity = 0.03", "severity = 30");
  EXPECT_THAT(problems_of(text),
              testing::ElementsAre("job.toml:2:9: job.title is a number; allowed: a text in quotes",
                                   "job.toml:9:23: battery.rated_CCA_A is 6 A; allowed: 200 to 1200 A",
                                   "job.toml:14:12: severity of positive_clamp_corroded is 30 ohm; allowed: 0.005 to "
                                   "0.06 ohm"));
}

TEST(ReadScenario, TellsUnknownFaultsLimitsPricesAndSections) {
  std::string text = with(sound, "positive_clamp_corroded", "positive_clamp_coroded");
  text = with(text, "joint = {", "joints = {");
  text = with(text, "renew_battery = 95", "renew_batery = 95");
  text = with(text, "[debrief]", "[debreif]");
  const std::vector<std::string> told = problems_of(text);
  ASSERT_THAT(told, SizeIs(5));
  EXPECT_EQ(told[0], "job.toml: debrief.text is missing; every scenario needs it");
  EXPECT_EQ(told[1], "job.toml:13:6: 'positive_clamp_coroded' is not a fault; nearest: positive_clamp_corroded");
  EXPECT_EQ(told[2], "job.toml:20:1: 'joints' is not a limit; nearest: joint");
  EXPECT_EQ(told[3], "job.toml:23:1: 'renew_batery' is not a key of [prices]; nearest: renew_battery");
  EXPECT_THAT(told[4], HasSubstr("'debreif' is not a section"));
  EXPECT_THAT(told[4], HasSubstr("nearest: debrief"));
}

TEST(ReadScenario, ChecksFaultsAgainstEachOther) {
  const std::string second = "[[fault]]\nid = \"neutral_switch_open\"\n[[fault]]\nid = \"neutral_switch_wet\"\n[kit]";
  EXPECT_THAT(problems_of(with(sound, "[kit]", second)),
              testing::ElementsAre("job.toml:18:1: neutral_switch_open and neutral_switch_wet both set "
                                   "control.neutral_switch_ohm; allowed: one fault for each value"));
}

// 200 A is the smallest battery the model knows; half of 300 A is less.
TEST(ReadScenario, ChecksThatAFaultKeepsAnUnusualVehicleInRange) {
  std::string text = with(sound, "battery.rated_CCA_A = 600", "battery.rated_CCA_A = 300");
  text = with(text, "positive_clamp_corroded\"\nseverity = 0.03", "battery_too_small\"\nseverity = 0.5");
  EXPECT_THAT(problems_of(text),
              testing::ElementsAre("job.toml:12:1: with battery_too_small this vehicle's battery.rated_CCA_A is 150 A; "
                                   "allowed: 200 to 1200 A"));
}

TEST(ReadScenario, RefusesASeverityForAFaultWithoutDegrees) {
  const std::string text = with(sound, "positive_clamp_corroded", "relay_coil_open");
  EXPECT_THAT(problems_of(text),
              testing::ElementsAre("job.toml:14:12: severity stands by relay_coil_open, which has no degrees; allowed: "
                                   "none"));
}

TEST(ReadScenario, RefusesAnEmptyKit) {
  EXPECT_THAT(problems_of(with(sound, "[\"multimeter\"]", "[]")),
              testing::ElementsAre(HasSubstr("job.toml:17:15: kit.instruments is empty; allowed: at least one of "
                                             "multimeter, clamp_meter, load_tester")));
}

TEST(ReadScenario, RefusesALimitThatHoldsNowhere) {
  EXPECT_THAT(problems_of(with(sound, "to_A = 260", "to_A = 100")),
              testing::ElementsAre("job.toml:20:9: limits.joint holds from 120 to 100 A; allowed: from_A below to_A"));
}

TEST(ReadScenario, TellsWhereASyntaxErrorIs) {
  const ReadScenario read = read_scenario_text(with(sound, "name = \"A vehicle\"", "name = = 1"), "job.toml");
  ASSERT_THAT(read.problems, SizeIs(1));
  EXPECT_FALSE(read.scenario.has_value());
  EXPECT_EQ(read.problems[0].line, 8);
  EXPECT_EQ(read.problems[0].column, 8);  // the second equals sign
}

TEST(ReadScenario, NamesWhatIsMissingFromAnEmptyFile) {
  EXPECT_THAT(problems_of(""), testing::ElementsAre("job.toml: job.title is missing; every scenario needs it",
                                                    "job.toml: job.setting is missing; every scenario needs it",
                                                    "job.toml: job.complaint is missing; every scenario needs it",
                                                    "job.toml: vehicle.name is missing; every scenario needs it",
                                                    "job.toml: kit.instruments is missing; every scenario needs it",
                                                    "job.toml: debrief.text is missing; every scenario needs it"));
}

TEST(ReadScenario, RefusesNumbersThatAreNone) {
  EXPECT_THAT(problems_of(with(sound, "severity = 0.03", "severity = nan")),
              testing::ElementsAre(HasSubstr("job.toml:14:12: severity of positive_clamp_corroded is nan ohm")));
}

TEST(ReadScenario, RefusesWhatIsNoScenarioFile) {
  EXPECT_THAT(read_scenario("/no/such/file.toml").problems.front().what, HasSubstr("can't be opened"));
  EXPECT_THAT(read_scenario(std::filesystem::temp_directory_path()).problems.front().what, HasSubstr("is a folder"));
  EXPECT_THAT(problems_of(std::string((std::size_t{1} << 20) + 1, '#')),
              testing::ElementsAre("job.toml: is larger than 1 MiB; allowed: at most 1 MiB"));
}

// Each part of a dotted key is a table within a table; a hundred thousand of them must not end the program.
TEST(ReadScenario, RefusesKeysDeepEnoughToExhaustTheStack) {
  std::string key = "a";
  for (int part = 0; part < 100000; ++part) key += ".a";
  EXPECT_THAT(problems_of("[job]\n" + key + " = 1\n"),
              testing::ElementsAre("job.toml:2:1: the line has too many dots; allowed: at most 40"));
  EXPECT_THAT(problems_of("a = " + std::string(100000, '[')), SizeIs(1));
}

/// One random slip of the hand: a byte changed, dropped or doubled, a piece cut out or moved.
void mutate(std::string& text, std::mt19937& random) {
  const auto below = [&](std::size_t n) { return static_cast<std::size_t>(random() % std::max<std::size_t>(n, 1)); };
  const std::size_t at = below(text.size());
  const std::size_t length = below(std::min<std::size_t>(text.size() - at, 40));
  switch (random() % 5) {
    case 0:
      if (!text.empty()) text[at] = static_cast<char>(random() % 256);
      break;
    case 1:
      text.erase(at, length);
      break;
    case 2:
      text.insert(at, text.substr(at, length));
      break;
    case 3:
      text.insert(below(text.size()), text.substr(at, length));
      break;
    default:
      text.insert(at, 1, "[]{}=.\"'\n#,"[random() % 11]);
      break;
  }
}

TEST(ReadScenario, AnswersAnyMutilatedFileWithAScenarioOrItsProblems) {
  std::mt19937 random(20260211);
  int refused = 0;
  for (int round = 0; round < 500; ++round) {
    std::string text = sound;
    const auto slips = 1 + random() % 8;
    for (unsigned slip = 0; slip < slips; ++slip) mutate(text, random);
    ReadScenario read;
    ASSERT_NO_THROW(read = read_scenario_text(text, "job.toml")) << text;
    ASSERT_NE(read.scenario.has_value(), !read.problems.empty()) << text;
    if (!read.scenario) ++refused;
  }
  // A slip inside a text or a figure can leave a sound file; most don't.
  EXPECT_GT(refused, 250);
  EXPECT_LT(refused, 500);
}

}  // namespace
}  // namespace voltfall
