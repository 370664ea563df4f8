#pragma once

#include <optional>

#include "instruments/multimeter.h"
#include "rig/readings.h"
#include "rig/test_points.h"

namespace voltfall {

/// Amperes as the clamp's display rounds them: 0.1 A steps below 60 A, 1 A steps above, overload beyond 1000 A.
MeterDisplay amps_display(double amps);

/// A DC clamp: 0.1 A steps below 60 A, 1 A steps above, averages over a third of a second; carries a small zero offset
/// until it is zeroed. Zeroed round a cable that carries current, it takes that current away too, as a real one does.
/// Its zero walks on as time goes by, the more the further the air is from the hand that warms the jaw: some tenths of
/// an ampere, so that a drain of 20 mA is not for this instrument.
class ClampMeter {
 public:
  explicit ClampMeter(double air_C = 20.0) : air_C_(air_C) {}
  /// What the jaw's core remembers from its last use, until `zero` is pressed.
  static constexpr double offset_A = 1.4;

  void put_round(std::optional<HeavyCable> cable);
  std::optional<HeavyCable> round() const { return round_; }
  /// Takes the present reading as zero; with no figure yet, the next one.
  void zero();
  void watch(const Readings& readings, double dt_s);
  /// Time that goes by in the shop without steps of the rig.
  void let_pass(double span_s) { in_use_s_ += span_s; }
  MeterDisplay display() const;

  /// Rig time of the shown figure; empty while there is none.
  std::optional<double> shown_at_s() const { return round_ && raw_A_ ? std::optional(shown_at_s_) : std::nullopt; }

 private:
  std::optional<HeavyCable> round_;
  WindowMean mean_{1.0 / 3.0};
  std::optional<double> raw_A_;
  double drift_A() const;

  double air_C_;
  double zero_A_ = 0.0, shown_at_s_ = 0.0;
  double in_use_s_ = 0.0;
  bool zero_next_ = false;
};

}  // namespace voltfall
