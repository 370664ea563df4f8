#include "rig/relay.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/tolerance.h"

namespace voltfall {
namespace {

RelayMechanism pressed(double plunger_m, double disc_m) {
  return {{plunger_m, 0.0}, {disc_m, 0.0}};
}

RelayMechanism riding(double plunger_m) {
  return pressed(plunger_m, std::min(plunger_m, RelayParameters{}.contact_touch_m));
}

TEST(Relay, ContactsTouchWhereTheDiscStands) {
  const RelayParameters relay;
  EXPECT_FALSE(relay_contacts_touch(relay, riding(relay.contact_touch_m - 1.0e-6)));
  EXPECT_TRUE(relay_contacts_touch(relay, riding(relay.contact_touch_m)));
  EXPECT_FALSE(relay_contacts_touch(relay, pressed(relay.contact_touch_m + 1.0e-4, relay.contact_touch_m - 1.0e-4)));
  EXPECT_TRUE(relay_contacts_touch({.contact_welded = 1.0}, riding(0.0)));
}

TEST(Relay, GapClosesWithThePlunger) {
  const RelayParameters relay;
  EXPECT_NEAR(relay_gap_m(relay, 0.0), relay.plunger_travel_m, rounding(1.0));
  EXPECT_NEAR(relay_gap_m(relay, relay.plunger_travel_m), 0.0, rounding(1.0));
}

// The springs' energy is what pushing the plunger in slowly against their force takes: the force is its slope.
TEST(Relay, SpringEnergyMatchesItsForce) {
  RelayParameters relay;
  relay.plunger_friction_N = 0.0;
  constexpr double apart_m = 1.0e-7;
  for (const double plunger_m : {0.5e-3, 2.25e-3, 2.6e-3}) {
    const double slope_N =
        (relay_spring_J(relay, riding(plunger_m + apart_m)) - relay_spring_J(relay, riding(plunger_m - apart_m))) /
        (2.0 * apart_m);
    // A pull just above the springs' force moves the plunger in, one just below moves it out.
    EXPECT_GT(move_relay(relay, riding(plunger_m), 1.01 * slope_N, 0.0, 1.0e-5).after.plunger.m_per_s, 0.0);
    EXPECT_LT(move_relay(relay, riding(plunger_m), 0.99 * slope_N, 0.0, 1.0e-5).after.plunger.m_per_s, 0.0);
  }
}

struct Pulled {
  RelayMechanism end;
  double heat_J = 0.0;
  int bounces = 0;  ///< times the disc left the studs again
  bool weld_held = false;
};

Pulled pulled(const RelayParameters& relay, RelayMechanism from, double pull_N, double weld_N) {
  Pulled pulled;
  for (int step = 0; step < 200000; ++step) {
    const bool touched = relay_contacts_touch(relay, from);
    const RelayMove move = move_relay(relay, from, pull_N, weld_N, 2.0e-6);
    from = move.after;
    pulled.heat_J += move.heat_J;
    pulled.weld_held = pulled.weld_held || move.weld_holds;
    if (touched && !relay_contacts_touch(relay, from)) ++pulled.bounces;
  }
  pulled.end = from;
  return pulled;
}

TEST(Relay, TurnsThePlungersFlightToHeat) {
  const RelayParameters relay;
  const Pulled in = pulled(relay, rested_relay(relay), 60.0, 0.0);
  EXPECT_EQ(in.end.plunger.travel_m, relay.plunger_travel_m);
  EXPECT_EQ(in.end.disc.travel_m, relay.contact_touch_m);
  EXPECT_NEAR(in.heat_J, 60.0 * relay.plunger_travel_m - relay_spring_J(relay, in.end), 1.0e-9);
}

// Common practice: contacts bounce once to a few times on closing, and part once on opening.
TEST(Relay, BouncesOnClosingAndPartsOnceOnOpening) {
  const RelayParameters relay;
  const Pulled in = pulled(relay, rested_relay(relay), 60.0, 0.0);
  EXPECT_GE(in.bounces, 1);
  EXPECT_LE(in.bounces, 8);
  EXPECT_EQ(pulled(relay, in.end, 0.0, 0.0).bounces, 1);
}

TEST(Relay, TearsAWeakWeldAndIsHeldByAStrongOne) {
  const RelayParameters relay;
  const RelayMechanism shut = pulled(relay, rested_relay(relay), 60.0, 0.0).end;
  const double spring_N = relay.return_spring_N + relay.return_spring_N_per_m * relay.contact_touch_m;
  const Pulled weak = pulled(relay, shut, 0.0, 0.5 * spring_N);
  EXPECT_FALSE(weak.weld_held);
  EXPECT_EQ(weak.end.plunger.travel_m, 0.0);
  const Pulled strong = pulled(relay, shut, 0.0, 1000.0);
  EXPECT_TRUE(strong.weld_held);
  EXPECT_EQ(strong.end.disc.travel_m, relay.contact_touch_m);
  EXPECT_NEAR(strong.end.plunger.travel_m, relay.contact_touch_m, 1.0e-9);
}

}  // namespace
}  // namespace voltfall
