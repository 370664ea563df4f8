#pragma once

#include <initializer_list>
#include <string_view>

#include "rig/crank_run.h"

namespace voltfall {

#if defined(__SANITIZE_ADDRESS__)
inline constexpr bool checked_build = true;  ///< sanitizers on: some ten times slower, so fewer cases
#else
inline constexpr bool checked_build = false;
#endif

struct Setting {
  std::string_view path;
  double value;
};

/// The default vehicle with some parameters set by path. Throws std::invalid_argument for a path that is not settable.
RigParameters vehicle_with(std::initializer_list<Setting> settings);

/// Cranks until settled, headlamps off.
CrankResult crank(const RigParameters& parameters, const LoadParameters& load = {});
CrankResult crank_for(double seconds, const RigParameters& parameters, const LoadParameters& load = {},
                      const RestingPlace& rest = {});
CrankResult crank_with_lamps(const RigParameters& parameters);

/// Settled mean volts between two points.
double volts_between(const CrankResult& result, TestPoint red, TestPoint black);

/// Error of the energy books over what they may be off by: 0.1 % of what the battery gave or 1 J, whichever is larger.
double closure_over_limit(const EnergyLedger& energy);

}  // namespace voltfall
