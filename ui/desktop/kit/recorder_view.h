#pragma once

#include <array>

namespace voltfall {

/// How the recorder's screen is looked at; nothing here changes what it has recorded.
struct RecorderView {
  int channel = 1;                          ///< the one being clipped on
  double level = 6.0;                       ///< what the next arming waits for, in channel 1's unit
  bool rising = false;                      ///< a crank pulls the battery's volts down through the level
  double span_s = 1.0;                      ///< of the next capture
  double from_share = 0.0, to_share = 1.0;  ///< the stretch of the capture that is shown
  std::array<double, 2> cursors{0.2, 0.6};  ///< places in the whole capture, 0 to 1
  int cursor = 0;                           ///< the one the keys move, or that is dragged
  bool dragging = false;
};

}  // namespace voltfall
