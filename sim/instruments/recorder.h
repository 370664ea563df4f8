#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "rig/readings.h"
#include "rig/test_points.h"

namespace voltfall {

/// What one channel of the recorder is clipped to: volts from `red` to `black`, or amperes in the cable in its clamp.
struct RecorderInput {
  std::optional<TestPoint> red, black;
  std::optional<HeavyCable> round;

  bool connected() const { return round || (red && black); }
  bool operator==(const RecorderInput&) const = default;
};

/// One capture: both channels, sample by sample, the trigger among them.
struct Capture {
  double sample_s = 0.0;
  std::size_t trigger_sample = 0;  ///< index of the first sample beyond the level
  double triggered_at_s = 0.0;     ///< rig time
  std::array<RecorderInput, 2> inputs;
  std::array<std::vector<double>, 2> samples;  ///< V or A; of an open channel none

  double peak(int channel) const;
  double lowest(int channel) const;
  /// Mean over the latest `seconds`; empty when the capture is shorter.
  std::optional<double> mean_of_last(int channel, double seconds) const;
};

/// A two-channel recorder at 1 kHz: each sample is the mean of the steps in its millisecond. Armed, it keeps the latest
/// tenth of its span in store; once channel 1 crosses the level in the asked direction it fills the rest.
class Recorder {
 public:
  static constexpr double sample_s = 1.0e-3;
  static constexpr double shortest_span_s = 0.05, longest_span_s = 5.0;
  static constexpr double before_trigger_share = 0.1;
  static constexpr double settled_window_s = 1.0 / 3.0;  ///< as a meter's display
  enum class State { idle, armed, triggered, captured };

  /// @param channel 1 or 2; clipping a channel elsewhere forgets a running capture
  void connect(int channel, const RecorderInput& input);
  const RecorderInput& input(int channel) const { return inputs_.at(static_cast<std::size_t>(channel - 1)); }

  void arm(double level, bool rising, double span_s);
  void watch(const Readings& readings, double dt_s);

  State state() const { return state_; }
  double level() const { return level_; }
  bool rising() const { return rising_; }
  double span_s() const { return span_s_; }
  /// The latest whole capture; empty until there is one.
  const std::optional<Capture>& capture() const { return capture_; }
  /// When the shown capture was triggered; empty while there is none.
  std::optional<double> shown_at_s() const { return capture_ ? std::optional(capture_->triggered_at_s) : std::nullopt; }

 private:
  void take_sample(const std::array<double, 2>& sample, double time_s);
  void trigger(double time_s);
  void finish();

  std::array<RecorderInput, 2> inputs_;
  State state_ = State::idle;
  double level_ = 0.0, span_s_ = 1.0;
  bool rising_ = true;
  std::array<double, 2> sum_{};
  double filled_s_ = 0.0;
  std::vector<std::array<double, 2>> store_;  ///< a ring until triggered, room for the whole span
  std::size_t next_ = 0;                      ///< where the ring goes on
  std::size_t before_ = 0, whole_ = 0;        ///< samples kept before the trigger, and in all
  std::optional<double> last_;
  double triggered_at_s_ = 0.0;
  std::optional<Capture> capture_;
};

}  // namespace voltfall
