#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "rig/controls.h"
#include "rig/parameters.h"
#include "rig/test_points.h"
#include "rig/wiring.h"

namespace voltfall {

/// What two turns by hand at the crank pulley tell: `bar_free`, `bar_hard`, `bar_one_soft`, `bar_stops_solid` at one
/// place (liquid above a piston), `bar_liquid_out` of an open plug hole, or `bar_locked`.
std::string_view barred(const RigParameters& now, const RigParameters& healthy, const Controls& controls);

/// The engine goes round under the bar, and so comes to rest somewhere else.
bool bar_turns_it(std::string_view barred);

/// Whether a part gives under the hand that wiggles or presses it: `moves` or `firm`.
std::string_view wiggled(std::string_view component, const RigParameters& now, const RigParameters& healthy);

/// Temperature that a hand meets on a component of the catalogue; the air's for one that nothing warms.
double hand_temperature_C(std::string_view component, const PartTemperatures& parts, double air_C);

/// Test points whose temperature says how hot the component is; empty for one that nothing warms.
std::span<const TestPoint> points_of_part(std::string_view component);

/// The back of a hand: `feels_cold`, `feels_warm` or `feels_hot`.
std::string_view felt(double part_C, double air_C);

/// Above this it burns (common practice).
inline constexpr double burns_from_C = 60.0;

}  // namespace voltfall
