#include "electrical/network.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "support/tolerance.h"

namespace voltfall {
namespace {

// By hand: 12 V behind 1 ohm feeds 2 ohm and 3 ohm in series: 2 A, 10 V at the source, 6 V between the two.
TEST(Network, DividesVolts) {
  Network network;
  const auto top = network.add_node();
  const auto middle = network.add_node();
  const auto source = network.add_live(Network::reference, top);
  network.add_fixed(top, middle, 1.0 / 2.0);
  const auto lower = network.add_fixed(middle, Network::reference, 1.0 / 3.0);
  network.set(source, 1.0, 12.0);
  network.solve();
  network.complete();
  EXPECT_NEAR(network.volts(top), 10.0, rounding(10.0));
  EXPECT_NEAR(network.volts(middle), 6.0, rounding(6.0));
  EXPECT_NEAR(network.amps(lower), 2.0, rounding(2.0));
  EXPECT_NEAR(network.watts(lower), 12.0, rounding(12.0));
  EXPECT_LE(network.residual_A(), 1.0e-12);
  EXPECT_NEAR(network.largest_A(), 2.0, rounding(2.0));
}

// By hand: a Wheatstone bridge of 1 and 2 ohm over 2 and 1 ohm with 1 ohm across, on 5 V. By symmetry the two middles
// lie at 2.5 + u and 2.5 - u; (2.5 - u) / 1 = (2.5 + u) / 2 + 2 u / 1 gives u = 1.25 / 3.5.
TEST(Network, SolvesABridge) {
  Network network;
  const auto top = network.add_node();
  const auto left = network.add_node();
  const auto right = network.add_node();
  const auto source = network.add_live(Network::reference, top);
  network.set(source, 1.0e9, 5.0e9);
  network.add_fixed(top, left, 1.0);
  network.add_fixed(left, Network::reference, 1.0 / 2.0);
  network.add_fixed(top, right, 1.0 / 2.0);
  network.add_fixed(right, Network::reference, 1.0);
  const auto across = network.add_fixed(left, right, 1.0);
  network.solve();
  network.complete();
  const double u = 1.25 / 3.5;
  EXPECT_NEAR(network.volts(left), 2.5 + u, 1.0e-8);  // the source's 1 nano-ohm drops some nanovolts
  EXPECT_NEAR(network.volts(right), 2.5 - u, 1.0e-8);
  EXPECT_NEAR(network.amps(across), 2.0 * u, 1.0e-8);
}

TEST(Network, TakesAChangedFixedBranchAtTheNextSolve) {
  Network network;
  const auto node = network.add_node();
  const auto hidden = network.add_node();
  const auto source = network.add_live(Network::reference, node);
  const auto load = network.add_fixed(node, hidden, 1.0);
  network.add_fixed(hidden, Network::reference, 1.0);
  network.set(source, 1.0, 12.0);
  network.solve();
  EXPECT_NEAR(network.volts(node), 8.0, rounding(8.0));  // 12 V over 1 + 2 ohm
  network.set(load, 0.25);                               // 4 ohm now: 12 x 5 / 6
  network.solve();
  network.complete();
  EXPECT_NEAR(network.volts(node), 10.0, rounding(10.0));
  EXPECT_NEAR(network.volts(hidden), 2.0, rounding(2.0));
}

// A source inside a fixed branch, as an ohmmeter hangs on: 1 A pushed into 5 ohm with the meter's own 20 ohm beside it
// is 4 ohm, 4 V.
TEST(Network, CarriesASourceInAFixedBranch) {
  Network network;
  const auto node = network.add_node();
  const auto other = network.add_node();
  network.add_live(other, Network::reference);
  network.set(0, 1.0);
  network.add_fixed(other, Network::reference, 1.0);
  network.add_fixed(node, Network::reference, 1.0 / 5.0);
  const auto meter = network.add_fixed(node, Network::reference, 1.0 / 20.0);
  network.set(meter, 1.0 / 20.0, -1.0);
  network.solve();
  network.complete();
  EXPECT_NEAR(network.volts(node), 4.0, rounding(4.0));
  network.remove_from(meter);
  network.solve();
  network.complete();
  EXPECT_NEAR(network.volts(node), 0.0, rounding(1.0));
}

// Two coupled branches: i1 = v1 + 0.5 v2, i2 = v2 + 0.5 v1, each fed through 1 ohm from 3 V and 0 V. By hand:
// 3 - v1 = v1 + 0.5 v2 and -v2 = v2 + 0.5 v1 give v1 = 3 / 1.875, v2 = -v1 / 4.
TEST(Network, CouplesTwoBranches) {
  Network network;
  const auto one = network.add_node();
  const auto two = network.add_node();
  const auto feed = network.add_live(Network::reference, one);
  const auto first = network.add_live(one, Network::reference);
  const auto second = network.add_live(two, Network::reference);
  network.add_fixed(two, Network::reference, 1.0);
  network.couple(first, second);
  network.set(feed, 1.0, 3.0);
  network.set(first, 1.0);
  network.set(second, 1.0);
  network.set_mutual(0.5);
  network.solve();
  network.complete();
  EXPECT_NEAR(network.volts(one), 1.6, rounding(1.6));
  EXPECT_NEAR(network.volts(two), -0.4, rounding(0.4));
  EXPECT_NEAR(network.amps(first), 1.4, rounding(1.4));
  EXPECT_NEAR(network.amps(second), 0.4, rounding(0.4));
  EXPECT_LE(network.residual_A(), 1.0e-12);
}

// Both ends of a lead on one stud: it shorts nothing and carries nothing. 12 V over 1 + 1 + 1 ohm.
TEST(Network, TakesNoNoticeOfABranchWithBothEndsOnOneNode) {
  Network network;
  const auto node = network.add_node();
  const auto hidden = network.add_node();
  const auto source = network.add_live(Network::reference, node);
  network.add_fixed(node, hidden, 1.0);
  network.add_fixed(hidden, Network::reference, 1.0);
  const auto lead = network.add_fixed(hidden, hidden, 1.0e3);
  network.set(source, 1.0, 12.0);
  network.solve();
  network.complete();
  EXPECT_NEAR(network.volts(hidden), 4.0, rounding(4.0));
  EXPECT_EQ(network.amps(lead), 0.0);
  EXPECT_LE(network.residual_A(), 1.0e-12);
}

// What was read off the last solve must not mix its potentials with conductances that come after it.
TEST(Network, KeepsTheLastSolvesPowerUntilTheNext) {
  Network network;
  const auto node = network.add_node();
  const auto source = network.add_live(Network::reference, node);
  const auto load = network.add_fixed(node, Network::reference, 1.0);
  network.set(source, 1.0, 12.0);
  network.solve();
  network.complete();
  network.set(load, 0.25);
  EXPECT_NEAR(network.watts(load), 36.0, rounding(36.0));  // 6 V at 1 ohm
  EXPECT_LE(network.residual_A(), 1.0e-12);
  network.solve();
  network.complete();
  EXPECT_NEAR(network.watts(load), 9.6 * 9.6 / 4.0, rounding(23.04));  // 12 V over 1 + 4 ohm
}

TEST(Network, RefusesMoreNodesThanItHolds) {
  Network network;
  for (std::size_t i = 1; i < Network::most_nodes; ++i) network.add_node();
  EXPECT_THROW(network.add_node(), std::length_error);
}

TEST(Network, RefusesANodeInTheAir) {
  Network network;
  const auto lone = network.add_node();
  const auto branch = network.add_live(lone, Network::reference);
  network.set(branch, 0.0);
  EXPECT_THROW(network.solve(), std::runtime_error);
}

}  // namespace
}  // namespace voltfall
