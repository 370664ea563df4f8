#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "outside/ngspice_cases.h"

namespace voltfall {

/// What model and deck are compared by.
enum class Signal {
  loop_A,
  battery_posts_V,
  starter_V,
  s_terminal_V,  ///< against the relay's case
  body_V,        ///< against the block
  shoe_mm,
  motor_rpm,
  relay_coil_A,
  plunger_mm,
  drive_coil_A,
};
inline constexpr std::size_t signal_count = static_cast<std::size_t>(Signal::drive_coil_A) + 1;
std::string_view id_of(Signal signal);

/// A contact that made or parted.
struct Switching {
  double time_s;
  bool closed;
};

/// Signals over time, and when the relay's contact and the starter's grounding contacts moved.
struct Waves {
  std::vector<double> time_s;  ///< rising
  std::array<std::vector<double>, signal_count> signals;
  std::vector<Switching> relay, grounding;

  const std::vector<double>& of(Signal signal) const { return signals[static_cast<std::size_t>(signal)]; }
  /// Between samples on a straight line.
  double at(Signal signal, double time_s) const;
  double mean(Signal signal, double from_s, double to_s) const;
};

/// The model under a case's run, every step of it: a rested vehicle, key to start.
Waves model_waves(const DeckCase& one);

struct DeckWaves {
  Waves waves;
  double wall_s;  ///< how long ngspice took, start to end
};
/// Runs `ngspice -b` on a case's deck. Where contacts bounce ngspice now and then loses its way; it is then begun again
/// with a somewhat shorter longest step, a few times. Throws std::runtime_error, saying what to do, if ngspice is
/// missing, fails or leaves a signal out.
DeckWaves ngspice_waves(const DeckCase& one);

}  // namespace voltfall
