#include "desktop/drawings/brush.h"

#include <cmath>
#include <numbers>
#include <vector>

#include "desktop/style/draw.h"

namespace voltfall {
namespace {

// Type keeps its size whatever the drawing's; below this it would not fit the parts it names.
constexpr float smallest_scale_with_words = 0.9F;

std::vector<ImVec2> on_screen(const Projection& projection, std::span<const ImVec2> points) {
  std::vector<ImVec2> moved;
  moved.reserve(points.size());
  for (const ImVec2& point : points) moved.push_back(projection.to_screen(point));
  return moved;
}

}  // namespace

Brush::Brush(const Projection& projection) : projection_(projection), list_(sheet()) {}

float Brush::px(float width) const {
  return std::max(1.0F, width * projection_.scale());
}

void Brush::line(ImVec2 from, ImVec2 to, float width, ImU32 colour) const {
  list_.AddLine(projection_.to_screen(from), projection_.to_screen(to), colour, px(width));
}

void Brush::dashed(ImVec2 from, ImVec2 to, float width, ImU32 colour) const {
  const float length = std::hypot(to.x - from.x, to.y - from.y);
  const ImVec2 step{(to.x - from.x) / length, (to.y - from.y) / length};
  constexpr float dash = 6, period = 10;
  for (float at = 0; at < length; at += period) {
    const float end = std::min(at + dash, length);
    line({from.x + step.x * at, from.y + step.y * at}, {from.x + step.x * end, from.y + step.y * end}, width, colour);
  }
}

void Brush::path(std::span<const ImVec2> points, float width, ImU32 colour) const {
  const auto moved = on_screen(projection_, points);
  list_.AddPolyline(moved.data(), static_cast<int>(moved.size()), colour, ImDrawFlags_None, px(width));
}

void Brush::shape(std::span<const ImVec2> corners, ImU32 fill, float width, ImU32 colour) const {
  const auto moved = on_screen(projection_, corners);
  list_.AddConvexPolyFilled(moved.data(), static_cast<int>(moved.size()), fill);
  if (width > 0) {
    list_.AddPolyline(moved.data(), static_cast<int>(moved.size()), colour, ImDrawFlags_Closed, px(width));
  }
}

void Brush::box(const Rect& r, ImU32 fill, float width, ImU32 colour) const {
  const Rect at = projection_.to_screen(r);
  list_.AddRectFilled(at.min(), at.max(), fill);
  if (width > 0) list_.AddRect(at.min(), at.max(), colour, 0, ImDrawFlags_None, px(width));
}

void Brush::disc(ImVec2 centre, float radius, ImU32 fill, float width, ImU32 colour) const {
  const ImVec2 at = projection_.to_screen(centre);
  list_.AddCircleFilled(at, radius * projection_.scale(), fill);
  if (width > 0) list_.AddCircle(at, radius * projection_.scale(), colour, 0, px(width));
}

void Brush::ring(ImVec2 centre, float radius, float width, ImU32 colour) const {
  list_.AddCircle(projection_.to_screen(centre), radius * projection_.scale(), colour, 0, px(width));
}

void Brush::hatch(const Rect& r, float spacing, ImU32 colour) const {
  const Rect at = projection_.to_screen(r);
  list_.PushClipRect(at.min(), at.max(), true);
  for (float x = r.x - r.h; x < r.right(); x += spacing) line({x, r.bottom()}, {x + r.h, r.y}, 1.0F, colour);
  list_.PopClipRect();
}

void Brush::words(ImVec2 centre, std::string_view text, ImU32 colour, Type type) const {
  if (projection_.scale() < smallest_scale_with_words) return;
  const ImVec2 at = projection_.to_screen(centre);
  const float width = text_width(type, text), height = line_height(type);
  text_in({at.x - width / 2, at.y - height / 2, width, height}, type, colour, text);
}

void Brush::run(std::span<const ImVec2> chain, std::span<const Stroke> strokes, ImVec2 sway) const {
  auto points = on_screen(projection_, chain);
  for (std::size_t i = 1; i + 1 < points.size(); ++i) {
    points[i].x += sway.x;
    points[i].y += sway.y;
  }
  for (const Stroke& stroke : strokes) {
    list_.PathLineTo(points.front());
    for (std::size_t i = 1; i + 2 < points.size(); i += 3) {
      list_.PathBezierCubicCurveTo(points[i], points[i + 1], points[i + 2], 24);
    }
    list_.PathStroke(stroke.colour, ImDrawFlags_None, px(stroke.width));
  }
}

void Brush::wire(std::span<const ImVec2> points) const {
  path(points, 5.0F, ink::paper);
  path(points, 3.0F, ink::ink);
  path(points, 1.0F, ink::copper_light);
}

void Brush::nut(ImVec2 centre, float radius, float turned) const {
  std::array<ImVec2, 6> corners;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const float angle = turned + static_cast<float>(i) * std::numbers::pi_v<float> / 3;
    corners[i] = {centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)};
  }
  shape(corners, ink::steel_dark, 1.2F);
  disc(centre, radius * 0.5F, ink::steel, 1.0F);
}

}  // namespace voltfall
