#pragma once

#include <array>
#include <span>
#include <vector>

#include "diagnosis/hypotheses.h"
#include "diagnosis/snapshot.h"
#include "instruments/battery_testers.h"

namespace voltfall {

/// Two points of the control side or the body between which an ohmmeter can tell something with the battery off.
struct OhmPair {
  TestPoint red, black;
};
inline constexpr std::size_t ohm_pair_count = 8;
std::span<const OhmPair> ohm_pairs();

/// The starter on the bench; an open hold-in coil measures 1e9 ohm.
struct BenchFigures {
  float no_load_A = 0.0F, no_load_rpm = 0.0F, hold_in_ohm = 0.0F, clutch_Nm = 0.0F, brush_mm = 0.0F;

  bool operator==(const BenchFigures&) const = default;
};

/// What one hypothesis would show in every condition.
struct Signature {
  std::array<Snapshot, condition_count> in;  ///< empty for power_off, load_test and bench
  std::array<float, ohm_pair_count> ohms{};
  float load_test_V = 0.0F;      ///< battery posts after 15 s at half the rating
  float cold_amps_share = 0.0F;  ///< conductance tester's estimate over the rating
  std::array<float, battery_cells> gravity{};
  BenchFigures bench;
  Rises rise_K{};  ///< of a plain crank

  bool operator==(const Signature&) const = default;

  const Snapshot& at(Condition condition) const { return in[static_cast<std::size_t>(condition)]; }
};

/// Everything simulated, condition by condition. What a fault can't touch is taken over from the healthy vehicle: the
/// bench from one whose starter is the same, the load test from one whose battery is.
/// @param healthy  signature of the healthy vehicle; null for that vehicle itself
Signature signature_of(const RigParameters& faulty, const Scenario& scenario, const Signature* healthy = nullptr);

}  // namespace voltfall
