#include "outside/random_vehicles.h"

#include <gtest/gtest.h>

#include <cctype>
#include <exception>
#include <sstream>
#include <stdexcept>
#include <string_view>

#include "faults/catalogue.h"
#include "outside/random_vehicles_watch.h"
#include "rig/settable.h"
#include "support/cranks.h"

// What may be trusted of any vehicle (physics.md, "Trust"): every parameter within its documented range, singly or
// together, faults singly and in pairs. What is watched stands with `watch_turn`. A vehicle may also be refused, if
// that says what and when and is rare.

namespace voltfall {
namespace {

// "the circuit did not converge at 0.0312 s"
bool names_what_and_when(std::string_view message) {
  const std::size_t when = message.rfind(" at ");
  return when != std::string_view::npos && when > 0 && message.ends_with(" s") &&
         std::isdigit(static_cast<unsigned char>(message[when + 4])) != 0;
}

class AnyVehicle : public ::testing::Test {
 protected:
  void turn_the_key_of(const RandomVehicle& vehicle, bool again = false) {
    ++turned_;
    try {
      const WatchedTurn turn = watch_turn(vehicle);
      if (!turn.wrong.empty()) ADD_FAILURE() << turn.wrong << vehicle.made_of;
      if (!again) return;
      EXPECT_EQ(turn.bits, watch_turn(vehicle).bits) << vehicle.made_of;
    } catch (const std::invalid_argument& contradiction) {  // no vehicle at all: said at once, with what is allowed
      EXPECT_NE(std::string_view(contradiction.what()).find("allowed"), std::string_view::npos) << contradiction.what();
    } catch (const std::exception& refusal) {
      ++refused_;
      refusals_ << refusal.what() << '\n' << vehicle.made_of << '\n';
      EXPECT_TRUE(names_what_and_when(refusal.what())) << refusal.what();
    }
  }

  void TearDown() override { EXPECT_LE(1000 * refused_, turned_) << refusals_.str(); }

  int turned_ = 0, refused_ = 0;
  std::ostringstream refusals_;
};

constexpr int shard_count = 10;
constexpr std::uint64_t vehicles = checked_build ? 400 : 20000;

class RandomVehicles : public AnyVehicle, public ::testing::WithParamInterface<int> {};

TEST_P(RandomVehicles, KeepTheLawsOfNature) {
  constexpr std::uint64_t vehicles_in_shard = vehicles / shard_count, repeat_every = 20;
  for (std::uint64_t i = 0; i < vehicles_in_shard; ++i) {
    const std::uint64_t seed = static_cast<std::uint64_t>(GetParam()) * vehicles_in_shard + i;
    turn_the_key_of(random_vehicle(seed), i % repeat_every == 0);
  }
}

INSTANTIATE_TEST_SUITE_P(Shards, RandomVehicles, ::testing::Range(0, shard_count));

/// Engagement, the first turns and the release of a vehicle made by hand.
RandomVehicle turned(const RigParameters& parameters, const std::string& made_of) {
  RandomVehicle vehicle;
  vehicle.parameters = parameters;
  vehicle.held.key = KeyPosition::start;
  vehicle.held.headlamps = true;
  vehicle.key_s = 0.15;
  vehicle.after_s = 0.03;
  vehicle.made_of = made_of;
  return vehicle;
}

class EveryEnd : public AnyVehicle {};

TEST_F(EveryEnd, OfEverySettableKeepsTheLawsOfNature) {
  for (const Settable& settable : all_settables()) {
    for (const double end : {settable.lowest, settable.highest}) {
      RigParameters parameters;
      settable.in(parameters) = end;
      turn_the_key_of(turned(parameters, std::string(settable.path) + " = " + std::to_string(end)));
    }
  }
}

/// An eighth of them each, so that both cores have something to do.
constexpr std::size_t shares = 8;
class EveryPair : public AnyVehicle, public ::testing::WithParamInterface<std::size_t> {};

// A fault with itself is that fault alone. Severities: both lowest, both highest.
TEST_P(EveryPair, OfFaultsKeepsTheLawsOfNature) {
  constexpr std::size_t every = checked_build ? 83 : 1;
  const auto faults = all_faults();
  for (std::size_t pair = every * GetParam(); pair < faults.size() * faults.size(); pair += every * shares) {
    const Fault &one = faults[pair / faults.size()], &other = faults[pair % faults.size()];
    if (&other < &one) continue;
    for (const bool worst : {false, true}) {
      RigParameters parameters = with_fault({}, one, worst ? one.highest : one.lowest);
      if (&other != &one) parameters = with_fault(parameters, other, worst ? other.highest : other.lowest);
      turn_the_key_of(turned(parameters, std::string(one.id) + " and " + std::string(other.id) +
                                             (worst ? " at their highest" : " at their lowest")));
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Eighth, EveryPair, ::testing::Range(std::size_t{0}, shares));

// Nothing is left out: what the books say went out is the sum of what is watched, the gas and the load.
TEST(WatchedBooks, CoverEveryEntry) {
  const EnergyLedger energy = crank_for(0.5, {}).energy;
  const double out_J = watched_heat_J(energy) + energy.gas_work_J + energy.load_work_J;
  EXPECT_NEAR(energy.battery_out_J - out_J - energy.stored_J(), energy.closure_error_J(), 1.0e-9);
}

}  // namespace
}  // namespace voltfall
