#pragma once

#include "desktop/style/rect.h"
#include "service_sheet/pen.h"

namespace voltfall {

/// Draws on the sheet: the drawing's own units, enlarged to fill the width of a place.
class ImguiPen : public Pen {
 public:
  /// @param drawing_width  units that fill the place's width
  ImguiPen(const Rect& place, float drawing_width) : place_(place), scale_(place.w / drawing_width) {}

  void line(Spot from, Spot to, float width, Tone tone) override;
  void box(Spot corner, Spot size, Tone fill, float edge_width) override;
  void disc(Spot centre, float radius, Tone fill, float edge_width) override;
  void words(Spot centre, std::string_view text, Tone tone, bool bold) override;

 private:
  ImVec2 at(Spot spot) const { return {place_.x + spot.x * scale_, place_.y + spot.y * scale_}; }

  Rect place_;
  float scale_;
};

}  // namespace voltfall
