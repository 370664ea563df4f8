#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <set>

#include "faults/catalogue.h"
#include "scenario/read_scenario.h"

namespace voltfall {
namespace {

const std::filesystem::path folder = std::filesystem::path(VOLTFALL_SOURCE_DIR) / "scenarios";

std::vector<std::string> shipped() {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == ".toml") names.push_back(entry.path().stem().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

class Shipped : public testing::TestWithParam<std::string> {};

TEST_P(Shipped, ReadsWithoutAProblem) {
  const ReadScenario read = read_scenario(folder / (GetParam() + ".toml"));
  for (const Problem& problem : read.problems) ADD_FAILURE() << problem.text();
  ASSERT_TRUE(read.scenario.has_value());
  EXPECT_EQ(read.scenario->id, GetParam());
}

// The name of the file and the driver's words reach the trainee: neither may hold the answer.
TEST_P(Shipped, DoesNotGiveTheFaultAway) {
  const Scenario job = *read_scenario(folder / (GetParam() + ".toml")).scenario;
  const std::string told = job.id + " " + job.title + " " + job.complaint;
  for (const std::string_view word : {"corro", "pitted", "paint", "strap", "resist", "ground", "clamp", "contact"}) {
    EXPECT_THAT(told, testing::Not(testing::HasSubstr(word)));
  }
}

INSTANTIATE_TEST_SUITE_P(Scenarios, Shipped, testing::ValuesIn(shipped()), [](const auto& info) { return info.param; });

TEST(ShippedScenarios, HoldTheFourFirstFaultsAndAHealthyVehicle) {
  std::set<std::string> faults;
  for (const std::string& name : shipped()) {
    const Scenario job = *read_scenario(folder / (name + ".toml")).scenario;
    faults.insert(job.faults.empty() ? "none" : job.faults.front().id);
  }
  EXPECT_THAT(faults, testing::IsSupersetOf({"none", "positive_clamp_corroded", "relay_contacts_pitted",
                                             "mounting_face_painted", "body_strap_lost"}));
}

// With a lead from battery - to the body a lost strap does nothing.
TEST(ShippedScenarios, TheLostStrapIsOnAVehicleWithoutTheSmallLead) {
  const Scenario job = *read_scenario(folder / "no_click_with_the_lamps_on.toml").scenario;
  EXPECT_EQ(job.healthy.body.lead_fitted, 0.0);
}

}  // namespace
}  // namespace voltfall
