#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "rig/settable.h"

namespace voltfall {

enum class KnobGroup : std::uint8_t { battery, path, starter, engine };

/// A parameter as the trade turns it: its unit, and the range in which something can be learnt. The settable's own
/// range is wider.
struct BenchKnob {
  std::string_view id;  ///< wording under `open_bench.knob.`
  KnobGroup group;
  std::string_view path;  ///< a Settable's
  std::string_view unit;
  double per_unit;  ///< the settable's value for one of that unit
  double from, to;  ///< in that unit
  double step;      ///< of one press of a key

  const Settable& settable() const { return *settable_at(path); }
  double value_in(const RigParameters& parameters) const { return settable().value_in(parameters) / per_unit; }
  /// Sets it, held within the range and to whole steps.
  void turn(RigParameters& parameters, double value) const;
  /// Where a value stands along the scale, 0 to 1, and the other way round.
  double share_of(double value) const;
  double at_share(double share) const;
  /// `4.5 mΩ`, `1/0 AWG, 53 mm²`
  std::string text(double value) const;
};

/// In the order of the circuit, group by group.
std::span<const BenchKnob> all_bench_knobs();
/// Null when there is none of that id.
const BenchKnob* bench_knob_named(std::string_view id);

}  // namespace voltfall
