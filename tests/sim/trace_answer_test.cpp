#include <gtest/gtest.h>

#include "diagnosis/question.h"
#include "sim/worked_job.h"

// A noted trace answers what the meter would have been asked.

namespace voltfall {
namespace {

using enum TestPoint;

Finding traced(const Scenario& job, double span_s) {
  test::Learner learner(job);
  learner.make_safe();
  learner.act(PutRecorderChannel{1, battery_positive_post, positive_clamp, {}});
  learner.act(ArmRecorder{0.005, true, span_s});
  learner.crank(1.5);
  learner.note(Kit::recorder);
  return learner.session.findings().back();
}

Scenario recorder_on(std::vector<HiddenFault> faults) {
  Scenario job;
  job.kit = {Kit::recorder};
  job.faults = std::move(faults);
  return job;
}

TEST(TraceAnswers, AnswersAsTheMeterWouldOnceTheCrankHasSettled) {
  const Scenario sound = recorder_on({});
  const Scenario corroded = recorder_on({{"positive_clamp_corroded", 0.005}});
  const auto inside = answered_by(traced(sound, 1.2), sound, false);
  const auto above = answered_by(traced(corroded, 1.2), corroded, false);
  ASSERT_TRUE(inside && above);
  EXPECT_TRUE(inside->question ==
              (Question{Finding::Kind::volts, Condition::cranking, battery_positive_post, positive_clamp, {}, 0, {}}));
  EXPECT_EQ(static_cast<Answer>(inside->answer), Answer::inside);
  EXPECT_EQ(static_cast<Answer>(above->answer), Answer::above);
}

TEST(TraceAnswers, TellNothingAcrossTheKeyOrInLessThanADisplaysTime) {
  const Scenario sound = recorder_on({});
  EXPECT_FALSE(answered_by(traced(sound, 0.2), sound, false)) << "shorter than a third of a second";
  EXPECT_FALSE(answered_by(traced(sound, 1.8), sound, false)) << "the key was let go within it";
}

}  // namespace
}  // namespace voltfall
