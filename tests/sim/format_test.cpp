#include "scenario/format.h"

#include <fmt/format.h>
#include <gmock/gmock.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>

#include "rig/settable.h"
#include "scenario/read_scenario.h"
#include "scenario/write_scenario.h"
#include "vehicles/vehicle_types.h"

namespace voltfall {
namespace {

using ::testing::HasSubstr;

namespace fs = std::filesystem;
const fs::path folder = fs::path(VOLTFALL_SOURCE_DIR) / "scenarios";

std::string text_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return std::move(text).str();
}

std::string all_of(const ReadScenario& read) {
  std::string text;
  for (const Problem& problem : read.problems) text += problem.text() + "\n";
  return text;
}

TEST(FormatReference, OnThePageIsWhatTheTablesHold) {
  EXPECT_EQ(text_of(folder / "FORMAT.md"), format_reference())
      << "voltfall format --out scenarios/FORMAT.md brings the page up to date";
}

TEST(FormatReference, BeginsWithAScenarioThatReads) {
  const std::string page = format_reference();
  const std::size_t begin = page.find("```toml\n") + 8;
  const ReadScenario read = read_scenario_text(page.substr(begin, page.find("```", begin) - begin), "smallest.toml");
  EXPECT_TRUE(read.scenario) << all_of(read);
}

/// A whole file with the sections and keys given, each `section.key = value`; what every file needs is added.
std::string file_with(const std::map<std::string, std::map<std::string, std::string>>& given) {
  auto sections = given;
  for (const FormatKey& key : all_format_keys()) {
    if (key.otherwise != "needed") continue;
    const bool there = sections.contains(std::string(key.section));
    const auto& section = *std::find_if(all_format_sections().begin(), all_format_sections().end(),
                                        [&](const FormatSection& row) { return row.name == key.section; });
    if (there || section.needed) sections[std::string(key.section)].emplace(key.key, key.example);
  }
  std::string text;
  for (const auto& [name, keys] : sections) {
    const bool many = name == "fault" || name == "pair";
    text += many ? fmt::format("[[{}]]\n", name) : fmt::format("[{}]\n", name);
    for (const auto& [key, value] : keys) text += fmt::format("{} = {}\n", key, value);
  }
  return text;
}

/// The key as a file writes it, where the table stands for a family of keys.
std::pair<std::string, std::string> as_written(const FormatKey& key) {
  if (key.key == "REPAIR") return {"renew_battery", std::string(key.example)};
  if (key.key == "CLASS") return {"battery", std::string(key.example)};
  if (key.section == "limits") return {"cable", "{ " + std::string(key.key) + " = " + std::string(key.example) + " }"};
  return {std::string(key.key), std::string(key.example)};
}

// A key without a reader would be an unknown key, a reader without a row can't ask.
TEST(FormatTable, EveryKeyIsReadAsItsExampleHasIt) {
  for (const FormatKey& key : all_format_keys()) {
    const auto [name, value] = as_written(key);
    const ReadScenario read = read_scenario_text(file_with({{std::string(key.section), {{name, value}}}}), "x.toml");
    EXPECT_TRUE(read.scenario) << key.section << "." << key.key << ": " << all_of(read);
  }
}

TEST(FormatTable, EveryRangeIsTheReadersOwn) {
  int tried = 0;
  for (const FormatKey& key : all_format_keys()) {
    if (key.lowest == key.highest) continue;
    for (const double beyond : {key.lowest - 1.0, key.highest + 1.0}) {
      const auto [name, value] = as_written(key);
      const std::string wrong = key.section == "limits"
                                    ? "{ " + std::string(key.key) + " = " + std::to_string(beyond) + " }"
                                    : std::to_string(beyond);
      const ReadScenario read = read_scenario_text(file_with({{std::string(key.section), {{name, wrong}}}}), "x.toml");
      EXPECT_THAT(all_of(read), HasSubstr("allowed: ")) << key.section << "." << key.key << " = " << beyond;
      ++tried;
    }
  }
  EXPECT_GT(tried, 20);
}

TEST(FormatTable, AKeyWithoutARowIsAMistakeOfTheProgram) {
  EXPECT_THROW(format_key("job", "colour"), std::logic_error);
}

TEST(Messages, SayWhichSectionAKeyBelongsTo) {
  const ReadScenario in_job = read_scenario_text(file_with({{"job", {{"instruments", "[\"multimeter\"]"}}}}), "x.toml");
  EXPECT_THAT(all_of(in_job), HasSubstr("[kit] has a key of that name"));
  const ReadScenario at_root = read_scenario_text("title = \"x\"\n" + file_with({}), "x.toml");
  EXPECT_THAT(all_of(at_root), HasSubstr("[job] has a key of that name"));
}

// What authors get wrong who come from word processors and other systems.
TEST(Messages, OfAuthorsSlipsNameThePlace) {
  const std::string good = file_with({{"fault", {{"severity", "0.02"}}}});
  ASSERT_TRUE(read_scenario_text(good, "x.toml").scenario);
  const auto told = [&](const std::string& from, const std::string& to) {
    std::string text = good;
    text.replace(text.find(from), from.size(), to);
    const ReadScenario read = read_scenario_text(text, "x.toml");
    EXPECT_FALSE(read.scenario);
    EXPECT_TRUE(std::any_of(read.problems.begin(), read.problems.end(), [](const Problem& problem) {
      return problem.line > 0;
    })) << all_of(read);
    return all_of(read);
  };
  EXPECT_THAT(told("severity = 0.02", "severity = 0,02"), HasSubstr("the decimal mark is a point"));
  EXPECT_THAT(told("severity = 0.02", "severity = \"0.02 ohm\""), HasSubstr("is a text; allowed: a number"));
  EXPECT_THAT(told("block_lug_rusted", "block_lug_rustd"), HasSubstr("nearest: block_lug_rusted"));
  EXPECT_THAT(told("[kit]", "[kits]"), HasSubstr("nearest: kit"));
  EXPECT_THAT(told("\"It only clicks.\"", "\u201CIt only clicks.\u201D"), HasSubstr("quotes have to be straight"));
  EXPECT_THAT(told("\"It only clicks.\"", "\"It only clicks."), HasSubstr("allowed: TOML"));
  EXPECT_THAT(told("[\"multimeter\", \"clamp_meter\"]", "[\"multimeter\" \"clamp_meter\"]"),
              HasSubstr("allowed: TOML"));
}

TEST(Messages, WindowsLineEndsAndAByteOrderMarkAreNoMistakes) {
  std::string text = "\xEF\xBB\xBF";
  for (const char letter : file_with({})) text += letter == '\n' ? std::string("\r\n") : std::string(1, letter);
  const ReadScenario read = read_scenario_text(text, "x.toml");
  EXPECT_TRUE(read.scenario) << all_of(read);
}

TEST(Template, ReadsAndHoldsWhatAnAuthorNeeds) {
  const ReadScenario read = read_scenario(folder / "template" / "new_job.toml");
  ASSERT_TRUE(read.scenario) << all_of(read);
  EXPECT_FALSE(read.scenario->faults.empty());
  EXPECT_FALSE(read.scenario->decoys.empty());
  EXPECT_FALSE(read.scenario->symptoms.empty());
}

void expect_back(const NewScenario& given) {
  const std::string text = scenario_text(given);
  const ReadScenario read = read_scenario_text(text, "new.toml");
  ASSERT_TRUE(read.scenario) << all_of(read) << text;
  const Scenario& back = *read.scenario;
  EXPECT_EQ(back.title, given.title);
  EXPECT_EQ(back.setting, given.setting);
  EXPECT_EQ(back.complaint, given.complaint);
  EXPECT_EQ(back.debrief, given.debrief);
  EXPECT_EQ(back.level, given.level);
  EXPECT_EQ(back.vehicle_type, given.vehicle_type);
  EXPECT_EQ(back.vehicle_name, given.vehicle_name);
  EXPECT_EQ(back.faults, given.faults);
  EXPECT_EQ(back.decoys, given.decoys);
  EXPECT_EQ(back.kit, given.kit);
}

NewScenario plain_new() {
  return {"A title",  "a yard", "It clicks.", "So it was.",     3, Level::test, "pickup_v8",
          "A pickup", {},       {},           {Kit::multimeter}};
}

TEST(NewScenario, ReadsBackForEveryFaultOnEveryVehicleItCanBeOn) {
  int tried = 0;
  for (const VehicleType& type : all_vehicle_types()) {
    for (const Fault& fault : all_faults()) {
      if (!fault.can_be_on(type.healthy)) continue;
      NewScenario one = plain_new();
      one.vehicle_type = type.id;
      one.faults = {{std::string(fault.id), fault.usual, When::always}};
      expect_back(one);
      ++tried;
    }
  }
  EXPECT_GT(tried, 150);
}

TEST(NewScenario, HoldsAnyText) {
  for (const char* text :
       {"quote \" and \\ backslash", "two\nlines\n\n[fault]\nid = \"x\"", "\ttab # no comment", "\x01\x1f\x7f control",
        "\u00e9\u00fc\u4e2d \u201Cquoted\u201D", "'''\"\"\"", "ends in \\"}) {
    NewScenario one = plain_new();
    one.title = one.setting = one.complaint = one.debrief = one.vehicle_name = text;
    expect_back(one);
  }
}

// More dots than the reader lets stand in one line.
TEST(NewScenario, HoldsALongTextOfManySentences) {
  NewScenario one = plain_new();
  for (int i = 0; i < 60; ++i) one.debrief += " So it was.";
  expect_back(one);
}

TEST(NewScenario, HoldsWhenAFaultIsThereDecoysAndKit) {
  NewScenario one = plain_new();
  one.faults = {{"relay_contacts_pitted", 0.0123456789, When::hot}};
  one.decoys = {{"block_lug", "rust"}, {"positive_clamp", "crust"}};
  one.kit.assign(all_kit().begin(), all_kit().end());
  expect_back(one);
}

}  // namespace
}  // namespace voltfall
