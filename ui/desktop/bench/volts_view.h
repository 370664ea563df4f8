#pragma once

#include <optional>

#include "bench/healthy_crank.h"
#include "desktop/bench/bench_state.h"
#include "desktop/bench/tape_panel.h"
#include "desktop/fall_line/fall_line_model.h"

namespace voltfall {

/// The hero of Volts: the whole fall line as it is at the moment shown, the healthy one behind it, and the tape.
class VoltsView {
 public:
  void draw(const BenchScene& scene, const Rect& zone);
  /// The vehicle is another one, or its lamps were switched: the healthy line is worked out anew.
  void forget() { healthy_.reset(); }
  TapePanel& tape() { return tape_; }

 private:
  void draw_fall(const BenchScene& scene, Rect place);
  FallLine ghost(const BenchScene& scene) const;

  FallPath path_ = FallPath::power;
  std::optional<HealthyCrank> healthy_;
  bool healthy_with_lamps_ = false;
  TapePanel tape_;
};

}  // namespace voltfall
