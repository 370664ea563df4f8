#pragma once

#include "instruments/averaged_figure.h"
#include "rig/controls.h"
#include "rig/readings.h"

namespace voltfall {

/// A carbon pile across the battery's posts, with a voltmeter and an ammeter of its own. Turned up, its resistance is
/// kept such that about the asked current flows, as the hand on its knob keeps it.
class LoadTester {
 public:
  static constexpr double most_A = 500.0;

  void turn_to(double amps);
  double asked_A() const { return asked_A_; }
  bool turned_up() const { return asked_A_ > 0.0; }

  /// Clipped on, or taken off: the display begins anew.
  void start_over();
  AttachedBranch branch(TestPoint red, TestPoint black) const { return {red, black, ohm_}; }
  void watch(double posts_V, double time_s, double dt_s);

  /// Seconds the pile has been turned up since it was last at rest.
  double held_s() const { return held_s_; }
  MeterDisplay volts() const;
  MeterDisplay amps() const;
  std::optional<double> shown_at_s() const { return posts_V_.shown_at_s(); }

 private:
  void follow(double posts_V);

  double asked_A_ = 0.0;
  double ohm_ = open_ohm;
  double held_s_ = 0.0;
  AveragedFigure posts_V_{1.0 / 3.0}, through_A_{1.0 / 3.0};
  static constexpr double open_ohm = 1.0e6;
};

}  // namespace voltfall
