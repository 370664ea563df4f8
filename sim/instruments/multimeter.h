#pragma once

#include <optional>
#include <string>

#include "rig/controls.h"
#include "rig/readings.h"

namespace voltfall {

enum class MeterFunction { volts_dc, ohms };
enum class MeterHold { none, lowest, highest };

/// What the display shows: the number as displayed (already rounded), or why there is none.
struct MeterDisplay {
  enum class Kind { settling, value, overload, no_lead } kind = Kind::no_lead;
  double value = 0.0;      ///< in `unit`
  int decimals = 2;
  std::string unit;        ///< mV, V, ohm, kohm, Mohm

  /// The value in V or ohm. Meaningful for Kind::value only.
  double base_value() const;
  /// `-12.35`, `OL`, `- - -`
  std::string text() const;
};

/// A 6000-count handheld meter: averages over a third of a second, updates three times a second, autoranges,
/// loads the points with 10 Mohm on volts, pushes a small test current on ohms. Lowest and highest hold the extreme of
/// 50 ms means since hold was pressed.
class Multimeter {
 public:
  void set_function(MeterFunction function);
  void set_hold(MeterHold hold);
  void put_red(std::optional<TestPoint> point);
  void put_black(std::optional<TestPoint> point);

  MeterFunction function() const;
  MeterHold hold() const;
  std::optional<TestPoint> red() const;
  std::optional<TestPoint> black() const;

  /// What the meter hangs across the circuit now; empty while a lead is in the air.
  std::optional<AttachedBranch> loading() const;

  /// Called after every step of the rig.
  void watch(const Readings& readings, double dt_s);

  MeterDisplay display() const;
};

}  // namespace voltfall
