#include "desktop/bay/points.h"

#include <cmath>
#include <vector>

#include "desktop/style/draw.h"

namespace voltfall {
namespace {

float distance(ImVec2 a, ImVec2 b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

void draw_leader(ImVec2 disc, ImVec2 metal) {
  const float length = distance(disc, metal);
  if (length <= disc_radius_px) return;
  const float share = disc_radius_px / length;
  const ImVec2 edge{disc.x + (metal.x - disc.x) * share, disc.y + (metal.y - disc.y) * share};
  sheet().AddLine(edge, metal, ink::paper, 3.5F);
  sheet().AddLine(edge, metal, ink::ink, 1.25F);
  sheet().AddCircleFilled(metal, 3.2F, ink::paper);
  sheet().AddCircleFilled(metal, 2.2F, ink::ink);
}

Rect label_box(const Projection& projection, TestPoint point, std::string_view name, int side) {
  const ImVec2 disc = projection.to_screen(place_of(point).disc);
  const float width = text_width(Type::small, name) + 2 * gap_4, height = line_height(Type::small) + 2;
  const float off = disc_radius_px + 2;
  switch (side) {
    case 0:
      return {disc.x + off, disc.y - height / 2, width, height};
    case 1:
      return {disc.x - off - width, disc.y - height / 2, width, height};
    case 2:
      return {disc.x - width / 2, disc.y - off - height, width, height};
    default:
      return {disc.x - width / 2, disc.y + off, width, height};
  }
}

int discs_covered(const Projection& projection, const Rect& box) {
  int covered = 0;
  for (const TestPoint point : all_test_points()) {
    const ImVec2 disc = projection.to_screen(place_of(point).disc);
    covered += box.inset(-disc_radius_px).holds(disc) ? 1 : 0;
  }
  return covered;
}

/// The side of the disc where the label covers least: other discs, labels already there, the picture's edge.
Rect best_box(const Projection& projection, TestPoint point, std::string_view name, const std::vector<Rect>& taken) {
  Rect best;
  int least = 1000;
  for (int side = 0; side < 4; ++side) {
    const Rect box = label_box(projection, point, name, side);
    int cost = 5 * discs_covered(projection, box);
    for (const Rect& other : taken) cost += box.overlaps(other) ? 6 : 0;
    const Rect& edge = projection.picture();
    if (box.x < edge.x || box.right() > edge.right() || box.y < edge.y || box.bottom() > edge.bottom()) cost += 20;
    if (cost < least) least = cost, best = box;
  }
  return best;
}

void draw_label(const Rect& box, std::string_view name) {
  sheet().AddRectFilled(box.min(), box.max(), ink::paper);
  sheet().AddRect(box.min(), box.max(), ink::ink);
  text_in(box.inset(gap_4, 0), Type::small, ink::ink, name, Align::centre);
}

}  // namespace

std::optional<TestPoint> point_at(const Projection& projection, ImVec2 pixel) {
  std::optional<TestPoint> nearest;
  float least = target_radius_px;
  for (const TestPoint point : all_test_points()) {
    const float away = distance(projection.to_screen(place_of(point).disc), pixel);
    if (away <= least) least = away, nearest = point;
  }
  return nearest;
}

void draw_point_leaders(const Projection& projection, bool s_wire_on) {
  for (const TestPoint point : all_test_points()) {
    PointPlace place = place_of(point);
    if (point == TestPoint::s_wire_end && !s_wire_on) place.metal = lifted_s_wire_end;
    draw_leader(projection.to_screen(place.disc), projection.to_screen(place.metal));
  }
}

void draw_points(const Projection& projection, std::optional<TestPoint> marked) {
  for (const TestPoint point : all_test_points()) {
    const ImVec2 disc = projection.to_screen(place_of(point).disc);
    const bool ringed = marked == point;
    sheet().AddCircleFilled(disc, disc_radius_px + 1, ink::paper);
    sheet().AddCircle(disc, disc_radius_px - 0.5F, ink::ink, 0, ringed ? 3.0F : 1.5F);
    const Rect box{disc.x - disc_radius_px, disc.y - disc_radius_px - 0.5F, 2 * disc_radius_px, 2 * disc_radius_px};
    text_in(box, Type::callout, ink::ink, std::to_string(number_of(point)), Align::centre);
    if (ringed) sheet().AddCircle(disc, target_radius_px, ink::focus, 0, 3.0F);
  }
}

void draw_point_name(const Projection& projection, const Wording& words, TestPoint point) {
  const std::string name(words.point(point));
  draw_label(best_box(projection, point, name, {}), name);
}

void draw_all_point_names(const Projection& projection, const Wording& words) {
  std::vector<Rect> taken;
  for (const TestPoint point : all_test_points()) {
    const std::string name(words.point_short(point));
    taken.push_back(best_box(projection, point, name, taken));
    draw_label(taken.back(), name);
  }
}

}  // namespace voltfall
