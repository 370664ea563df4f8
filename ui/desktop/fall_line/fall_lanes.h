#pragma once

#include "desktop/fall_line/fall_line_model.h"
#include "desktop/style/rect.h"

namespace voltfall {

/// The two lanes and the points' numbers. Needs about 112 px of height and 800 of width; a taller place grows the upper
/// lane.
/// @param ghost  another staircase of the same path, drawn faint behind it; null: none
void draw_fall_lanes(const FallLine& line, const std::map<std::string, Limit>& limits, const Rect& place,
                     const FallLine* ghost = nullptr);

/// Where the staircase is drawn: shared with the debrief, which lays several over one another.
struct FallScale {
  Rect lane;
  float left = 0, leg_width = 0;
  double top_V = 13.0;

  FallScale(FallPath path, const Rect& lane, double top_V);
  float x_at(std::size_t point) const { return left + static_cast<float>(point) * leg_width; }
  float y_at(double volts) const;
};

/// Axis, its volts, and the numbers of the points along `numbers`.
void draw_fall_axis(FallPath path, const FallScale& scale, const Rect& numbers);

}  // namespace voltfall
