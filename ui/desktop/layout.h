#pragma once

#include "desktop/style/rect.h"

namespace voltfall {

/// The sheet's zones. They meet without gap or overlap; a larger window grows the picture.
struct Layout {
  Rect sheet;        ///< everything
  Rect bar;          ///< job and key, along the top
  Rect picture;      ///< the vehicle
  Rect fall_line;    ///< under the picture
  Rect rail;         ///< meter, clamp, tabs, close-out key: at the right
  Rect title_block;  ///< lower right, under the rail
};

inline constexpr float smallest_width = 1280, smallest_height = 720;

/// Window pixels to one pixel of the sheet: 1, or less where the window is smaller than the smallest sheet (a frame on
/// a small screen takes some), which is then drawn smaller as a whole.
inline float shrunk_to(float window_width, float window_height) {
  constexpr float smallest_readable = 0.5F, border = 0.995F;  // a frame's border is no reason for softer type
  const float share = std::min(window_width / smallest_width, window_height / smallest_height);
  return share >= border ? 1.0F : std::max(share, smallest_readable);
}

/// For sheets of at least 1280 x 720.
inline Layout layout_of(float window_width, float window_height) {
  Layout zones;
  zones.sheet = {0, 0, std::max(window_width, smallest_width), std::max(window_height, smallest_height)};
  Rect rest = zones.sheet;
  zones.bar = rest.cut_top(48);
  zones.rail = rest.cut_right(336);
  zones.title_block = zones.rail.cut_bottom(144);
  zones.fall_line = rest.cut_bottom(144);
  zones.picture = rest;
  return zones;
}

}  // namespace voltfall
