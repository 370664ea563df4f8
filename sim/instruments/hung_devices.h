#pragma once

#include <optional>
#include <vector>

#include "instruments/fuse.h"
#include "instruments/kit.h"
#include "instruments/load_tester.h"
#include "rig/controls.h"
#include "rig/readings.h"

namespace voltfall {

/// One end on a place of the one kind, the other on one of the other (see places.h).
bool joins(const Hung& hung, bool (*one)(TestPoint), bool (*other)(TestPoint));
/// From battery volts to the way between the start contact and the relay's coil.
bool bypasses_key(const Hung& hung);
/// The two points make sense for the device: a load tester has posts to grip, a booster a + and a ground side.
bool may_hang(const Hung& hung);

/// Everything that hangs across the circuit and stays there: what each puts between its two points, and what happens
/// inside it.
class HungDevices {
 public:
  /// Moves the device there if it hangs already. Its points have to be allowed: see `may_hang`.
  void hang(const Hung& hung);
  void take_off(Device device);
  /// In the order of `Device`.
  const std::vector<Hung>& all() const { return hung_; }
  /// Where it hangs; null when it does not.
  const Hung* place_of(Device device) const;

  /// Appends what everything here puts across the circuit now.
  void add_branches(std::vector<AttachedBranch>& branches) const;
  /// After a step. True when the jumper's fuse has just blown.
  bool watch(const Readings& readings, double dt_s);

  void press_remote(bool pressed) { remote_pressed_ = pressed; }
  bool remote_pressed() const { return remote_pressed_; }
  /// The remote switch held, or a jumper that is whole, brings battery volts to the relay's coil past the key.
  bool feeds_relay_coil() const;
  LoadTester& load_tester() { return load_tester_; }
  const LoadTester& load_tester() const { return load_tester_; }
  /// Light of the test lamp, 0 to 1 at its rated volts.
  double lamp_light() const;
  /// Volts it has glowed for over the last third of a second.
  const AveragedFigure& lamp_glow_V() const { return lamp_V_; }
  bool jumper_fuse_blown() const { return jumper_fuse_.blown(); }
  void replace_jumper_fuse() { jumper_fuse_.replace(); }

 private:
  double volts_across(const Hung& hung, const Readings& readings) const;

  std::vector<Hung> hung_;
  LoadTester load_tester_;
  bool remote_pressed_ = false;
  double filament_V_ = 0.0, filament_in_branch_V_ = 0.0;
  AveragedFigure lamp_V_{1.0 / 3.0};
  Fuse jumper_fuse_{27.0, 900.0};
};

}  // namespace voltfall
