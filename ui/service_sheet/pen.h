#pragma once

#include <span>
#include <string_view>

namespace voltfall {

/// A place of a drawing, x to the right and y downwards, in the drawing's own units.
struct Spot {
  float x = 0, y = 0;
};

/// Inks of a drawing that may be printed: what is told by one of them is told by a shape or a word as well.
enum class Tone { paper, ink, soft, copper };

/// What a drawing is drawn with: the window's draw list, or a file for the printer. Later strokes cover earlier ones.
class Pen {
 public:
  virtual ~Pen() = default;

  virtual void line(Spot from, Spot to, float width, Tone tone) = 0;
  /// Filled with `fill`, edged in ink.
  virtual void box(Spot corner, Spot size, Tone fill, float edge_width) = 0;
  virtual void disc(Spot centre, float radius, Tone fill, float edge_width) = 0;
  /// One line of small type, centred.
  virtual void words(Spot centre, std::string_view text, Tone tone, bool bold) = 0;

  void path(std::span<const Spot> spots, float width, Tone tone) {
    for (std::size_t i = 1; i < spots.size(); ++i) line(spots[i - 1], spots[i], width, tone);
  }
};

}  // namespace voltfall
