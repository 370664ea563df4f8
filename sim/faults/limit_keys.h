#pragma once

#include <span>
#include <string_view>

namespace voltfall {

/// When a reading has to be taken for its limit to mean anything. The loop current range alone can't say it: a start
/// contact that is rightly open with the key at ON has the whole battery across it.
enum class MeasuredAt {
  rest,       ///< key off, nothing on
  key_start,  ///< the starter fed
  power_off,  ///< negative clamp off its post
  load_test,  ///< the load tester at half the battery's rating
  bench       ///< starter off the vehicle
};

/// One limit a manual would print: its key in scenario files, and the figures used when a scenario declares none.
///
/// The current range is that of the loop. A drop over its limit BELOW the range is out of limits all the more, for a
/// drop only grows with current; a drop within its limit below the range tells nothing.
struct LimitKey {
  std::string_view id;
  std::string_view unit;  ///< V, ohm, A, rpm, K, mm, N·m, or empty for a plain figure
  double lowest;          ///< the reading must be at least this; 0: no lower limit
  double highest;         ///< at most this; 0: no upper limit
  MeasuredAt measured_at;
  double from_A, to_A;  ///< loop current for which it is meant
  double near;  ///< half the width round a limit within which nobody can say: what the instrument may be out by and
                ///< what sound vehicles of one type differ by
  std::string_view meaning;

  /// A drop along a path: bounded above, in volts, and read with current flowing.
  bool is_drop() const { return unit == "V" && highest > 0.0 && lowest <= 0.0; }
  /// Volts that must be left.
  bool is_floor() const { return unit == "V" && lowest > 0.0; }
};

/// Every limit there is, in the order of the circuit. The one table that the catalogue and the scenario reader share.
std::span<const LimitKey> all_limit_keys();

/// Null when there is no such limit.
const LimitKey* limit_key_named(std::string_view id);

}  // namespace voltfall
