#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "rig/crank_run.h"

namespace voltfall {

/// What a trial of a vehicle came to.
struct WalkOutcome {
  CrankResult crank;    ///< with the key off: what stood at the end
  double lamp_V = 0.0;  ///< feed of the headlamps, mean over the last third of a second
  bool headlamps = false;
};

/// A figure, or for a measure that has words one of them.
struct WalkValue {
  double figure = 0.0;
  std::string_view word;
};

/// What a walk may ask for. The table behind `all_walk_measures` is the only place that knows them.
struct WalkMeasure {
  std::string_view id, unit;
  int decimals;                             ///< as a meter would show it
  bool has_leads;                           ///< it is taken between two named test points
  std::span<const std::string_view> words;  ///< every word it can come to; empty for a figure
  /// Empty when the trial gives no such value.
  std::optional<WalkValue> (*of)(const WalkOutcome& outcome, TestPoint red, TestPoint black);

  bool in_words() const { return !words.empty(); }
  double count() const;  ///< the last digit's worth
};

std::span<const WalkMeasure> all_walk_measures();

/// Null when there is none of that id.
const WalkMeasure* walk_measure_named(std::string_view id);

}  // namespace voltfall
