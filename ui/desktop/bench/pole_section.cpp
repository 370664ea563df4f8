#include "desktop/bench/pole_section.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "desktop/bench/current_ink.h"
#include "desktop/drawings/brush.h"
#include "desktop/style/draw.h"
#include "rig/circuit.h"

namespace voltfall {
namespace {

// Millimetres round the shaft; the same castings as in the section along it.
constexpr float armature_radius = 33, face_radius = 34, yoke_inside = 52, yoke_outside = 58, shoe_thick = 13;
constexpr float lid_half = 32, lid_top = 82;
constexpr float degree = std::numbers::pi_v<float> / 180.0F;
constexpr float face_half = 27 * degree, border = 45 * degree;
const ImVec2 sheet_low{-61, -83}, sheet_high{61, 60};

/// `angle` is clockwise from the top.
ImVec2 polar(float radius, float angle) {
  return {radius * std::sin(angle), -radius * std::cos(angle)};
}

struct Pole {
  float angle;
  double flux_Wb, current_A, full_A;
  float lifted = 0;  ///< off the armature
};

class PoleSection {
 public:
  PoleSection(const Mechanism& now, const RigParameters& vehicle, const Projection& projection)
      : now_(now), brush_(projection), iron_(starter_pole(vehicle.starter)) {
    const auto lifted = static_cast<float>(1000.0 * (vehicle.shoe.travel_m - now.shoe_travel_m));
    // Poles alternate, and so do the ways round of their coils.
    poles_ = {{{0, now.movable_Wb, now.drive_A, 600, std::max(0.0F, lifted)},
               {2 * border, now.second_Wb, -now.field_2_A, 250},
               {4 * border, now.third_and_fourth_Wb, now.field_34_A, 250},
               {6 * border, now.third_and_fourth_Wb, -now.field_34_A, 250}}};
  }

  void draw() const {
    draw_yoke();
    draw_armature();
    for (const Pole& pole : poles_) {
      draw_coil(pole);
      draw_pole(pole);
    }
    for (const Pole& pole : poles_) draw_flux(pole);
  }

 private:
  // Open at the top, where the shoe's lid stands over it.
  void draw_yoke() const {
    constexpr int pieces = 48;
    const float open = std::asin(lid_half / yoke_outside);
    std::array<ImVec2, pieces + 1> middle;
    for (int i = 0; i <= pieces; ++i) {
      const float share = static_cast<float>(i) / pieces;
      middle[static_cast<std::size_t>(i)] =
          polar((yoke_inside + yoke_outside) / 2, open + share * (8 * border - 2 * open));
    }
    const float wide = (yoke_outside - yoke_inside) * brush_.projection().scale();
    brush_.path(middle, wide + 3, ink::ink);
    brush_.path(middle, wide, ink::steel_dark);
    const float shoulder = -yoke_outside * std::cos(open);
    const ImVec2 lid[] = {
        {-lid_half, shoulder + 3}, {-lid_half, -lid_top}, {lid_half, -lid_top}, {lid_half, shoulder + 3}};
    brush_.path(lid, 2.5F);
  }

  void draw_armature() const {
    brush_.disc({0, 0}, armature_radius, ink::steel, 1.5F);
    constexpr int slots = 16;
    for (int slot = 0; slot < slots; ++slot) {
      const float at = std::fmod(now_.armature_rad, 8 * border) + 8 * border * static_cast<float>(slot) / slots;
      brush_.line(polar(armature_radius - 6, at), polar(armature_radius, at), 1.6F, ink::ink_soft);
    }
    brush_.disc({0, 0}, 5, ink::steel_dark, 1.0F);
  }

  void draw_pole(const Pole& pole) const {
    constexpr int pieces = 6;
    const float outside = pole.angle == 0 ? face_radius + shoe_thick + 3 : yoke_inside;
    std::array<ImVec2, 2 * (pieces + 1)> edge;
    for (int i = 0; i <= pieces; ++i) {
      const float along = face_half * (2 * static_cast<float>(i) / pieces - 1);
      edge[static_cast<std::size_t>(i)] = lifted(polar(face_radius, pole.angle + along), pole);
      edge[edge.size() - 1 - static_cast<std::size_t>(i)] = lifted(polar(outside, pole.angle + 0.8F * along), pole);
    }
    brush_.shape(edge, pole.angle == 0 ? ink::steel_dark : ink::steel, 1.2F);
  }

  // The movable pole slides through its coil.
  void draw_coil(const Pole& pole) const {
    for (const float side : {-1.0F, 1.0F}) {
      const float from = pole.angle + side * (face_half + 3 * degree), to = pole.angle + side * (border - 3 * degree);
      const std::array<ImVec2, 4> corners{polar(37, from), polar(37, to), polar(48, to), polar(48, from)};
      brush_.shape(corners, current_ink(pole.current_A, pole.full_A), 1.0F);
      mark_current(brush_, polar(42.5F, (from + to) / 2), side * pole.current_A, pole.full_A);
    }
  }

  // One line a tenth of saturation, from the yoke half way to the next pole through pole, gap and armature.
  void draw_flux(const Pole& pole) const {
    const int lines =
        static_cast<int>(std::lround(10.0 * std::abs(pole.flux_Wb) / (iron_.area_m2 * iron_.saturation_T)));
    for (int i = 0; i < lines; ++i) {
      const float along = (2 * static_cast<float>(i) + 1) / static_cast<float>(lines) - 1;
      draw_flux_line(pole, along);
    }
  }

  void draw_flux_line(const Pole& pole, float along) const {
    const float edge = std::abs(along), side = along < 0 ? -1.0F : 1.0F;
    const float at = pole.angle + 0.85F * face_half * along, ends = pole.angle + side * border;
    // Those near the pole's edge take the short way round, in the yoke and in the armature.
    const float in_yoke = yoke_outside - 1 - 4 * edge, in_armature = 12 + 17 * edge;
    // Beside the lid there is yoke only from its foot on.
    const float enters = pole.angle == 0 ? side * std::max(std::abs(at), std::asin(lid_half / yoke_outside)) : at;
    constexpr std::size_t yoke_points = 3, armature_points = 5;
    std::array<ImVec2, yoke_points + 2 + armature_points> way;
    for (std::size_t i = 0; i < yoke_points; ++i) {
      const float share = static_cast<float>(i) / (yoke_points - 1);
      way[i] = polar(in_yoke, ends + share * (enters - ends));
    }
    way[yoke_points] = lifted(polar(yoke_inside - 3, at), pole);
    way[yoke_points + 1] = polar(face_radius, at);
    // A quarter of an ellipse: in along the pole, out across to the border.
    for (std::size_t i = 0; i < armature_points; ++i) {
      const float turn = std::numbers::pi_v<float> / 2 * static_cast<float>(i + 1) / armature_points;
      way[yoke_points + 2 + i] =
          polar(in_armature + (face_radius - in_armature) * (1 - std::sin(turn)), ends + (at - ends) * std::cos(turn));
    }
    brush_.path(way, 1.0F, ink::focus);
  }

  ImVec2 lifted(ImVec2 point, const Pole& pole) const { return {point.x, point.y - pole.lifted}; }

  const Mechanism& now_;
  Brush brush_;
  PoleParameters iron_;
  std::array<Pole, 4> poles_;
};

}  // namespace

void draw_pole_section(const Mechanism& now, const RigParameters& vehicle, const Wording& words, const Rect& place) {
  Rect view = place;
  text_in(view.cut_top(22), Type::body_bold, ink::ink, words.text("open_bench.poles.title"));
  view.cut_top(gap_4);
  Rect foot = view.cut_bottom(48);
  const float scale = std::min(view.w / (sheet_high.x - sheet_low.x), view.h / (sheet_high.y - sheet_low.y));
  const Projection projection(view, {0, (sheet_low.y + sheet_high.y) / 2}, scale);
  PoleSection(now, vehicle, projection).draw();
  const auto figure = [&](std::string_view id, double amps) {
    const Rect row = foot.cut_top(16);
    text_in(row, Type::small, ink::ink_soft, words.text(fmt::format("open_bench.poles.{}", id)));
    text_in(row, Type::figures_small, ink::ink, amps_text(amps), Align::right);
  };
  figure("top", now.drive_A);
  figure("right", now.field_2_A);
  figure("others", now.field_34_A);
}

}  // namespace voltfall
