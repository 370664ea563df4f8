#pragma once

#include <imgui.h>

#include <algorithm>

namespace voltfall {

/// An area of the sheet in pixels, y downwards. The `cut_` functions take a strip off this rectangle and return it.
struct Rect {
  float x = 0, y = 0, w = 0, h = 0;

  float right() const { return x + w; }
  float bottom() const { return y + h; }
  ImVec2 min() const { return {x, y}; }
  ImVec2 max() const { return {x + w, y + h}; }
  ImVec2 centre() const { return {x + w / 2, y + h / 2}; }
  bool holds(ImVec2 p) const { return p.x >= x && p.x < right() && p.y >= y && p.y < bottom(); }
  Rect inset(float by) const { return inset(by, by); }
  Rect inset(float sideways, float upright) const {
    return {x + sideways, y + upright, w - 2 * sideways, h - 2 * upright};
  }
  bool overlaps(const Rect& other) const {
    return x < other.right() && other.x < right() && y < other.bottom() && other.y < bottom();
  }

  Rect cut_top(float height) {
    const Rect strip{x, y, w, std::min(height, h)};
    y += strip.h;
    h -= strip.h;
    return strip;
  }
  Rect cut_bottom(float height) {
    const float taken = std::min(height, h);
    h -= taken;
    return {x, y + h, w, taken};
  }
  Rect cut_left(float width) {
    const Rect strip{x, y, std::min(width, w), h};
    x += strip.w;
    w -= strip.w;
    return strip;
  }
  Rect cut_right(float width) {
    const float taken = std::min(width, w);
    w -= taken;
    return {x + w, y, taken, h};
  }
};

/// The cell `index` of `count` equal cells side by side with `gap` between them.
inline Rect cell_of(const Rect& row, int index, int count, float gap) {
  const float width = (row.w - gap * static_cast<float>(count - 1)) / static_cast<float>(count);
  return {row.x + static_cast<float>(index) * (width + gap), row.y, width, row.h};
}

}  // namespace voltfall
