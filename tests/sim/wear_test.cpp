#include <gtest/gtest.h>

#include <algorithm>
#include <vector>

#include "support/cranks.h"

// What use and heat do to contacts, teeth and motor in the course of a run.

namespace voltfall {
namespace {

struct Trial {
  Rig rig;
  Controls controls;
  std::vector<RigEventKind> events;

  void key(KeyPosition to, double for_s) {
    controls.key = to;
    for (long step = 0; step < static_cast<long>(for_s / Rig::step_s); ++step) {
      rig.step(controls);
      for (const RigEvent& event : rig.take_events()) events.push_back(event.kind);
    }
  }
  std::ptrdiff_t heard(RigEventKind kind) const { return std::count(events.begin(), events.end(), kind); }
};

Trial cranking(const RigParameters& parameters, double for_s) {
  Trial run{Rig(parameters, RestingPlace{}), {}, {}};
  run.key(KeyPosition::start, for_s);
  return run;
}

TEST(GroundingContacts, ArcAsTheyOpenLateInTheTravel) {
  const Trial run = cranking({}, 0.1);
  EXPECT_EQ(run.heard(RigEventKind::grounding_contacts_opened), 1);
  EXPECT_GT(run.rig.state().grounding_wear.burnt_J, 0.1);
}

TEST(GroundingContacts, StayShutWithAWeldThatTheShoeCannotPart) {
  const Trial before = cranking({}, 0.039);
  ASSERT_EQ(before.rig.state().grounding_contacts, ContactState::closed);
  RigState welded = before.rig.state();
  welded.grounding_wear.weld_N = 1.0e5;
  Trial run{Rig(welded, RigParameters{}), {}, {}};
  run.key(KeyPosition::start, 0.3);
  EXPECT_TRUE(run.rig.readings().grounding_contacts_closed);
  EXPECT_EQ(run.heard(RigEventKind::grounding_contacts_welded), 1);
  EXPECT_EQ(run.rig.parameters().starter.grounding_contacts_stuck, 1.0);

  welded.grounding_wear.weld_N = 5.0;  // a weak one parts
  Trial freed{Rig(welded, RigParameters{}), {}, {}};
  freed.key(KeyPosition::start, 0.3);
  EXPECT_FALSE(freed.rig.readings().grounding_contacts_closed);
}

// trade.md fault 22: cranks on with the key let go; a new relay is the cure.
TEST(RelayWeld, RunsOnUntilTheRelayIsRenewed) {
  RigState welded = cranking({}, 0.5).rig.state();
  welded.relay_wear.weld_N = 1000.0;
  Trial run{Rig(welded, RigParameters{}), {}, {}};
  run.key(KeyPosition::on, 0.5);
  EXPECT_EQ(run.heard(RigEventKind::relay_welded), 1);
  EXPECT_TRUE(run.rig.readings().relay_closed);
  EXPECT_GT(run.rig.readings().crank_rpm, 100.0);
  RigParameters renewed = run.rig.parameters();
  renewed.relay = RelayParameters{};
  run.rig.refit(renewed);
  run.rig.rest(60.0);
  run.key(KeyPosition::on, 0.2);
  EXPECT_FALSE(run.rig.readings().relay_closed);
}

TEST(RelayWeld, TearsWhenItIsWeak) {
  RigState welded = cranking({}, 0.5).rig.state();
  welded.relay_wear.weld_N = 5.0;
  Trial run{Rig(welded, RigParameters{}), {}, {}};
  run.key(KeyPosition::on, 0.2);
  EXPECT_EQ(run.heard(RigEventKind::relay_welded), 0);
  EXPECT_FALSE(run.rig.readings().relay_closed);
}

// A motor already at speed throws its pinion at the ring: teeth mill, and do not mesh (design document section 2).
TEST(Teeth, MillWhenTheMotorIsAlreadyFast) {
  const Trial whirr = cranking(vehicle_with({{"starter.grounding_contacts_stuck", -1.0}}), 1.5);
  EXPECT_GT(whirr.rig.readings().motor_rpm, 5000.0);
  EXPECT_FALSE(whirr.rig.readings().meshed);
  EXPECT_GT(whirr.heard(RigEventKind::teeth_abutted), 0);
  const Trial healthy = cranking({}, 1.5);
  EXPECT_GT(whirr.rig.energy().tooth_heat_J, healthy.rig.energy().tooth_heat_J);
}

// The key let go in the middle of a crank: the pinion leaves the ring and is home within a quarter of a second.
TEST(Teeth, PartWhenTheKeyIsReleased) {
  Trial run = cranking({}, 1.0);
  ASSERT_TRUE(run.rig.readings().meshed);
  run.key(KeyPosition::on, 0.25);
  EXPECT_EQ(run.heard(RigEventKind::shoe_dropped), 1);
  EXPECT_FALSE(run.rig.readings().meshed);
  EXPECT_LT(run.rig.readings().pinion_travel_m, 1.0e-3);
  EXPECT_LE(closure_over_limit(run.rig.energy()), 1.0);
}

// Common practice: a starter kept at it grows hot and slow. Copper gains 0.39 % a kelvin, the battery gives out.
TEST(LongCranking, FadesTheMotor) {
  Trial run = cranking({}, 3.0);
  const auto mean_rpm = [&] {
    double sum = 0.0;
    for (int step = 0; step < 5000; ++step) {
      run.rig.step(run.controls);
      sum += run.rig.readings().crank_rpm / 5000.0;
    }
    return sum;
  };
  const double fresh_rpm = mean_rpm(), cool_C = run.rig.readings().winding_C;
  run.key(KeyPosition::start, 45.0);
  EXPECT_GT(run.rig.readings().winding_C, cool_C + 40.0);
  EXPECT_LT(mean_rpm(), 0.98 * fresh_rpm);
}

// physics.md section 1: states of a contact; the healthy relay's first closing bounces, and that is one closing.
TEST(RelayContact, BouncesWithinOneClosing) {
  const Trial run = cranking({}, 0.5);
  EXPECT_EQ(run.heard(RigEventKind::relay_closed), 1);
  EXPECT_GE(run.heard(RigEventKind::relay_bounced), 1);
  EXPECT_LE(run.heard(RigEventKind::relay_bounced), 6);
}

// 200 A through a bad joint of 5 mohm is 200 W: too hot to touch within seconds (common practice: feel for it).
TEST(BadJoint, GrowsHotToTheTouch) {
  const Trial run = cranking(vehicle_with({{"joints.starter_terminal.added_ohm", 0.005}}), 15.0);
  EXPECT_GT(run.rig.readings().hottest_joint_C, 60.0);
  EXPECT_LT(cranking({}, 15.0).rig.readings().hottest_joint_C, 45.0);
}

}  // namespace
}  // namespace voltfall
