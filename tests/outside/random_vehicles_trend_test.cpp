#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "outside/random_vehicles.h"
#include "rig/settable.h"
#include "support/cranks.h"

// More resistance never raises the converged speed (physics.md, "Trust"; issue: same crank angle and tooth phase,
// engaged in both). It is meant of what the whole starter current or the whole armature current goes through: more ohms
// in one of two field coils side by side may well weaken a field and speed a motor up.

namespace voltfall {
namespace {

constexpr int shard_count = 4;
constexpr std::uint64_t vehicles_in_shard = checked_build ? 4 : 75;

// Both runs last equally long, so that both have warmed and drained alike; what is left is the step's own error, and
// that is under 0.2 % of a converged average (physics.md, "Trust").
constexpr double cranked_s = 5.0, step_error = 0.002;

constexpr std::array<std::string_view, 15> carries_all{"battery.internal_ohm",
                                                       "joints.positive_clamp.added_ohm",
                                                       "joints.relay_battery_stud.added_ohm",
                                                       "joints.relay_motor_stud.added_ohm",
                                                       "joints.starter_terminal.added_ohm",
                                                       "joints.mounting_face.added_ohm",
                                                       "joints.block_lug.added_ohm",
                                                       "joints.negative_clamp.added_ohm",
                                                       "cables.positive.added_ohm",
                                                       "cables.starter.added_ohm",
                                                       "cables.negative.added_ohm",
                                                       "relay.contact_ohm",
                                                       "starter.armature_ohm",
                                                       "starter.brush_added_ohm",
                                                       "joints.mounting_face.healthy_ohm"};

// What burns or welds in one run and not in the other makes them two different cars.
bool damaged(const CrankResult& cranked) {
  using enum RigEventKind;
  return std::any_of(cranked.events.begin(), cranked.events.end(), [](const RigEvent& event) {
    return event.kind == relay_welded || event.kind == grounding_contacts_welded || event.kind == winding_burnt ||
           event.kind == commutator_burnt || event.kind == fusible_link_blown || event.kind == stray_path_burnt;
  });
}

bool comparable(const CrankResult& cranked) {
  return !damaged(cranked) && cranked.engaged() && cranked.settled.converged &&
         cranked.settled.state == CrankState::cranking;
}

class RandomTrends : public ::testing::TestWithParam<int> {};

TEST_P(RandomTrends, MoreResistanceNeverRaisesTheSpeed) {
  int compared = 0, clearly_slower = 0;
  for (std::uint64_t i = 0; i < vehicles_in_shard; ++i) {
    const std::uint64_t seed = static_cast<std::uint64_t>(GetParam()) * vehicles_in_shard + i;
    RandomVehicle vehicle = seed % 2 == 0 ? random_cranking_vehicle(seed) : random_vehicle(seed);
    Draw draw(seed);
    const Settable& raised = *settable_at(carries_all[draw.below(carries_all.size())]);
    CrankResult before = crank_for(cranked_s, vehicle.parameters, {}, vehicle.rest);
    for (const double added_ohm : {0.001, draw.in_decades(0.001, 0.010)}) {
      raised.in(vehicle.parameters) += added_ohm;
      const CrankResult after = crank_for(cranked_s, vehicle.parameters, {}, vehicle.rest);
      if (!comparable(before) || !comparable(after)) break;
      ++compared;
      const double faster_rpm = before.settled.crank_rpm.mean, slower_rpm = after.settled.crank_rpm.mean;
      EXPECT_LE(slower_rpm, faster_rpm * (1.0 + step_error))
          << added_ohm << " ohm on " << raised.path << " (all before it: once 0.001)\n"
          << vehicle.made_of;
      if (slower_rpm < 0.99 * faster_rpm) ++clearly_slower;
      before = after;
    }
  }
  EXPECT_GE(compared, static_cast<int>(vehicles_in_shard) / 2) << "of four times as many: too few cars that crank";
  EXPECT_GE(clearly_slower, compared / 2);
}

INSTANTIATE_TEST_SUITE_P(Shards, RandomTrends, ::testing::Range(0, shard_count));

}  // namespace
}  // namespace voltfall
