#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "rig/settable.h"
#include "scenario/read_scenario.h"
#include "vehicles/vehicle_types.h"

// Types of vehicle, faults that come and go, and decoys in scenario files.

namespace voltfall {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

/// A sound file with this [vehicle] and what follows it.
std::string file_with(const std::string& vehicle, const std::string& rest = "") {
  return "[job]\ntitle = \"A title\"\nsetting = \"A yard\"\ncomplaint = \"It clicks.\"\n\n[vehicle]\nname = \"A "
         "vehicle\"\n" +
         vehicle + "\n" + rest +
         "\n[kit]\ninstruments = [\"multimeter\"]\n\n[debrief]\ntext = \"Measure under load.\"\n";
}

Scenario scenario_from(const std::string& text) {
  const ReadScenario read = read_scenario_text(text, "job.toml");
  for (const Problem& problem : read.problems) ADD_FAILURE() << problem.text();
  return read.scenario.value_or(Scenario{});
}

std::string only_problem(const std::string& text) {
  const ReadScenario read = read_scenario_text(text, "job.toml");
  EXPECT_EQ(read.problems.size(), 1u);
  return read.problems.empty() ? "" : read.problems.front().text();
}

bool same(const RigParameters& one, const RigParameters& other) {
  return std::all_of(all_settables().begin(), all_settables().end(),
                     [&](const Settable& s) { return s.value_in(one) == s.value_in(other); });
}

TEST(VehicleType, IsThePickupUnlessTheFileSaysOtherwise) {
  const Scenario job = scenario_from(file_with(""));
  EXPECT_EQ(job.vehicle_type, "pickup_v8");
  EXPECT_TRUE(same(job.healthy, RigParameters{}));
}

TEST(VehicleType, GivesTheHealthyVehicleItsOwnValuesAndLimitsAndTheFileTheLastWord) {
  const VehicleType& van = *vehicle_type_named("van_six");
  const Scenario plain = scenario_from(file_with("type = \"van_six\""));
  EXPECT_TRUE(same(plain.healthy, van.healthy));
  EXPECT_DOUBLE_EQ(plain.limits.at("cranking_current").highest, 180.0);
  EXPECT_DOUBLE_EQ(plain.limits.at("joint").highest, limit_key_named("joint")->highest);
  const Scenario own = scenario_from(
      file_with("type = \"van_six\"\nbattery.rated_CCA_A = 550", "[limits]\ncranking_current = { highest_A = 175 }\n"));
  EXPECT_DOUBLE_EQ(own.healthy.battery.rated_CCA_A, 550.0);
  EXPECT_DOUBLE_EQ(own.healthy.engine.cylinders, 6.0);
  EXPECT_DOUBLE_EQ(own.limits.at("cranking_current").highest, 175.0);
}

TEST(VehicleType, ThatThereIsNotIsRefusedWithTheNearest) {
  EXPECT_EQ(only_problem(file_with("type = \"van_sixx\"")),
            "job.toml:8:8: 'van_sixx' is not a vehicle.type; allowed: pickup_v8, van_six, compact_four; nearest: "
            "van_six");
}

TEST(Fault, OfTheOtherGearboxIsRefused) {
  EXPECT_THAT(only_problem(file_with("", "[[fault]]\nid = \"clutch_switch_open\"\n")),
              HasSubstr("clutch_switch_open stands on a vehicle without a manual gearbox"));
  EXPECT_THAT(only_problem(file_with("type = \"compact_four\"", "[[fault]]\nid = \"neutral_switch_wet\"\n")),
              HasSubstr("neutral_switch_wet stands on a vehicle without an automatic gearbox"));
}

TEST(Fault, ComesAndGoesWhenTheFileSaysSo) {
  const Scenario job =
      scenario_from(file_with("",
                              "[[fault]]\nid = \"positive_clamp_slack\"\nwhen = \"vibration\"\n\n[[fault]]\nid = "
                              "\"block_lug_rusted\"\n"));
  ASSERT_EQ(job.faults.size(), 2u);
  EXPECT_EQ(job.faults[0].when, When::vibration);
  EXPECT_EQ(job.faults[1].when, When::always);
  EXPECT_THAT(only_problem(file_with("", "[[fault]]\nid = \"positive_clamp_slack\"\nwhen = \"windy\"\n")),
              HasSubstr("'windy' is not a fault.when; allowed: always, hot, vibration, damp"));
}

TEST(Fault, OfTheChargeCantComeAndGo) {
  EXPECT_THAT(only_problem(file_with("", "[[fault]]\nid = \"battery_discharged\"\nwhen = \"hot\"\n")),
              HasSubstr("battery_discharged changes the battery's charge and can't come and go"));
}

TEST(Decoys, AreReadAndRefusedByName) {
  const Scenario job =
      scenario_from(file_with("", "[decoy]\nlooks = [\"positive_clamp:crust\", \"mounting_face:paint\"]\n"));
  EXPECT_THAT(job.decoys, ElementsAre(DecoyLook{"positive_clamp", "crust"}, DecoyLook{"mounting_face", "paint"}));
  EXPECT_THAT(only_problem(file_with("", "[decoy]\nlooks = [\"positive_clamp:rust\"]\n")),
              HasSubstr("'positive_clamp:rust' is not one of decoy.looks"));
  EXPECT_THAT(only_problem(file_with("", "[decoy]\n")), HasSubstr("decoy.looks is missing"));
}

std::string pair_of(std::string_view cause, std::string_view casualty, std::string_view more = "") {
  return fmt::format("[[pair]]\ncause = \"{}\"\ncasualty = \"{}\"\n{}\n", cause, casualty, more);
}

TEST(Pairs, AreReadWithTheShareTheFileGivesThem) {
  const Scenario job = scenario_from(file_with("", pair_of("battery_aged", "block_lug_rusted", "share = 0.15") +
                                                       pair_of("positive_clamp_corroded", "relay_contacts_pitted")));
  ASSERT_EQ(job.pairs.size(), 2u);
  EXPECT_EQ(job.pairs[0].cause, "battery_aged");
  EXPECT_EQ(job.pairs[0].casualty, "block_lug_rusted");
  EXPECT_EQ(job.pairs[0].share, 0.15);
  EXPECT_FALSE(job.pairs[1].share);
}

TEST(Pairs, ThatCantBeAreRefusedInWords) {
  EXPECT_THAT(only_problem(file_with("", pair_of("battery_agd", "block_lug_rusted"))),
              HasSubstr("'battery_agd' is not a pair.cause; nearest: battery_aged"));
  EXPECT_THAT(only_problem(file_with("", pair_of("battery_aged", "clutch_switch_open"))),
              HasSubstr("clutch_switch_open can't be on this vehicle"));
  EXPECT_THAT(only_problem(file_with("", pair_of("positive_clamp_corroded", "positive_clamp_corroded"))),
              HasSubstr("both set joints.positive_clamp.added_ohm"));
  EXPECT_THAT(only_problem(file_with(
                  "", pair_of("battery_aged", "block_lug_rusted") + pair_of("block_lug_rusted", "battery_aged"))),
              HasSubstr("block_lug_rusted and battery_aged stand twice"));
  EXPECT_THAT(only_problem(file_with("", pair_of("battery_aged", "block_lug_rusted", "share = 2"))),
              HasSubstr("pair.share is 2; allowed: 0.001 to 0.5"));
  EXPECT_THAT(only_problem(file_with("", "[pair]\ncause = \"battery_aged\"\n")),
              HasSubstr("pair is a table; allowed: [[pair]], once for each pair"));
}

}  // namespace
}  // namespace voltfall
