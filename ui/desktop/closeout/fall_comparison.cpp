#include <algorithm>
#include <array>
#include <cmath>

#include "debrief/debrief_report.h"
#include "desktop/closeout/debrief_parts.h"
#include "desktop/fall_line/fall_lanes.h"
#include "desktop/style/draw.h"

namespace voltfall {

namespace {

enum class Stroke { dotted, heavy, double_line };

void draw_dotted(ImVec2 from, ImVec2 to) {
  const float length = std::hypot(to.x - from.x, to.y - from.y);
  for (float at = 0; at <= length; at += 6) {
    const float share = length > 0 ? at / length : 0;
    sheet().AddCircleFilled({from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share}, 1.4F, ink::ink_soft);
  }
}

void draw_stroke(ImVec2 from, ImVec2 to, Stroke stroke) {
  switch (stroke) {
    case Stroke::dotted:
      return draw_dotted(from, to);
    case Stroke::heavy:
      return sheet().AddLine(from, to, ink::ink, 3.0F);
    case Stroke::double_line:
      sheet().AddLine(from, to, ink::copper, 5.0F);
      return sheet().AddLine(from, to, ink::paper, 2.0F);
  }
}

void draw_staircase(const SettledFall& fall, const FallScale& scale, Stroke stroke) {
  const auto points = points_of(FallPath::power);
  for (std::size_t i = 1; i < points.size(); ++i) {
    const ImVec2 a{scale.x_at(i - 1), scale.y_at(fall.at(points[i - 1]))};
    const ImVec2 b{scale.x_at(i), scale.y_at(fall.at(points[i]))};
    const float middle = (a.x + b.x) / 2;
    draw_stroke(a, {middle, a.y}, stroke);
    draw_stroke({middle, a.y}, {middle, b.y}, stroke);
    draw_stroke({middle, b.y}, b, stroke);
  }
}

void legend_row(const SettledFall& fall, std::string_view name, Stroke stroke, Rect row) {
  const Rect sample = row.cut_left(36);
  draw_stroke({sample.x, sample.centre().y}, {sample.x + 28, sample.centre().y}, stroke);
  text_in(row.cut_left(96), Type::small_bold, ink::ink, name);
  text_in(row, Type::small, ink::ink, fall_text(fall));
}

}  // namespace

void draw_fall_comparison(const FallComparison& falls, const Rect& place) {
  Rect rest = place;
  text_in(rest.cut_top(20), Type::small_bold, ink::ink, "How the volts fell while cranking");
  rule_across(rest.x, rest.right(), rest.y);
  rest.cut_top(gap_4);
  legend_row(falls.healthy, "as it should", Stroke::dotted, rest.cut_top(18));
  legend_row(falls.found, "as found", Stroke::heavy, rest.cut_top(18));
  legend_row(falls.handed_back, "handed back", Stroke::double_line, rest.cut_top(18));
  const Rect numbers = rest.cut_bottom(18);
  const FallScale scale(FallPath::power, rest, falls.healthy.at(TestPoint::battery_positive_post));
  draw_fall_axis(FallPath::power, scale, numbers);
  draw_staircase(falls.handed_back, scale, Stroke::double_line);
  draw_staircase(falls.found, scale, Stroke::heavy);
  draw_staircase(falls.healthy, scale, Stroke::dotted);
}

}  // namespace voltfall
