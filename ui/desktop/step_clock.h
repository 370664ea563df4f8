#pragma once

namespace voltfall {

/// Turns the time between frames into whole steps of the model: the one place where wall time becomes rig time.
class StepClock {
 public:
  explicit StepClock(double step_s) : step_s_(step_s) {}

  /// Steps owed for a frame of this length. After a stall the model runs late; it does not race to catch up.
  int steps_due(double frame_s);

 private:
  static constexpr double longest_frame_s = 0.1;
  double step_s_;
  double owed_s_ = 0.0;
};

}  // namespace voltfall
