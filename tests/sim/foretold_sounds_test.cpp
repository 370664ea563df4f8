#include <gtest/gtest.h>

#include "diagnosis/signature.h"
#include "faults/catalogue.h"
#include "rig/rig.h"
#include "sim/worked_job.h"
#include "vehicles/vehicle_types.h"

// Sounds that a fault is known by, foretold and heard in a job.

namespace voltfall {
namespace {

std::uint32_t words_of(std::initializer_list<std::string_view> ids) {
  std::uint32_t words = 0;
  for (const std::string_view id : ids) {
    words |= std::uint32_t{1} << (observation_named(id) - all_observations().data());
  }
  return words;
}

bool tells(const Snapshot& shot, std::string_view word) {
  return (shot.words & words_of({word})) != 0;
}

bool foretold(std::string_view word, const RigParameters& vehicle) {
  return tells(cranked(Condition::cranking, vehicle, {}).shot, word);
}

void expect_foretold(std::string_view word, const Fault& fault) {
  for (const VehicleType& type : all_vehicle_types()) {
    for (const double severity : {fault.lowest, fault.usual, fault.highest}) {
      EXPECT_TRUE(foretold(word, with_fault(type.healthy, fault, severity)))
          << fault.id << " " << severity << " in " << type.id;
    }
  }
}

test::Learner learner_with(std::string_view fault_id) {
  Scenario job;
  job.faults.push_back({std::string(fault_id), fault_named(fault_id)->usual});
  test::Learner learner(std::move(job));
  learner.make_safe();
  return learner;
}

// Trade practice: an engine with liquid in a cylinder stops dead. The key let go, what was pressed together pushes it
// back a little; that is no turning.
TEST(ForetoldSounds, LiquidInACylinderIsAThudAndAStop) {
  expect_foretold("thud_and_stop", *fault_named("liquid_in_cylinder"));
  test::Learner learner = learner_with("liquid_in_cylinder");
  learner.crank();
  learner.act(NoteObservation{"thud_and_stop"});
  EXPECT_TRUE(learner.session.findings().back().observation_true);
}

// trade.md 23: a sticking plunger delays by 0.2 to 5 s, and the starter runs on after release.
TEST(ForetoldSounds, AStickingPlungerIsLateAndRunsOnForAWhile) {
  const Fault& sticks = *fault_named("relay_plunger_sticks");
  expect_foretold("late_clunk", sticks);
  expect_foretold("runs_on", sticks);
  for (const double severity : {sticks.lowest, sticks.highest}) {
    Rig rig(with_fault({}, sticks, severity), {}, {});
    const auto relay_closed_after = [&](KeyPosition key, double seconds) {
      Controls controls;
      controls.key = key;
      for (int i = 0; i < static_cast<int>(seconds / 2.0e-4); ++i) rig.step(controls);
      return rig.readings().relay_closed;
    };
    EXPECT_TRUE(relay_closed_after(KeyPosition::start, 1.5));
    EXPECT_TRUE(relay_closed_after(KeyPosition::off, 0.2)) << severity;
    EXPECT_FALSE(relay_closed_after(KeyPosition::off, 4.8)) << severity;
  }
}

// What goes on when lamps are switched on goes on when the key is let go as well.
TEST(ForetoldSounds, AWeldedRelayRunsOnWithTheLampsOnToo) {
  const Fault& welded = *fault_named("relay_contacts_welded");
  for (const VehicleType& type : all_vehicle_types()) {
    Scenario job;
    job.typical = type.healthy;
    const Signature faulty = signature_of(with_fault(type.healthy, welded, welded.usual), job);
    EXPECT_TRUE(tells(faulty.at(Condition::cranking), "runs_on")) << type.id;
    EXPECT_TRUE(tells(faulty.at(Condition::cranking_lamps), "runs_on")) << type.id;
    EXPECT_FALSE(tells(signature_of(type.healthy, job).at(Condition::cranking_lamps), "runs_on")) << type.id;
  }
}

// Chatter in one and a little turning in the other: either may be heard in both, and the lamps' words stay where they
// were. Chatter alone, or turning alone, is told as it was worked out.
TEST(ForetoldSounds, OfANearThingAreFairWithLampsAndWithout) {
  Snapshot dark, lit;
  dark.words = words_of({"chatter"});
  lit.words = words_of({"slow_crank", "thud_and_stop", "lamps_dim"});
  share_sounds_of_a_near_thing(dark, lit);
  EXPECT_EQ(dark.words, words_of({"chatter", "slow_crank", "thud_and_stop"}));
  EXPECT_EQ(lit.words, words_of({"chatter", "slow_crank", "thud_and_stop", "lamps_dim"}));

  dark.words = words_of({"one_click"});
  lit.words = words_of({"chatter", "lamps_out"});
  share_sounds_of_a_near_thing(dark, lit);
  EXPECT_EQ(dark.words, words_of({"one_click"}));
  EXPECT_EQ(lit.words, words_of({"chatter", "lamps_out"}));
}

}  // namespace
}  // namespace voltfall
