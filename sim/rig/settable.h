#pragma once

#include <span>
#include <string>
#include <string_view>

#include "rig/parameters.h"

namespace voltfall {

/// One parameter that a command line, a scenario file or a fault may set. The table behind `all_settables` is the only
/// place that knows a path, its unit and its documented range.
struct Settable {
  std::string_view path;     ///< for example `joints.positive_clamp.added_ohm`
  std::string_view unit;     ///< empty for a plain number
  double lowest, highest;    ///< documented range, both ends allowed
  std::string_view meaning;  ///< one line
  double& (*in)(RigParameters&);

  double value_in(const RigParameters& parameters) const;
};

std::span<const Settable> all_settables();

/// Null when there is no such path.
const Settable* settable_at(std::string_view path);

/// The path most like `wrong` (for messages); never empty.
std::string_view nearest_settable(std::string_view wrong);

/// What no vehicle can be although every value is in its range: says which value and what is allowed; else empty.
std::string contradiction_in(const RigParameters& parameters);

}  // namespace voltfall
