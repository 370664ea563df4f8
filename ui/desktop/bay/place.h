#pragma once

#include <imgui.h>

#include <array>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "desktop/style/rect.h"
#include "desktop/vehicle_kind.h"
#include "rig/test_points.h"

namespace voltfall {

// Where things are on the drawing of the vehicle, seen from its left side with the front at the left. Drawing units:
// the picture is 944 x 528, which at 1280 x 720 are pixels.

inline constexpr float drawing_width = 944, drawing_height = 528;

/// One numbered point: the disc that is aimed at, and the metal that is touched.
struct PointPlace {
  ImVec2 disc;
  ImVec2 metal;
};

PointPlace place_of(TestPoint point);

/// Where the S wire's push-on hangs when it is off its blade.
inline const ImVec2 lifted_s_wire_end{441, 62};

inline constexpr float disc_radius_px = 12;  ///< on the screen, whatever the window
inline constexpr float target_radius_px = 16;
inline constexpr float least_apart_px = 36;

/// A heavy cable's run as a chain of cubic curves: first point, then three for each curve.
std::span<const ImVec2> run_of(HeavyCable cable);

/// Where the clamp meter's jaw sits on it.
ImVec2 jaw_place(HeavyCable cable);

/// Where the leads and the jaw hang while they are not in use, and where they come in from the meter at the right.
struct Parked {
  ImVec2 red, black, jaw;
  ImVec2 red_from, black_from, jaw_from;
};
inline const Parked parked{{848, 472}, {896, 472}, {796, 454}, {944, 420}, {944, 436}, {944, 486}};

/// A place where two surfaces lie so close that choosing one is part of the job; the close-up shows it three times as
/// large.
struct CrowdedPlace {
  TestPoint stud, lug;
  ImVec2 middle;
  float radius;
  bool battery;  ///< a post with a clamp round it, else a stud with a cable lug under its nut
};
std::span<const CrowdedPlace> crowded_places();

/// What can be looked at closely, by the catalogue's component.
struct ComponentPlace {
  std::string_view component;
  Rect where;
};

/// The component at a place of the drawing; small things win over the large ones they lie on.
/// @param fitted  the switch that this vehicle has
std::optional<std::string_view> component_at(ImVec2 drawing_place, StartSwitch fitted);

/// The component looked at from a test point; empty where the catalogue knows none.
std::optional<std::string_view> component_of(TestPoint point, StartSwitch fitted);

/// From drawing units to the screen and back.
class Projection {
 public:
  explicit Projection(const Rect& picture)
      : scale_(std::min(picture.w / drawing_width, picture.h / drawing_height)),
        left_(picture.x + (picture.w - scale_ * drawing_width) / 2),
        top_(picture.y + (picture.h - scale_ * drawing_height) / 2),
        // Leads run to the picture's own right edge, beyond the drawing where the window is wider.
        picture_(picture) {}

  /// A close-up: `middle` of the drawing stands in the middle of `view`, at so many pixels a unit.
  Projection(const Rect& view, ImVec2 middle, float scale)
      : scale_(scale),
        left_(view.centre().x - middle.x * scale),
        top_(view.centre().y - middle.y * scale),
        picture_(view) {}

  /// A projection that draws what stands at `from` at `to`, `times` as large.
  Projection shrunk(ImVec2 from, ImVec2 to, float times) const {
    Projection moved = *this;
    moved.scale_ = scale_ * times;
    moved.left_ = left_ + to.x * scale_ - from.x * moved.scale_;
    moved.top_ = top_ + to.y * scale_ - from.y * moved.scale_;
    return moved;
  }

  ImVec2 to_screen(ImVec2 place) const { return {left_ + place.x * scale_, top_ + place.y * scale_}; }
  ImVec2 to_drawing(ImVec2 pixel) const { return {(pixel.x - left_) / scale_, (pixel.y - top_) / scale_}; }
  Rect to_screen(const Rect& r) const {
    const ImVec2 corner = to_screen(r.min());
    return {corner.x, corner.y, r.w * scale_, r.h * scale_};
  }
  float scale() const { return scale_; }
  const Rect& picture() const { return picture_; }

 private:
  float scale_, left_, top_;
  Rect picture_;
};

}  // namespace voltfall
