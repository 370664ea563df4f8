#pragma once

#include <span>
#include <string_view>

#include "desktop/bay/place.h"
#include "desktop/style/ink.h"
#include "desktop/style/type.h"

namespace voltfall {

/// Draws on the sheet in drawing units. Line widths are pixels at 1280 x 720 and grow with the drawing.
class Brush {
 public:
  explicit Brush(const Projection& projection);

  void line(ImVec2 from, ImVec2 to, float width = 1.5F, ImU32 colour = ink::ink) const;
  void dashed(ImVec2 from, ImVec2 to, float width = 1.5F, ImU32 colour = ink::ink) const;
  void path(std::span<const ImVec2> points, float width = 1.5F, ImU32 colour = ink::ink) const;
  void shape(std::span<const ImVec2> corners, ImU32 fill, float width = 1.5F, ImU32 colour = ink::ink) const;
  void box(const Rect& r, ImU32 fill, float width = 1.5F, ImU32 colour = ink::ink) const;
  void disc(ImVec2 centre, float radius, ImU32 fill, float width = 1.5F, ImU32 colour = ink::ink) const;
  void ring(ImVec2 centre, float radius, float width, ImU32 colour) const;
  /// Slanting lines inside a rectangle: metal that has been cut for the drawing.
  void hatch(const Rect& r, float spacing, ImU32 colour) const;
  /// Words centred on a place, in the sheet's small type whatever the scale; none on a drawing too small for them.
  void words(ImVec2 centre, std::string_view text, ImU32 colour = ink::ink_soft, Type type = Type::small) const;
  /// Two or more strokes along the same cubic chain, the first at the bottom.
  struct Stroke {
    float width;
    ImU32 colour;
  };
  void run(std::span<const ImVec2> chain, std::span<const Stroke> strokes, ImVec2 sway = {0, 0}) const;
  /// A thin insulated wire of straight pieces.
  void wire(std::span<const ImVec2> points) const;
  /// A hexagonal nut.
  void nut(ImVec2 centre, float radius, float turned = 0.0F) const;

  const Projection& projection() const { return projection_; }

 private:
  float px(float width) const;
  const Projection& projection_;
  ImDrawList& list_;
};

}  // namespace voltfall
