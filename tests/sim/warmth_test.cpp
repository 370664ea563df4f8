#include <gtest/gtest.h>

#include "diagnosis/diagnosis.h"
#include "instruments/thermometer.h"
#include "sim/worked_job.h"
#include "vehicles/vehicle_types.h"

// What a thermometer and a hand tell after cranking.

namespace voltfall {
namespace {

using enum TestPoint;

Finding shown_at(TestPoint point, double rise_K, double cranked_s) {
  Finding finding;
  finding.kind = Finding::Kind::temperature;
  finding.red = point;
  finding.shown = {MeterDisplay::Kind::value, Scenario{}.healthy.ambient_C + rise_K, 1, "degC"};
  finding.cranked_s = cranked_s;
  return finding;
}

Finding felt_at(const std::string& component, const std::string& word, double cranked_s) {
  Finding finding;
  finding.kind = Finding::Kind::felt;
  finding.component = component;
  finding.observation = word;
  finding.cranked_s = cranked_s;
  return finding;
}

std::optional<Answer> answer_to(const Finding& finding) {
  const auto answered = answered_by(finding, Scenario{}, false);
  return answered ? std::optional(static_cast<Answer>(answered->answer)) : std::nullopt;
}

TEST(Warmth, OfAJointIsHeldAgainstItsRiseInTenSecondsOfCranking) {
  EXPECT_EQ(answer_to(shown_at(positive_clamp, 1.0, 10.0)), Answer::inside);
  EXPECT_EQ(answer_to(shown_at(positive_clamp, 20.0, 10.0)), Answer::above);
  EXPECT_EQ(answer_to(shown_at(positive_clamp, 6.0, 5.0)), Answer::above) << "12 K in ten seconds";
  EXPECT_EQ(answer_to(shown_at(positive_clamp, 6.0, 20.0)), Answer::inside) << "3 K in ten seconds";
}

TEST(Warmth, TellsNothingWhereHardlyAnythingFlowedOrAnotherPartWarmsByItself) {
  EXPECT_FALSE(answer_to(shown_at(positive_clamp, 0.5, 1.0)));
  EXPECT_FALSE(answer_to(shown_at(positive_clamp, 20.0, 0.0)));
  EXPECT_FALSE(answer_to(shown_at(starter_case, 20.0, 10.0)));
  EXPECT_FALSE(answer_to(felt_at("positive_clamp", "feels_cold", 1.0)));
  EXPECT_FALSE(answer_to(felt_at("positive_clamp", "feels_hot", 40.0)));
}

TEST(Warmth, UnderTheHandIsAQuestionOfItsOwn) {
  const auto warm = answered_by(felt_at("positive_clamp", "feels_hot", 8.0), Scenario{}, false);
  const auto firm = answered_by(felt_at("positive_clamp", "firm", 8.0), Scenario{}, false);
  ASSERT_TRUE(warm && firm);
  EXPECT_FALSE(warm->question == firm->question);
  EXPECT_EQ(answer_in_words(warm->question, warm->answer), "feels_hot");
}

// A sound vehicle's joints stay inside by twice the width of "near", whatever the type.
TEST(Warmth, OfASoundVehicleIsInsideAtEveryHeavyJoint) {
  const LimitKey& limit = *limit_key_named("joint_rise");
  for (const VehicleType& type : all_vehicle_types()) {
    const Cranked sound = cranked(Condition::cranking, type.healthy, {});
    for (const TestPoint point : {positive_clamp, relay_battery_stud, relay_motor_stud, starter_lug, block_lug}) {
      const double seen_K = seen_share(point) * sound.rise_K[static_cast<std::size_t>(point)];
      EXPECT_LT(seen_K, limit.highest - 2.0 * limit.near) << type.id << " " << id_of(point);
    }
  }
}

// trade.md, 15: "hot stud" of a loose or burnt nut at 3 to 50 milliohm; two lugs away it is cold.
TEST(Warmth, OfALooseStudIsFarAboveItsNeighbours) {
  const Scenario job;
  const Fault& loose = *fault_named("relay_motor_stud_loose");
  const RigParameters vehicle = with_fault(job.healthy, loose, loose.lowest);
  const Cranked crank = cranked(Condition::cranking, vehicle, job.rest);
  const auto seen_K = [&](TestPoint point) {
    return seen_share(point) * crank.rise_K[static_cast<std::size_t>(point)];
  };
  EXPECT_GT(seen_K(relay_motor_stud), limit_key_named("joint_rise")->highest);
  EXPECT_GT(seen_K(relay_motor_stud), 3.0 * seen_K(starter_lug));
}

TEST(Warmth, NotedInAJobIsForetoldAndMovesTheBeliefs) {
  const Scenario job = test::with_whole_kit(test::shipped("clicks_in_the_morning"));
  test::Learner learner(job);
  learner.make_safe();
  for (int i = 0; i < 3; ++i) learner.crank(2.0);
  const std::vector<std::string> hidden{job.faults.front().id};
  const Fault& fault = *fault_named(hidden.front());
  for (const TestPoint point : {fault.proof.front().first, fault.proof.front().second, starter_lug}) {
    learner.act(AimThermometer{point});
    learner.session.run_for_s(1.0);
    learner.note(Kit::thermometer);
  }
  learner.act(FeelPart{std::string(fault.component)});
  const auto& findings = learner.session.findings();
  EXPECT_GT(findings.front().cranked_s, 3.0);
  const Diagnosis diagnosis(job, table_store().source()(job), questions_besides(findings, job));
  const auto share = [&](std::size_t count) {
    const auto belief = diagnosis.belief_after(diagnosis.seen_in(std::span(findings).first(count), job));
    return diagnosis.share_of_group(diagnosis.candidate_of(hidden), belief);
  };
  EXPECT_GT(share(findings.size()), 3.0 * share(0));
  for (const Finding& finding : findings) {
    const auto answered = answered_by(finding, job, false);
    ASSERT_TRUE(answered) << in_words(finding);
    const auto chance = diagnosis.problem().tests[static_cast<std::size_t>(diagnosis.test_of(answered->question))];
    const auto at = static_cast<std::size_t>(diagnosis.truth()) * static_cast<std::size_t>(chance.outcomes) +
                    static_cast<std::size_t>(answered->answer);
    EXPECT_GT(chance.likelihood[at], 0.1F) << in_words(finding) << ": " << answered->answer;
  }
}

}  // namespace
}  // namespace voltfall
