#pragma once

#include <string>

#include "service_sheet/pen.h"

namespace voltfall {

/// Text with what markup gives a meaning to written as entities.
std::string escaped(std::string_view text);

/// Draws into a self-contained SVG element that prints in black ink and one brown.
class SvgPen : public Pen {
 public:
  SvgPen(float width, float height);

  void line(Spot from, Spot to, float width, Tone tone) override;
  void box(Spot corner, Spot size, Tone fill, float edge_width) override;
  void disc(Spot centre, float radius, Tone fill, float edge_width) override;
  void words(Spot centre, std::string_view text, Tone tone, bool bold) override;

  /// The whole element as drawn so far.
  std::string element() const;

 private:
  std::string svg_;
};

}  // namespace voltfall
