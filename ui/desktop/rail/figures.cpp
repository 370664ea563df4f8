#include "desktop/rail/figures.h"

#include <cmath>

namespace voltfall {

namespace {

/// Of a digit's width; the rest of a fixed-width face's point and space is air. The face sets its point at the left.
float share_of(char letter) {
  if (letter == '.') return 0.6F;
  return letter == ' ' ? 0.45F : 1.0F;
}

}  // namespace

void figures_in(const Rect& box, Type type, ImU32 colour, std::string_view figures) {
  const float digit = text_width(type, "0");
  float width = 0;
  for (const char letter : figures) width += digit * share_of(letter);
  float x = box.right() - width;
  const float y = std::round(box.y + (box.h - line_height(type)) / 2);
  for (const char& letter : figures) {
    sheet().AddText(font(type), line_height(type), {std::round(x), y}, colour, &letter, &letter + 1);
    x += digit * share_of(letter);
  }
}

}  // namespace voltfall
