#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "instruments/fuse.h"
#include "rig/controls.h"
#include "rig/readings.h"

namespace voltfall {

/// Continuity is the lowest ohm range with a buzzer; amperes go through a fuse and a shunt, with the red lead moved
/// over.
enum class MeterFunction { volts_dc, ohms, continuity, amps_dc };
enum class MeterHold { none, lowest, highest };

/// What the display shows: the number as displayed (already rounded), or why there is none.
struct MeterDisplay {
  /// `fuse_blown`: the way through this range is dead until its fuse is replaced.
  enum class Kind { settling, value, overload, no_lead, fuse_blown } kind = Kind::no_lead;
  double value = 0.0;  ///< in `unit`
  int decimals = 2;
  std::string unit;  ///< mV, V, mA, A, ohm, kohm, Mohm; degC, rpm, Nm, mm; empty for a gravity

  /// The value in V, ohm, A or the unit's own. Meaningful for Kind::value only.
  double base_value() const;
  /// The figures alone: `-12.35`, `OL`, `- - -`; without the unit.
  std::string text() const;
  /// Figures and unit: `-12.35 V`, `OL ohm`, `- - -`.
  std::string text_with_unit() const;
};

/// A volts reading as a 6000-count display rounds it: 600.0 mV, 6.000 V, 60.00 V, overload beyond.
MeterDisplay volts_display(double volts);

/// A mean over a fixed stretch of rig time, worked out from every step in it.
class WindowMean {
 public:
  explicit WindowMean(double length_s) : length_s_(length_s) {}
  void restart();
  /// The mean when this step completes a window, else empty.
  std::optional<double> add(double value, double dt_s);

 private:
  double length_s_;
  double sum_ = 0.0, filled_s_ = 0.0;
};

/// A 6000-count handheld meter: averages over a third of a second, updates three times a second, autoranges,
/// loads the points with 10 Mohm on volts, pushes a small test current on ohms. Lowest and highest hold the extreme of
/// 50 ms means since hold was pressed, a probe moved or the function changed. Reads red minus black.
/// On ohms it divides the volts at its leads by the current its own source drives: true on a dead circuit, nonsense on
/// a live one. Its lowest range has steps of 0.1 ohm, so a bad joint of 0.05 ohm and a clean one look alike.
/// Continuity stays in that range and buzzes. Amperes go through a shunt of 10 mohm and a fuse of 10 A; volts on the
/// ohm ranges blow a small fuse of their own. A range whose fuse is gone shows so until it is replaced.
class Multimeter {
 public:
  Multimeter();
  void set_function(MeterFunction function);
  void set_hold(MeterHold hold);
  void put_red(std::optional<TestPoint> point);
  void put_black(std::optional<TestPoint> point);

  MeterFunction function() const { return function_; }
  MeterHold hold() const { return hold_; }
  std::optional<TestPoint> red() const { return red_; }
  std::optional<TestPoint> black() const { return black_; }

  /// What the meter hangs across the circuit now; empty while a lead is in the air.
  std::optional<AttachedBranch> loading() const;

  /// Called after every step of the rig.
  void watch(const Readings& readings, double dt_s);

  MeterDisplay display() const;

  /// Rig time at which the shown figure was worked out: of the last update, or of the held extreme. Empty while there
  /// is no figure. It changes exactly when the display takes a new figure.
  std::optional<double> shown_at_s() const;

  /// On continuity, with less than some 30 ohm between the leads.
  bool buzzes() const;
  bool fuse_blown() const { return amps_fuse_.blown() || ohms_fuse_blown_; }
  /// Highest current that has gone through the shunt since the leads or the function were last changed.
  double highest_shunt_A() const { return highest_shunt_A_; }
  /// Fits both fuses anew.
  void replace_fuses();

 private:
  void start_over();
  void hook_up_anew();
  bool measures_ohms() const;
  bool range_is_dead() const;
  void strain_fuses(double volts, double dt_s);
  void update(double volts, double time_s);
  void hold_extreme(double volts, double time_s);
  std::optional<double> ohms_from(double volts) const;
  void change_ohm_range(std::optional<double> ohms);

  MeterFunction function_ = MeterFunction::volts_dc;
  MeterHold hold_ = MeterHold::none;
  std::optional<TestPoint> red_, black_;
  std::size_t ohm_range_ = 0;
  WindowMean display_mean_{1.0 / 3.0};
  WindowMean hold_mean_{0.05};
  std::optional<double> shown_volts_, held_volts_;
  double shown_at_s_ = 0.0, held_at_s_ = 0.0;
  Fuse amps_fuse_;
  bool ohms_fuse_blown_ = false;
  double overdriven_s_ = 0.0;  ///< how long there have been volts on an ohm range that it can't bear
  double highest_shunt_A_ = 0.0;
};

}  // namespace voltfall
