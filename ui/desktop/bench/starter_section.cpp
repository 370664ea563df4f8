#include "desktop/bench/starter_section.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "desktop/bench/current_ink.h"
#include "desktop/drawings/brush.h"
#include "desktop/style/draw.h"
#include "mechanical/drive_train.h"
#include "rig/circuit.h"

namespace voltfall {
namespace {

// Millimetres, x along the shaft towards the ring gear, y downwards, the shaft at 0. Travels, ratio, teeth and pitch
// are the vehicle's; the castings round them are our own drawing.
constexpr float case_left = 0, case_right = 150, case_half = 58, wall = 6;
constexpr float core_left = 50, core_right = 114, core_radius = 33;
constexpr float pivot_x = 128, pivot_y = -50, shoe_arm = 43;
constexpr float shoe_left = 56, shoe_right = 114, shoe_thick = 13;
constexpr float tooth_length = 12, addendum = 2.5F;
const ImVec2 sheet_low{-62, -88}, sheet_high{212, 84};

float mm(double metres) {
  return static_cast<float>(metres * 1000.0);
}

ImVec2 turned(ImVec2 point, float angle) {
  const ImVec2 from{point.x - pivot_x, point.y - pivot_y};
  return {pivot_x + from.x * std::cos(angle) - from.y * std::sin(angle),
          pivot_y + from.x * std::sin(angle) + from.y * std::cos(angle)};
}

class Section {
 public:
  Section(const Mechanism& now, const RigParameters& vehicle, const Projection& projection)
      : now_(now), vehicle_(vehicle), brush_(projection) {
    full_angle_ = mm(vehicle.shoe.travel_m) / shoe_arm;
    still_open_ = full_angle_ - mm(now.shoe_travel_m) / shoe_arm;
    lever_length_ = static_cast<float>(vehicle.drive.lever_ratio) * shoe_arm;
    pinion_x_ = drive_home() + mm(now.pinion_travel_m);
    pinion_radius_ = mm(pinion_radius_m(vehicle.drive));
  }

  void draw() const {
    draw_case();
    draw_ring();
    draw_fixed_pole();
    draw_armature();
    draw_brushes();
    draw_drive();
    draw_shoe();
    draw_contacts();
    draw_flux();
  }

  ImVec2 shoe_point(float x, float y) const { return turned({x, y}, still_open_); }
  float pinion_x() const { return pinion_x_; }
  float ring_x() const {
    return drive_home() + clutch_end + tooth_length +
           mm(vehicle_.drive.teeth_meet_at * vehicle_.shoe.travel_m * vehicle_.drive.lever_ratio);
  }
  float pinion_radius() const { return pinion_radius_; }
  static constexpr float clutch_end = 34;

 private:
  float drive_home() const { return pivot_x - 0.5F * lever_length_ * full_angle_; }

  void cut(const Rect& r) const {
    brush_.box(r, ink::steel_dark, 1.0F);
    brush_.hatch(r, 5, ink::faded(ink::ink, 0.35F));
  }

  void draw_case() const {
    cut({case_left, case_half - wall, case_right - case_left, wall});
    cut({case_left, -case_half, 36, wall});
    cut({case_right - 18, -case_half, 18, wall});
    // The lid over the movable shoe, and the ends.
    const ImVec2 lid[] = {{36, -case_half}, {36, -82}, {132, -82}, {132, -case_half}};
    brush_.path(lid, 2.5F);
    cut({case_left - 7, -case_half, 7, 2 * case_half});
    // The flange, open where the drive passes; its foot is bolted to the block.
    cut({case_right, -case_half - 6, 7, case_half - 19});
    cut({case_right, 25, 7, case_half});
  }

  void draw_coil(const Rect& left, const Rect& right, double amps, double full_A) const {
    for (const Rect& side : {left, right}) brush_.box(side, current_ink(amps, full_A), 1.2F);
    mark_current(brush_, left.centre(), amps, full_A);
    mark_current(brush_, right.centre(), -amps, full_A);
  }

  void draw_fixed_pole() const {
    brush_.box({shoe_left, core_radius + 1, shoe_right - shoe_left, case_half - wall - core_radius - 1}, ink::steel,
               1.2F);
    draw_coil({shoe_left - 10, core_radius + 3, 9, 14}, {shoe_right + 1, core_radius + 3, 9, 14}, now_.field_34_A, 250);
  }

  // Slots and bars on the near side of something round, seen from the side.
  void draw_turning(const Rect& round, double angle, int bars, ImU32 colour) const {
    for (int bar = 0; bar < bars; ++bar) {
      const double at = angle + 2.0 * std::numbers::pi * bar / bars;
      if (std::cos(at) <= 0.05) continue;
      const float y = round.centre().y + round.h / 2 * static_cast<float>(std::sin(at));
      brush_.line({round.x, y}, {round.right(), y}, 0.7F, colour);
    }
  }

  void draw_armature() const {
    brush_.box({case_left - 12, -5, 215, 10}, ink::steel, 1.0F);
    const Rect core{core_left, -core_radius, core_right - core_left, 2 * core_radius};
    brush_.box(core, ink::steel, 1.5F);
    draw_turning(core, now_.armature_rad, 16, ink::ink_soft);
    const ImU32 wire = current_ink(now_.armature_A, 400);
    brush_.box({core_left - 9, -25, 9, 50}, wire, 1.0F);
    brush_.box({core_right, -25, 8, 50}, wire, 1.0F);
    const Rect commutator{16, -19, 22, 38};
    brush_.box(commutator, ink::copper, 1.2F);
    draw_turning(commutator, now_.armature_rad, 24, ink::ink);
  }

  void draw_brushes() const {
    for (const float side : {-1.0F, 1.0F}) {
      const float y = side * 26;
      brush_.box({21, y - 6, 12, 12}, ink::instrument, 1.0F);
      brush_.line({27, y + side * 6}, {27, y + side * 14}, 1.2F);
    }
  }

  void draw_drive() const {
    const float x = pinion_x_;
    // Lever from the pivot to the collar: as long as the vehicle's ratio asks.
    const float swing = still_open_ - 0.5F * full_angle_;
    const ImVec2 foot{pivot_x - lever_length_ * std::sin(swing), pivot_y + lever_length_ * std::cos(swing)};
    brush_.box({x, -11, 6, 22}, ink::steel_dark, 1.2F);
    const Rect clutch{x + 6, -22, 26, 44};
    brush_.box(clutch, ink::casting_dark, 1.4F);
    brush_.line({x + 19, -22}, {x + 19, 22}, 0.8F);
    draw_turning({x + 7, -22, 11, 44}, now_.armature_rad, 6, ink::ink_soft);
    draw_turning({x + 20, -22, 11, 44}, now_.pinion_rad, 6, ink::ink_soft);
    const Rect pinion{x + clutch_end, -pinion_radius_ - addendum, tooth_length, 2 * (pinion_radius_ + addendum)};
    brush_.box(pinion, ink::steel, 1.5F);
    draw_turning(pinion, now_.pinion_rad, static_cast<int>(std::lround(vehicle_.drive.pinion_teeth)), ink::ink);
    brush_.line({pivot_x, pivot_y}, foot, 5.0F, ink::ink);
    brush_.line({pivot_x, pivot_y}, foot, 3.0F, ink::steel_dark);
    brush_.disc(foot, 3.2F, ink::steel, 1.2F);
  }

  void draw_ring() const {
    const float x = ring_x(), tip = pinion_radius_ - addendum;
    brush_.box({x, tip, tooth_length, 2 * addendum + 1}, ink::steel, 1.2F);
    cut({x, tip + 2 * addendum + 1, tooth_length, 14});
    cut({x + 3, tip + 2 * addendum + 15, 7, 60});
  }

  void draw_shoe() const {
    const std::array<ImVec2, 5> shoe{shoe_point(shoe_left, -core_radius - 1), shoe_point(shoe_right, -core_radius - 1),
                                     shoe_point(shoe_right + 12, pivot_y - 6),
                                     shoe_point(shoe_right, -core_radius - 1 - shoe_thick - 3),
                                     shoe_point(shoe_left, -core_radius - 1 - shoe_thick)};
    draw_coil({shoe_left - 10, -core_radius - 19, 9, 11}, {shoe_right + 1, -core_radius - 15, 8, 9}, now_.drive_A, 600);
    draw_coil({shoe_left - 16, -core_radius - 19, 5, 11}, {shoe_right + 10, -core_radius - 11, 4, 7}, now_.hold_in_A,
              5);
    brush_.shape(shoe, ink::steel_dark, 1.8F);
    brush_.disc({pivot_x, pivot_y}, 4.0F, ink::paper, 1.6F);
    brush_.disc({pivot_x, pivot_y}, 1.2F, ink::ink, 0);
    draw_spring({82, -82}, shoe_point(82, -core_radius - 1 - shoe_thick - 1));
  }

  void draw_spring(ImVec2 top, ImVec2 foot) const {
    constexpr int turns = 5;
    std::array<ImVec2, 2 * turns + 2> wire;
    wire.front() = top;
    for (int i = 0; i < 2 * turns; ++i) {
      const float along = (static_cast<float>(i) + 0.5F) / (2 * turns);
      wire[static_cast<std::size_t>(i) + 1] = {top.x + (foot.x - top.x) * along + (i % 2 == 0 ? -6.0F : 6.0F),
                                               top.y + (foot.y - top.y) * along};
    }
    wire.back() = foot;
    brush_.path(wire, 1.6F, ink::ink);
  }

  // The shoe's pin lifts the blade off at the last of its travel.
  void draw_contacts() const {
    const bool closed = now_.grounding_closed > 0.5F;
    const float blade = closed ? -38 : -34;
    brush_.box({8, -46, 14, 5}, ink::copper, 1.2F);
    const ImVec2 spring_blade[] = {{2, blade + 8}, {10, blade}, {shoe_left - 16, blade}};
    brush_.path(spring_blade, 2.5F, ink::ink);
    brush_.path(spring_blade, 1.2F, ink::copper_light);
    brush_.box({11, blade - 3.2F, 8, 4}, ink::copper, 1.0F);
    const ImVec2 pin = shoe_point(shoe_left, -core_radius - 3);
    brush_.line(pin, {shoe_left - 17, pin.y}, 1.6F);
  }

  // One line a tenth of saturation.
  void draw_pole_flux(double flux_Wb, bool top) const {
    const PoleParameters pole = starter_pole(vehicle_.starter);
    const int lines = static_cast<int>(std::lround(10.0 * std::abs(flux_Wb) / (pole.area_m2 * pole.saturation_T)));
    for (int i = 0; i < lines; ++i) {
      const float x = shoe_left + (shoe_right - shoe_left) * (static_cast<float>(i) + 0.5F) / static_cast<float>(lines);
      const ImVec2 outer = top ? shoe_point(x, -core_radius - 1 - shoe_thick) : ImVec2{x, case_half - wall};
      const ImVec2 face = top ? shoe_point(x, -core_radius - 1) : ImVec2{x, core_radius + 1};
      const ImVec2 inner{x, top ? -12.0F : 12.0F};
      brush_.line(outer, face, 1.1F, ink::focus);
      brush_.line(face, inner, 1.1F, ink::focus);
    }
  }

  void draw_flux() const {
    draw_pole_flux(now_.movable_Wb, true);
    draw_pole_flux(now_.third_and_fourth_Wb, false);
  }

  const Mechanism& now_;
  const RigParameters& vehicle_;
  Brush brush_;
  float full_angle_ = 0, still_open_ = 0, lever_length_ = 0, pinion_x_ = 0, pinion_radius_ = 0;
};

/// A name at the margin with a leader to the thing, and a figure under the name.
struct Callout {
  ImVec2 thing, foot;
  Align side;
  std::string_view name;
  std::string figure;
};

void draw_callout(const Callout& callout, const Projection& projection) {
  const ImVec2 thing = projection.to_screen(callout.thing), foot = projection.to_screen(callout.foot);
  sheet().AddLine(foot, thing, ink::ink_soft, 1.0F);
  sheet().AddCircleFilled(thing, 2.5F, ink::ink_soft);
  constexpr float width = 132, height = 17;
  const float left = callout.side == Align::left ? foot.x + gap_4 : foot.x - gap_4 - width;
  const float up = callout.figure.empty() ? height / 2 : height;
  text_in({left, foot.y - up, width, height}, Type::small, ink::ink_soft, callout.name, callout.side);
  if (callout.figure.empty()) return;
  text_in({left, foot.y - up + height - 2, width, height}, Type::figures_small, ink::ink, callout.figure, callout.side);
}

void draw_callouts(const Mechanism& now, const RigParameters& vehicle, const Section& section, const Wording& words,
                   const Projection& projection) {
  const auto name = [&](std::string_view id) { return words.text(fmt::format("open_bench.part.{}", id)); };
  const std::string open =
      std::string(words.text(now.grounding_closed > 0.5F ? "open_bench.part.closed" : "open_bench.part.open"));
  const double way = 100.0 * now.shoe_travel_m / vehicle.shoe.travel_m;
  const Callout callouts[] = {
      {{shoe_left - 5.5F, -core_radius - 13.5F}, {-14, -76}, Align::right, name("drive_coil"), amps_text(now.drive_A)},
      {{shoe_left - 13.5F, -core_radius - 13.5F}, {-14, -50}, Align::right, name("hold_in"), amps_text(now.hold_in_A)},
      {{12, -40}, {-14, -24}, Align::right, name("grounding"), open},
      {{27, 30}, {-14, 22}, Align::right, name("brushes"), amps_text(now.armature_A)},
      {{shoe_left - 5, core_radius + 10}, {-14, 54}, Align::right, name("field_coils"), amps_text(now.field_34_A)},
      {section.shoe_point(96, -core_radius - 8),
       {140, -74},
       Align::left,
       name("shoe"),
       fmt::format("{:.1f} mm, {:.0f} %", 1000.0 * now.shoe_travel_m, std::max(0.0, way))},
      {{pivot_x, pivot_y}, {164, -54}, Align::left, name("lever"), ""},
      {{section.pinion_x() + 19, -20}, {166, -34}, Align::left, name("clutch"), ""},
      {{section.pinion_x() + Section::clutch_end + 6, -section.pinion_radius()},
       {186, -16},
       Align::left,
       name("pinion"),
       fmt::format("{:.1f} mm", 1000.0 * now.pinion_travel_m)},
      {{section.ring_x() + 6, section.pinion_radius() + 12}, {194, 34}, Align::left, name("ring"), ""},
      {{case_right + 3, case_half + 12}, {120, 76}, Align::right, name("mounting_face"), ""},
  };
  for (const Callout& callout : callouts) draw_callout(callout, projection);
}

}  // namespace

void draw_starter_section(const Mechanism& now, const RigParameters& vehicle, const Wording& words, const Rect& place) {
  const float scale = std::min(place.w / (sheet_high.x - sheet_low.x), place.h / (sheet_high.y - sheet_low.y));
  const ImVec2 middle{(sheet_low.x + sheet_high.x) / 2, (sheet_low.y + sheet_high.y) / 2};
  const Projection projection(place, middle, scale);
  sheet().PushClipRect(place.min(), place.max(), true);
  const Section section(now, vehicle, projection);
  section.draw();
  draw_callouts(now, vehicle, section, words, projection);
  sheet().PopClipRect();
}

}  // namespace voltfall
