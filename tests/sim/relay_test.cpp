#include "rig/relay.h"

#include <gtest/gtest.h>

#include "support/tolerance.h"

namespace voltfall {
namespace {

TEST(Relay, ContactsTouchWherePlungerTravelSays) {
  const RelayParameters relay;
  EXPECT_FALSE(relay_contacts_touch(relay, relay.contact_touch_m - 1.0e-6));
  EXPECT_TRUE(relay_contacts_touch(relay, relay.contact_touch_m));
  EXPECT_TRUE(relay_contacts_touch({.contact_welded = 1.0}, 0.0));
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
        (plunger_spring_J(relay, plunger_m + apart_m) - plunger_spring_J(relay, plunger_m - apart_m)) / (2.0 * apart_m);
    // A pull just above the springs' force moves the plunger in, one just below moves it out.
    EXPECT_GT(move_plunger(relay, {plunger_m, 0.0}, 1.01 * slope_N, 1.0e-5).after.m_per_s, 0.0) << plunger_m;
    EXPECT_LT(move_plunger(relay, {plunger_m, 0.0}, 0.99 * slope_N, 1.0e-5).after.m_per_s, 0.0) << plunger_m;
  }
}

TEST(Relay, TurnsThePlungersFlightToHeat) {
  const RelayParameters relay;
  SlideState plunger;
  double heat_J = 0.0;
  for (int step = 0; step < 20000; ++step) {
    const PlungerMove move = move_plunger(relay, plunger, 60.0, 1.0e-5);
    heat_J += move.heat_J;
    plunger = move.after;
  }
  EXPECT_EQ(plunger.travel_m, relay.plunger_travel_m);
  EXPECT_NEAR(heat_J, 60.0 * relay.plunger_travel_m - plunger_spring_J(relay, relay.plunger_travel_m), 1.0e-9);
}

}  // namespace
}  // namespace voltfall
