#pragma once

#include <span>
#include <string_view>

namespace voltfall {

/// What a declared limit bounds.
enum class LimitKind {
  drop,   ///< the reading may be at most so many volts
  floor,  ///< the reading must be at least so many volts
  ohms    ///< the reading may be at most so many ohms, power off
};

/// When the reading has to be taken for the limit to mean anything. The loop current range alone can't say it: a start
/// contact that is rightly open with the key at ON has the whole battery across it.
enum class MeasuredAt { rest, key_start, power_off };

/// One limit a manual would print: its key in scenario files, and the figure used when a scenario declares none.
///
/// The current range is that of the loop. A drop over its limit BELOW the range is out of limits all the more, for a
/// drop only grows with current; a drop within its limit below the range tells nothing.
struct LimitKey {
  std::string_view id;
  LimitKind kind;
  MeasuredAt measured_at;
  double usual;         ///< V or ohm
  double from_A, to_A;  ///< loop current for which it is meant
  std::string_view meaning;
};

/// Every limit there is, in the order of the circuit. The one table that the catalogue and the scenario reader share.
std::span<const LimitKey> all_limit_keys();

/// Null when there is no such limit.
const LimitKey* limit_key_named(std::string_view id);

}  // namespace voltfall
