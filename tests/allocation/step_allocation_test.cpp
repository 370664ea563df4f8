#include <fmt/format.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>

#include "allocation/heap_watch.h"
#include "recording/tape.h"
#include "rig/rig.h"

namespace voltfall {
namespace {

// Who holds the key: what the controls are at a time of the run.
using Hand = std::function<void(Controls&, double time_s)>;

void hold_at_start(Controls& controls, double) {
  controls.key = KeyPosition::start;
}

// Steps for a while with the heap watched inside each step and nowhere else. Events are taken away as sessions do it,
// after every step.
void expect_no_heap_in_steps(Rig rig, double for_s, const Hand& hand) {
  Controls controls;
  const auto steps = static_cast<long>(for_s / Rig::step_s);
  for (long step = 0; step < steps; ++step) {
    const double time_s = static_cast<double>(step) * Rig::step_s;
    hand(controls, time_s);
    watch_heap(true);
    rig.step(controls);
    watch_heap(false);
    ASSERT_EQ(heap_calls(), 0) << "in the step at " << time_s << " s";
    rig.take_events();
  }
}

TEST(HeapWatch, SeesTheHeapUsedHereAndInLibraries) {
  watch_heap(true);
  auto number = std::make_unique<int>(1);
  watch_heap(false);
  EXPECT_EQ(heap_calls(), 1);
  watch_heap(true);
  number.reset();
  watch_heap(false);
  EXPECT_EQ(heap_calls(), 1);
  const std::string wide(1000, 'x');
  watch_heap(true);
  const std::string printed = fmt::format("{}{}", wide, wide);
  watch_heap(false);
  EXPECT_GE(heap_calls(), 1) << printed;
}

TEST(StepAllocation, NoneInAHealthyCrank) {
  expect_no_heap_in_steps(Rig(RigParameters{}), 1.0, hold_at_start);
}

TEST(StepAllocation, NoneWhenTheKeyIsReleased) {
  expect_no_heap_in_steps(Rig(RigParameters{}), 1.5, [](Controls& controls, double time_s) {
    controls.key = time_s < 0.7 ? KeyPosition::start : KeyPosition::on;
  });
}

TEST(StepAllocation, NoneWhileTheRelayChatters) {
  RigParameters parameters;
  parameters.joints.positive_clamp.added_ohm = 0.05;
  expect_no_heap_in_steps(Rig(parameters), 1.5, hold_at_start);
}

TEST(StepAllocation, NoneWhenTheTeethMeetFaceToFace) {
  expect_no_heap_in_steps(Rig(RigParameters{}, RestingPlace{.tooth_phase = 0.0}), 1.0, hold_at_start);
}

TEST(StepAllocation, NoneWithTheHeadlampsOn) {
  expect_no_heap_in_steps(Rig(RigParameters{}), 1.0, [](Controls& controls, double time_s) {
    controls.headlamps = time_s > 0.1;
    controls.key = time_s > 0.2 ? KeyPosition::start : KeyPosition::on;
  });
}

TEST(StepAllocation, NoneWhenAMeterIsHungOnAndTakenOff) {
  const Controls meter{.attached = {{TestPoint::battery_positive_post, TestPoint::negative_post, 1.0e7},
                                    {TestPoint::relay_battery_stud, TestPoint::relay_motor_stud, 1.0e7, 1.0e-4}}};
  expect_no_heap_in_steps(Rig(RigParameters{}), 1.0, [&](Controls& controls, double time_s) {
    controls.key = KeyPosition::start;
    controls.attached = time_s < 0.3 || time_s > 0.6 ? std::vector<AttachedBranch>{} : meter.attached;
  });
}

TEST(StepAllocation, NoneWhenTheEngineFiresAndRuns) {
  expect_no_heap_in_steps(Rig(RigParameters{}), 3.0, [](Controls& controls, double time_s) {
    controls.ignition_live = true;
    controls.key = time_s < 1.5 ? KeyPosition::start : KeyPosition::on;
  });
}

TEST(StepAllocation, NoneOnTheTestStand) {
  expect_no_heap_in_steps(Rig(RigParameters{}, RestingPlace{}, {.kind = Load::locked}), 0.5, hold_at_start);
}

// Over every boundary of the tape: cells, seconds, the last 30 s full, and blocks that leave memory for the file.
TEST(TapeAllocation, NoneInAnAppend) {
  const auto path = std::filesystem::temp_directory_path() / fmt::format("voltfall_allocation_{}", getpid());
  Tape tape(Rig::step_s, std::make_unique<TapeFile>(path));
  Readings now;
  for (long step = 0; step < std::lround(75.0 / Rig::step_s); ++step) {
    now.time_s = static_cast<double>(step) * Rig::step_s;
    now.loop_A = static_cast<double>(step % 700);
    watch_heap(true);
    tape.append(now);
    watch_heap(false);
    ASSERT_EQ(heap_calls(), 0) << "in the append at " << now.time_s << " s";
  }
  ASSERT_EQ(tape.take_trouble(), std::nullopt);
}

}  // namespace
}  // namespace voltfall
