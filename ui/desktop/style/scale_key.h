#pragma once

#include <optional>
#include <string_view>

#include "desktop/style/hands.h"

namespace voltfall {

/// What an engraved scale shows, as shares of its length, 0 to 1.
struct ScaleLook {
  double at = 0.0;
  std::optional<double> mark;  ///< a tick under the line: where healthy is
  double step = 0.01;          ///< of an arrow key
  bool changed = false;        ///< drawn heavier
};

/// A ruled scale with a thumb: dragged, clicked, or moved by the arrow keys and Page Up / Page Down in focus. Needs a
/// height of 20 px. Returns the share it was moved to in this frame.
std::optional<double> scale_key(Hands& hands, std::string_view id, const Rect& where, const ScaleLook& look);

}  // namespace voltfall
