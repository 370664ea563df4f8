#include "mechanical/pole_shoe.h"

#include <gtest/gtest.h>

#include "support/tolerance.h"

namespace voltfall {
namespace {

constexpr double dt_s = 1.0e-5;
constexpr ShoeParameters free_shoe{
    .spring_preload_N = 0.0, .spring_N_per_m = 0.0, .hinge_friction_N = 0.0, .damping_Ns_per_m = 0.0};

// By hand: 85 N + 4 N/mm x 5 mm; its energy 85 x 0.005 + 4000 x 0.005^2 / 2.
TEST(ShoeSpring, HasPreloadAndRate) {
  constexpr ShoeParameters shoe{.spring_preload_N = 85.0, .spring_N_per_m = 4000.0};
  EXPECT_NEAR(shoe_spring_N(shoe, 5.0e-3), 105.0, rounding(105.0));
  EXPECT_NEAR(shoe_spring_J(shoe, 5.0e-3), 0.475, rounding(1.0));
}

// By hand: 70 N on 0.35 kg is 200 m/s2; 4 mm take sqrt(2 x 0.004 / 200) = 6.32 ms.
TEST(Shoe, FallsAsNewtonSays) {
  SlideState shoe;
  double time_s = 0.0;
  while (shoe.travel_m < 4.0e-3) {
    shoe = move_shoe(free_shoe, shoe, 70.0, 0.35, dt_s).after;
    time_s += dt_s;
  }
  EXPECT_NEAR(time_s, 6.325e-3, 2.0 * dt_s);
}

TEST(Shoe, StaysHomeUntilThePullBeatsSpringAndFriction) {
  const ShoeParameters shoe;
  EXPECT_EQ(move_shoe(shoe, {}, shoe.spring_preload_N + shoe.hinge_friction_N - 0.1, 0.35, dt_s).after.travel_m, 0.0);
  EXPECT_GT(move_shoe(shoe, {}, shoe.spring_preload_N + shoe.hinge_friction_N + 0.1, 0.35, dt_s).after.travel_m, 0.0);
}

// Everything put in is in spring, motion or heat; at a stop, at rest, all but the spring's part has become heat.
TEST(Shoe, BooksEveryJouleOfItsFlight) {
  const ShoeParameters shoe;
  SlideState state;
  double put_in_J = 0.0, heat_J = 0.0;
  for (int step = 0; step < 20000; ++step) {
    const ShoeMove move = move_shoe(shoe, state, 300.0, 0.35, dt_s);
    put_in_J += 300.0 * (move.after.travel_m - state.travel_m);
    EXPECT_GE(move.heat_J, -1.0e-6);
    heat_J += move.heat_J;
    state = move.after;
  }
  EXPECT_EQ(state.travel_m, shoe.travel_m);
  EXPECT_EQ(state.m_per_s, 0.0);
  EXPECT_NEAR(put_in_J, 300.0 * shoe.travel_m, 1.0e-9);
  EXPECT_NEAR(heat_J, put_in_J - shoe_spring_J(shoe, shoe.travel_m), 1.0e-9);
}

// A free mass on a spring keeps its energy: the implicit midpoint neither feeds nor damps it.
TEST(Shoe, SwingsWithoutGainOrLoss) {
  ShoeParameters shoe = free_shoe;
  shoe.spring_N_per_m = 20000.0;
  SlideState state{.travel_m = 4.0e-3, .m_per_s = 0.0};
  const double pull_N = shoe.spring_N_per_m * 3.0e-3;  // swings between 2 and 4 mm
  const auto energy_J = [&] {
    return shoe_spring_J(shoe, state.travel_m) - pull_N * state.travel_m + 0.5 * 0.35 * state.m_per_s * state.m_per_s;
  };
  const double before_J = energy_J();
  for (int step = 0; step < 10000; ++step) state = move_shoe(shoe, state, pull_N, 0.35, 1.0e-4).after;
  EXPECT_NEAR(energy_J(), before_J, 1.0e-9);
}

}  // namespace
}  // namespace voltfall
