#pragma once

#include <atomic>
#include <optional>
#include <string>
#include <vector>

#include "rig/crank_run.h"
#include "rig/settable.h"

namespace voltfall {

/// A parameter turned from one value to another while all else stands.
struct Knob {
  const Settable* settable = nullptr;
  double from = 0.0, to = 0.0;  ///< in the settable's unit; either may be the larger
  bool by_ratio = false;        ///< equal ratios from value to value, for what spans decades: both ends above 0

  /// The value a share of the way along, 0 at `from`, 1 at `to`.
  double at(double share) const;
};

/// The vehicle that is cranked again and again, every time from rest.
struct SweepSubject {
  RigParameters parameters;
  RestingPlace rest;
  bool headlamps = false;
  double key_s = 1.5;  ///< the key is held so long: the surge, the engagement and a second of cranking
};

/// What one crank came to: means over the last second.
struct SweepCrank {
  double value = 0.0;   ///< of the knob
  std::string refused;  ///< why there is no such vehicle, or why it could not be worked out; the rest is then empty
  CrankState state = CrankState::no_relay;
  bool engaged = false;  ///< at the end: the shoe seated, the teeth meshed
  std::optional<double> engaged_at_s;
  double crank_rpm = 0.0, starter_V = 0.0, loop_A = 0.0;
};

/// Seen and stopped from another thread while the cranks go on.
struct SweepProgress {
  std::atomic<int> cranks_done{0};
  std::atomic<bool> cancelled{false};
};

/// Turns the key of the subject at every value. On all cores; the same whatever number there are.
/// @param values  of the knob, each within the settable's range
/// @return as many as values, in their order; fewer when cancelled: those before the first that was not cranked
std::vector<SweepCrank> crank_at(const SweepSubject& subject, const Settable& settable,
                                 const std::vector<double>& values, SweepProgress& progress);

/// The same at `cranks` (at least two) values from one end of the knob to the other.
std::vector<SweepCrank> sweep(const SweepSubject& subject, const Knob& knob, int cranks, SweepProgress& progress);

/// Where engagement is gained or lost along a knob.
struct Threshold {
  double engages_at = 0.0, fails_at = 0.0;
};

/// Every place in a sweep where one crank engages and the next does not, or the other way round, closed in on until its
/// two sides are within a hundredth of the larger (near 0: within a ten-thousandth of the knob's span). It holds for
/// the subject's own resting place: where tooth meets tooth the shoe has a harder way. Empty when all cranks end alike;
/// not in it is what could not be closed in on: it was cancelled, or a refused vehicle lies between.
std::vector<Threshold> thresholds_in(const std::vector<SweepCrank>& swept, const SweepSubject& subject,
                                     const Knob& knob, SweepProgress& progress);

/// Two knobs against each other: row by row, `across` from end to end in each.
struct EngagementMap {
  int columns = 0, rows = 0;
  std::vector<SweepCrank> cells;  ///< `value` is that of `across`

  const SweepCrank& at(int column, int row) const {
    return cells[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) + static_cast<std::size_t>(column)];
  }
};

/// Columns and rows at least two. Empty when cancelled: a map with holes misleads.
EngagementMap map_engagement(const SweepSubject& subject, const Knob& across, int columns, const Knob& up, int rows,
                             SweepProgress& progress);

}  // namespace voltfall
