#pragma once

#include <span>
#include <string>
#include <string_view>

namespace voltfall {

/// What a close look at a component can show, and the value that has to be off healthy for it to be there.
struct VisibleSign {
  std::string_view component, path;
  double shows_from;  ///< how far from healthy, up or down, before anyone would see it
  std::string_view look;
  bool on_bench = false;  ///< only with the starter off the vehicle and open
};

/// Where a component has several, the one that is seen first comes first.
std::span<const VisibleSign> all_visible_signs();

/// A sign that a close look shows with nothing behind it: green but sound, painted but conducting.
struct DecoyLook {
  std::string component, look;

  bool operator==(const DecoyLook&) const = default;
};

}  // namespace voltfall
