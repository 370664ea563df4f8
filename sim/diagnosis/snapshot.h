#pragma once

#include <array>
#include <cstdint>
#include <optional>

#include "diagnosis/condition.h"
#include "hearing/crank_watch.h"
#include "rig/parameters.h"
#include "rig/readings.h"
#include "rig/state.h"

namespace voltfall {

/// Longer than the step of a job: what is foretold is held against limits and words, not against digits, and what it is
/// off by is far inside what nobody could tell from a limit.
inline constexpr double foretelling_step_s = 5.0e-4;

/// What one hypothesis would show in one condition: the figures every instrument is worked out from, each the mean over
/// a display's third of a second, and the words that would be true of what is heard and seen.
struct Snapshot {
  std::array<float, test_point_count> node_V{};  ///< against battery -
  std::array<float, heavy_cable_count> cable_A{};
  float loop_A = 0.0F, crank_rpm = 0.0F;
  std::uint32_t words = 0;  ///< bit i: all_observations()[i] holds

  bool operator==(const Snapshot&) const = default;

  double volts_between(TestPoint red, TestPoint black) const {
    return static_cast<double>(node_V[static_cast<std::size_t>(red)]) - node_V[static_cast<std::size_t>(black)];
  }
};

/// How much warmer the parts at each test point get in `warmed_s` seconds at `usual_cranking_A`, from the current and
/// the warmth a crank has, K; negative where no current worth the name flows.
using Rises = std::array<float, test_point_count>;
inline constexpr double warmed_s = 10.0;

/// A crank and where it left off.
struct Cranked {
  Snapshot shot;
  Rises rise_K{};
  RigState state;    ///< with the key still held
  CrankWatch watch;  ///< what had been heard up to then
};

/// One of the cranking conditions, from rest: about a second, then the key let go.
Cranked cranked(Condition condition, const RigParameters& parameters, const RestingPlace& rest);

/// The same without a fresh start, for a starter that turns the engine or a relay that chatters: the change is made
/// while it goes on. Empty when that ends the chatter: what comes then takes its time.
std::optional<Snapshot> cranked_on(const Cranked& from, Condition condition, const RigParameters& parameters);

/// Whether a starved relay chatters, or holds while the engine turns a little and stops, hangs on next to nothing: the
/// lamps, or an earlier crank. Where both are heard in the two, what is heard in one is fair in the other.
void share_sounds_of_a_near_thing(Snapshot& cranking, Snapshot& with_lamps);

/// Rest or key on: a moment, or longer where something turns unasked.
Snapshot not_cranked(Condition condition, const RigParameters& parameters, const RestingPlace& rest);

/// Ohms an ohmmeter would find between two points with the battery off, from the small current it drives.
double simulated_ohms(TestPoint red, TestPoint black, const RigParameters& parameters, const RestingPlace& rest);

/// Volts of the battery posts after 15 s of the load test at `load_A`.
double simulated_load_V(double load_A, const RigParameters& parameters, const RestingPlace& rest);

}  // namespace voltfall
