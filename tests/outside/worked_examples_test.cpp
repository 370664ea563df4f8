#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "electrical/network.h"
#include "electrical/pole.h"
#include "support/tolerance.h"

// values.md section 10, by its numbers. M1 to M6 are in series_motor_test.cpp, C1 and C2 in engine_figures_test.cpp and
// battery_ratings_test.cpp.

namespace voltfall {
namespace {

// An emf behind a resistance, and a load.
struct LoadedSource {
  LoadedSource(double emf_V, double inner_ohm, double load_ohm) {
    posts = network.add_node();
    source = network.add_live(Network::reference, posts);
    load = network.add_fixed(posts, Network::reference, 1.0 / load_ohm);
    network.set(source, 1.0 / inner_ohm, emf_V / inner_ohm);
    network.solve();
    network.complete();
  }
  Network network;
  Network::Node posts;
  Network::Branch source, load;
};

TEST(WorkedExample, W1StarterOnABattery) {
  const LoadedSource w1(12.0, 0.0100, 0.0500);
  EXPECT_NEAR(w1.network.amps(w1.load), 200.0, rounding(200.0));
  EXPECT_NEAR(w1.network.volts(w1.posts), 10.0, rounding(10.0));
  EXPECT_NEAR(w1.network.watts(w1.load), 2000.0, 4.0 * rounding(2000.0));
}

TEST(WorkedExample, W3QuarterOfThePowerLost) {
  const LoadedSource w3(12.0, 0.01, 0.03);
  EXPECT_NEAR(w3.network.amps(w3.load), 300.0, rounding(300.0));
  EXPECT_NEAR(w3.network.volts(w3.posts), 9.0, rounding(9.0));
  EXPECT_NEAR(w3.network.watts(w3.load), 2700.0, 4.0 * rounding(2700.0));
  EXPECT_NEAR(300.0 * 300.0 * 0.01 / (12.0 * w3.network.amps(w3.load)), 0.25, rounding(1.0));
}

// 80 A from 12 V behind 0.02 ohm: 10.4 V.
TEST(WorkedExample, W4TerminalVolts) {
  const LoadedSource w4(12.0, 0.02, 10.4 / 80.0);
  EXPECT_NEAR(w4.network.amps(w4.load), 80.0, rounding(80.0));
  EXPECT_NEAR(w4.network.volts(w4.posts), 10.4, rounding(10.4));
}

// A coil as its companion model: i = i before + (dt / L) v.
class CoilCircuit {
 public:
  CoilCircuit(double emf_V, double ohm, double henry, double start_A, double dt_s)
      : henry_(henry), dt_s_(dt_s), current_A_(start_A) {
    const Network::Node node = network_.add_node();
    const Network::Branch source = network_.add_live(Network::reference, node);
    coil_ = network_.add_live(node, Network::reference);
    network_.set(source, 1.0 / ohm, emf_V / ohm);
  }
  double after_step() {
    network_.set(coil_, dt_s_ / henry_, current_A_);
    network_.solve();
    current_A_ = network_.amps(coil_);
    return current_A_;
  }

 private:
  Network network_;
  Network::Branch coil_ = 0;
  double henry_, dt_s_, current_A_;
};

double decayed_A(double dt_s) {
  CoilCircuit coil(0.0, 3.00, 7.50e-3, 10.0, dt_s);
  double current_A = 0.0;
  for (long step = 0; step < std::lround(5.0e-3 / dt_s); ++step) current_A = coil.after_step();
  return current_A;
}

// 7.50 mH, 3.00 ohm: tau 2.50 ms, 10.0 A decays to 1.35 A at 5.00 ms.
TEST(WorkedExample, R1CoilDecay) {
  EXPECT_NEAR(decayed_A(1.0e-6), 1.35, datasheet(0.01) + stepping(1.35, 1.0e-6, 2.5e-3));
  const double exact_A = 10.0 * std::exp(-2.0);
  const double coarse = decayed_A(2.0e-4) - exact_A, fine = decayed_A(1.0e-4) - exact_A;
  EXPECT_NEAR(coarse / fine, 2.0, 0.1);  // the method's first order
}

// 12 V, 10 ohm, 5 H: 0.5 A after 0.2695 s.
TEST(WorkedExample, R3CoilRise) {
  constexpr double dt_s = 1.0e-5;
  CoilCircuit coil(12.0, 10.0, 5.0, 0.0, dt_s);
  long steps = 1;
  while (coil.after_step() < 0.5 && steps < 100000) ++steps;
  EXPECT_NEAR(static_cast<double>(steps) * dt_s, 0.2695, datasheet(0.0001) + 2.0 * dt_s);
}

constexpr double mu0 = 4.0e-7 * std::numbers::pi;

// Iron without reluctance and without end, as the examples assume.
PoleParameters ideal_pole(double area_m2) {
  return {.area_m2 = area_m2, .iron_gap_m = 1.0e-12, .saturation_T = 1.0e6};
}

// 100 turns, 2 A, 0.001 m2, gap 0.05 m: 0.01005 N (the page rounds to 1.01e-2).
TEST(WorkedExample, S1PullOfACoil) {
  const PoleParameters pole = ideal_pole(0.001);
  const double flux_Wb = mu0 * 200.0 * pole.area_m2 / 0.05;
  EXPECT_NEAR(ampere_turns(pole, flux_Wb, 0.05), 200.0, 1.0e-6);
  EXPECT_NEAR(pull_N(pole, flux_Wb), 0.01005, datasheet(0.00001));
}

// 1 T over 5 cm2: 198.9 N a pole.
TEST(WorkedExample, S2LiftingMagnet) {
  const PoleParameters pole = ideal_pole(5.0e-4);
  EXPECT_NEAR(pull_N(pole, 1.0 * pole.area_m2), 198.9, datasheet(0.1));
}

// 15 mWb through 200 cm2 and 2.5 mm of air: 1492 ampere-turns.
TEST(WorkedExample, S4AmpereTurnsOfAGap) {
  EXPECT_NEAR(ampere_turns(ideal_pole(0.02), 0.015, 2.5e-3), 1492.0, datasheet(1.0));
}

}  // namespace
}  // namespace voltfall
