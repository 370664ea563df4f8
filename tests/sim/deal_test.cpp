#include "dealing/deal.h"

#include <gmock/gmock.h>

#include <cmath>
#include <filesystem>
#include <set>

#include "console/table_place.h"
#include "dealing/fault_pool.h"
#include "scenario/read_scenario.h"
#include "support/cranks.h"

namespace voltfall {
namespace {

Scenario original() {
  const auto file = std::filesystem::path(VOLTFALL_SOURCE_DIR) / "scenarios" / "template" / "new_job.toml";
  return *read_scenario(file).scenario;
}

Deal dealt(int count, std::uint64_t seed) {
  return deal({{original()}, count, seed, {}}, table_store().source(),
              [](const auto&) { return std::string("words"); });
}

constexpr std::size_t pupils = checked_build ? 3 : 6;

const Deal& small_class() {
  static const Deal deal = dealt(static_cast<int>(pupils), 11);
  return deal;
}

TEST(Deal, GivesEveryPupilASoundJobWithinTheBandOfPar) {
  const Scenario base = original();
  const double par = vet(base, table_store().source()(base)).par_minutes;
  const Deal& deal = small_class();
  EXPECT_THAT(deal.problems, ::testing::IsEmpty());
  ASSERT_EQ(deal.jobs.size(), pupils);
  for (const DealtJob& job : deal.jobs) {
    EXPECT_TRUE(job.report.sound()) << job.code;
    EXPECT_LE(std::abs(job.report.par_minutes - par), par_band * par) << job.code;
    EXPECT_THAT(job.report.key_alone.faulty, ::testing::Contains("slow_crank")) << job.code;
    EXPECT_EQ(job.scenario.complaint, base.complaint);
  }
}

// Nothing to pass on: not the fault, not the figures.
TEST(Deal, NoTwoJobsReadAlike) {
  const Deal& deal = small_class();
  std::set<std::string> codes, faults;
  std::set<double> battery_V, severities;
  for (const DealtJob& job : deal.jobs) {
    codes.insert(job.code);
    faults.insert(job.scenario.faults.front().id);
    severities.insert(job.scenario.faults.front().severity);
    battery_V.insert(job.report.points.front().cranking_healthy_V);
  }
  EXPECT_EQ(codes.size(), pupils);
  EXPECT_GE(faults.size(), pupils / 2);
  EXPECT_GE(severities.size(), pupils - 1);
  EXPECT_EQ(battery_V.size(), pupils);
}

TEST(Deal, IsTheSameForTheSameSeedAndForOnePupilAmongMore) {
  if (checked_build) GTEST_SKIP() << "deals thrice what the other tests deal once";
  const Deal& more = small_class();
  const Deal two = dealt(2, 11), other = dealt(2, 12);
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_EQ(two.jobs[i].text, more.jobs[i].text);
    EXPECT_EQ(two.jobs[i].code, more.jobs[i].code);
    EXPECT_NE(other.jobs[i].text, more.jobs[i].text);
  }
}

TEST(Deal, TakesTheAuthorsWordsOnlyForTheAuthorsFault) {
  for (const DealtJob& job : small_class().jobs) {
    const bool own = job.scenario.faults.front().id == original().faults.front().id;
    EXPECT_EQ(job.scenario.debrief, own ? original().debrief : "words");
  }
}

TEST(Deal, OfAnUnsoundScenarioIsAProblem) {
  std::string text = original().source_text;
  const std::string severity = "severity = 0.018";
  text.replace(text.find(severity), severity.size(), "severity = 0.005");
  const Scenario mild = *read_scenario_text(text, "mild.toml").scenario;
  const Deal none = deal({{mild}, 2, 1, {}}, table_store().source(), [](const auto&) { return std::string("words"); });
  EXPECT_TRUE(none.jobs.empty());
  ASSERT_EQ(none.problems.size(), 1U);
  EXPECT_THAT(none.problems.front(), ::testing::HasSubstr("mild is unsound"));
}

TEST(FaultPool, KeepsToWhatTheAuthorAllows) {
  Scenario base = original();
  const auto table = table_store().source()(base);
  const VetReport report = vet(base, table);
  EXPECT_GT(fault_pool(base, *table, report, 1).size(), 3U);
  base.deal_faults = {"block_lug_rusted", "negative_clamp_corroded"};
  for (const PoolFault& fault : fault_pool(base, *table, report, 1)) {
    EXPECT_THAT(base.deal_faults, ::testing::Contains(fault.id));
  }
}

TEST(Variant, KeepsAllElseAndLosesWhatIsSaidOfDealing) {
  const Scenario base = original();
  const Variant variant{{{"brushes_worn", 0.02, When::always}}, {}, 77, "other words"};
  const ReadScenario read =
      read_scenario_text(variant_text(base.source_text + "\n[deal]\nfaults = [\"brushes_worn\"]\n", variant), "v.toml");
  ASSERT_TRUE(read.scenario) << read.problems.front().text();
  EXPECT_EQ(read.scenario->faults, variant.faults);
  EXPECT_TRUE(read.scenario->deal_faults.empty());
  EXPECT_TRUE(read.scenario->decoys.empty());
  EXPECT_EQ(read.scenario->debrief, "other words");
  EXPECT_EQ(read.scenario->complaint, base.complaint);
  EXPECT_EQ(read.scenario->kit, base.kit);
  EXPECT_EQ(read.scenario->typical_rest.crank_angle_deg, base.typical_rest.crank_angle_deg);
  EXPECT_NE(read.scenario->rest.crank_angle_deg, base.rest.crank_angle_deg);
}

}  // namespace
}  // namespace voltfall
