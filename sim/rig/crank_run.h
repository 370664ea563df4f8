#pragma once

#include <array>
#include <functional>
#include <optional>
#include <vector>

#include "rig/rig.h"

namespace voltfall {

struct CrankRequest {
  std::optional<double> for_s;  ///< seconds with the key at start; else until settled, at most `longest_s`
  bool headlamps = false;
  static constexpr double longest_s = 15.0;
};

/// Mean, lowest and highest of a signal over the settled window.
struct Spread {
  double mean = 0.0, lowest = 0.0, highest = 0.0;
};

/// Means over the settled window: the last whole number (at least two) of 720° engine cycles once two successive
/// windows agree within 1 % in speed and current; else the last second.
struct Settled {
  CrankState state = CrankState::no_relay;
  bool converged = false;
  double window_s = 0.0;
  Spread battery_posts_V, starter_V, loop_A, crank_rpm, motor_rpm, shaft_Nm;
  std::array<Spread, test_point_count> points;
  double closings_per_s = 0.0;
};

/// One turn of the key, from rest to settled.
struct CrankResult {
  double ran_s = 0.0;
  Settled settled;
  double peak_loop_A = 0.0;
  double first_surge_A = 0.0;  ///< highest 50 ms mean of the loop current
  double lowest_battery_posts_V = 0.0;
  bool shoe_seated = false, meshed = false;  ///< at the end
  std::optional<double> engaged_at_s;        ///< first time the shoe was seated with teeth meshed
  int relay_closings = 0;
  std::vector<RigEvent> events;     ///< without the passing of top centres
  double kirchhoff_residual = 0.0;  ///< worst of all steps, over max(largest branch current, 1 A)
  EnergyLedger energy;

  bool engaged() const { return shoe_seated && meshed; }
};

/// What has to be so before this vehicle may crank, key apart: park, or with a clutch switch neutral and the pedal
/// down.
Controls ready_to_crank(const RigParameters& parameters);

/// Turns the key of a rested vehicle to start and holds it. `watch`, if given, sees the readings of every step.
CrankResult run_crank(const RigParameters& parameters, const RestingPlace& rest, const LoadParameters& load,
                      const CrankRequest& request, const std::function<void(const Readings&)>& watch = {},
                      double dt_s = Rig::step_s);

/// What a stretch of cranking amounts to, from its means over about a second.
CrankState crank_state_of(Load load, bool relay_closed, double closings_per_s, bool seated, bool meshed,
                          double crank_rpm, double motor_rpm);

}  // namespace voltfall
