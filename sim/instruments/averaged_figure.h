#pragma once

#include <optional>

#include "instruments/multimeter.h"

namespace voltfall {

/// What every averaging display does: takes the mean over a window of rig time and shows it until the next one is in.
class AveragedFigure {
 public:
  explicit AveragedFigure(double window_s) : mean_(window_s) {}
  void start_over() {
    mean_.restart();
    shown_.reset();
  }
  void add(double value, double time_s, double dt_s) {
    if (const auto mean = mean_.add(value, dt_s)) {
      shown_ = mean;
      shown_at_s_ = time_s;
    }
  }
  std::optional<double> shown() const { return shown_; }
  /// Rig time of the shown figure; empty while there is none.
  std::optional<double> shown_at_s() const { return shown_ ? std::optional(shown_at_s_) : std::nullopt; }

 private:
  WindowMean mean_;
  std::optional<double> shown_;
  double shown_at_s_ = 0.0;
};

}  // namespace voltfall
