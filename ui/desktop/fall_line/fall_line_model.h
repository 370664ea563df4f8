#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "rig/test_points.h"
#include "scenario/scenario.h"
#include "session/session.h"

namespace voltfall {

/// The two ways round: through the motor (points 1 to 13), and through the relay's coil.
enum class FallPath { power, control };

/// One stretch between neighbouring test points. A `load` turns its volts into work (motor, relay coil); it has no drop
/// limit and steps on the upper lane only.
struct FallLeg {
  TestPoint from, to;
  std::string_view limit;  ///< key in the vehicle's limits table; empty for a load
  bool load = false;
};

/// Legs in the order current passes them.
std::span<const FallLeg> legs_of(FallPath path);

/// Points in the same order: one more than the legs.
std::vector<TestPoint> points_of(FallPath path);

/// Readings that may be put together: one electrical state, one way of holding, loop currents within 10 % of each other
/// (or within the clamp's 0.1 A step, below which nobody could tell them apart).
struct FallSet {
  ElectricalState state = ElectricalState::at_rest;
  bool headlamps = false;
  bool after_repair = false;
  MeterHold hold = MeterHold::none;
  std::vector<std::size_t> members;  ///< places in the list of findings, as noted
  double lowest_A = 0.0, highest_A = 0.0;

  double middle_A() const { return 0.5 * (lowest_A + highest_A); }
};

/// Every voltage finding falls in exactly one set; sets come in the order in which they were begun.
std::vector<FallSet> fall_sets(std::span<const Finding> findings);

/// What is known of the volts lost from leg `first` to leg `last` (the same leg when it is known by itself).
struct FallBar {
  std::size_t first = 0, last = 0;
  double drop_V = 0.0;
  double loop_A = 0.0;  ///< read at; the set's middle when the drop follows from several readings
  int decimals = 2;     ///< as read; two when it follows from several readings
  bool load = false;    ///< one of the legs is a load
  std::optional<Limit> limit;
  bool limit_applies = false;  ///< `loop_A` lies in the range the limit is meant for
};

/// What the fall line shows. It holds what was noted and what follows from it by adding up; no verdict.
struct FallLine {
  FallPath path = FallPath::power;
  std::vector<std::optional<double>> level_V;  ///< per point, above battery -
  std::vector<FallBar> bars;                   ///< in path order, never overlapping
  std::vector<bool> no_current;                ///< per leg: beyond an open, so nothing can be said of it
  std::optional<double> total_V;               ///< battery + to battery -, when noted
  double accounted_V = 0.0;                    ///< sum of the bars that separate losses from loads

  double missing_V() const { return total_V.value_or(0.0) - accounted_V; }
};

FallLine fall_line(FallPath path, const FallSet& set, std::span<const Finding> findings,
                   const std::map<std::string, Limit>& limits);

/// With nothing hidden: every level at one instant, each leg by itself.
/// @param node_V  against battery -, by TestPoint
FallLine live_fall_line(FallPath path, std::span<const float, test_point_count> node_V, double loop_A,
                        const std::map<std::string, Limit>& limits);

/// `11.90 of 12.40 V accounted for, 0.50 V not yet measured`, or what to note to get there.
std::string foot_text(const FallLine& line);

/// `limit does not apply at 2 A`
std::string out_of_range_text(double loop_A);

}  // namespace voltfall
