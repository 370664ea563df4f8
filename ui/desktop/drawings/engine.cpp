#include <cmath>
#include <numbers>

#include "desktop/drawings/parts.h"

namespace voltfall {
namespace {

constexpr double radians_per_degree = std::numbers::pi / 180.0;

/// The fan edge-on: each blade's width follows its turn, so that turning can be seen at any speed.
void draw_fan(const Brush& brush, double crank_angle_deg) {
  brush.box({340, 300, 18, 40}, ink::steel_dark, 1.2F);
  for (int i = 0; i < 5; ++i) {
    const double angle = crank_angle_deg * radians_per_degree + i * 2.0 * std::numbers::pi / 5.0;
    const auto tip = static_cast<float>(52.0 * std::cos(angle));
    const auto width = static_cast<float>(3.0 + 4.0 * std::abs(std::sin(angle)));
    if (std::sin(angle) < -0.2) continue;  // behind the hub
    const ImVec2 blade[] = {
        {337 - width / 2, 320}, {337 + width / 2, 320}, {337 + width, 320 + tip}, {337 - width, 320 + tip}};
    brush.shape(blade, ink::steel, 1.2F);
  }
  brush.box({330, 312, 14, 16}, ink::steel_dark, 1.5F);
}

/// A core cover under each spark plug. Plugs out: bare holes, and their leads laid over the cover.
void draw_cylinders(const Brush& brush, const VehicleLook& look) {
  const float apart = look.cylinders_seen > 4 ? 42.0F : 44.0F;
  for (int i = 0; i < look.cylinders_seen; ++i) {
    const float x = 384 + apart * static_cast<float>(i);
    brush.box({x, 272, 32, 36}, ink::casting_dark, 1.0F, ink::edge);
    const float plug = x + 16;
    if (look.plugs_out) {
      brush.disc({plug, 259}, 4.5F, ink::ink, 1.2F);
      brush.line({plug + 3, 238}, {plug + 17, 238}, 3.0F);
      continue;
    }
    brush.box({plug - 3, 248, 6, 9}, ink::instrument, 1.0F);
    brush.box({plug - 2, 257, 4, 6}, ink::paper, 1.0F);
    brush.box({plug - 4, 263, 8, 4}, ink::steel, 1.0F);
  }
}

void draw_block(const Brush& brush, const VehicleLook& look) {
  const float r = static_cast<float>(look.rock) * 1.5F;
  const ImVec2 block[] = {{356, 262 + r}, {374, 246 + r}, {632, 246 - r},
                          {650, 262 - r}, {650, 398 - r}, {356, 398 + r}};
  brush.shape(block, ink::casting, 2.0F);
  const ImVec2 cover[] = {{384, 246 + r}, {392, 230 + r}, {560, 230}, {568, 246}};
  brush.shape(cover, ink::casting_dark, 1.5F);
  draw_cylinders(brush, look);
  brush.line({356, 374}, {650, 374}, 1.0F, ink::edge);
  for (int i = 0; i < 7; ++i) brush.disc({388 + 38.0F * static_cast<float>(i), 386}, 2.5F, ink::paper, 1.0F, ink::edge);
  brush.words({476, 348}, "engine block");
}

}  // namespace

void draw_engine(const Brush& brush, const VehicleLook& look) {
  draw_block(brush, look);
  draw_fan(brush, look.crank_angle_deg);
}

void draw_alternator(const Brush& brush) {
  const ImVec2 bracket[] = {{300, 280}, {360, 292}, {360, 300}, {296, 290}};
  brush.shape(bracket, ink::steel_dark, 1.0F);
  brush.disc({290, 264}, 27, ink::steel, 2.0F);
  brush.disc({290, 264}, 17, ink::steel_dark, 1.2F);
  for (int i = 0; i < 8; ++i) {
    const float a = static_cast<float>(i) * std::numbers::pi_v<float> / 4;
    brush.line({290 + 18 * std::cos(a), 264 + 18 * std::sin(a)}, {290 + 25 * std::cos(a), 264 + 25 * std::sin(a)},
               1.0F);
  }
  brush.disc({290, 264}, 5, ink::steel, 1.2F);
  brush.box({284, 230, 8, 10}, ink::steel_dark, 1.2F);
  brush.words({272, 302}, "alternator");
}

void draw_flywheel(const Brush& brush, const VehicleLook& look) {
  const ImVec2 bell[] = {{650, 258}, {672, 246}, {724, 246}, {748, 286},
                         {748, 410}, {726, 504}, {662, 504}, {650, 492}};
  brush.shape(bell, ink::casting_dark, 2.0F);
  const Rect window{670, 276, 56, 196};
  brush.box(window, ink::paper, 1.5F);
  const Rect rim{684, 276, 28, 196};
  brush.box(rim, ink::steel, 1.2F);
  // Teeth of the ring gear seen edge-on, closing up towards top and bottom as on a wheel; one in eight is drawn.
  constexpr int drawn_teeth = 48;
  for (int i = 0; i < drawn_teeth; ++i) {
    const double angle = look.crank_angle_deg * radians_per_degree + i * 2.0 * std::numbers::pi / drawn_teeth;
    if (std::cos(angle) <= 0.05) continue;
    const auto y = static_cast<float>(374.0 + 97.0 * std::sin(angle));
    brush.line({684, y}, {712, y}, 1.2F, ink::ink);
    if (i == 0) brush.box({684, y - 5, 28, 9}, ink::ink, 0);
  }
  brush.words({699, 261}, "flywheel", ink::ink);
}

namespace {

/// The gate of a manual gearbox: neutral in the middle bar, or a gear.
void draw_manual_lever(const Brush& brush, Gear gear) {
  for (const float x : {842.0F, 858.0F, 874.0F}) brush.line({x, 334}, {x, 362}, 1.5F);
  brush.line({842, 348}, {874, 348}, 1.5F);
  brush.disc(gear == Gear::drive ? ImVec2{842, 335} : ImVec2{858, 348}, 5.5F, ink::ink, 1.0F);
  brush.words({858, 372}, gear == Gear::drive ? "in gear" : "neutral");
}

}  // namespace

void draw_gearbox(const Brush& brush, const VehicleLook& look) {
  const ImVec2 box[] = {{748, 304}, {800, 304}, {884, 316}, {884, 380}, {800, 392}, {748, 392}};
  brush.shape(box, ink::casting, 2.0F);
  for (float x : {772.0F, 796.0F, 820.0F}) brush.line({x, 312}, {x, 384}, 1.0F, ink::edge);
  brush.box({884, 334, 30, 28}, ink::steel_dark, 1.5F);
  brush.box(look.switch_in_coil_ground ? Rect{804, 289, 16, 15} : Rect{794, 288, 32, 18}, ink::instrument, 1.5F);
  const std::string_view with_switch = look.manual_gearbox ? "clutch switch" : "neutral switch";
  brush.words({884, 296}, look.switch_in_coil_ground ? "connector" : with_switch);
  if (look.manual_gearbox) return draw_manual_lever(brush, look.gear);
  constexpr std::array<std::string_view, 3> letters{"P", "N", "D"};
  for (std::size_t i = 0; i < letters.size(); ++i) {
    const bool chosen = static_cast<std::size_t>(look.gear) == i;
    const Rect mark{834 + 16.0F * static_cast<float>(i), 338, 16, 20};
    brush.box(mark, chosen ? ink::ink : ink::paper, 1.0F);
    brush.words(mark.centre(), letters[i], chosen ? ink::on_dark : ink::ink_soft, Type::small_bold);
  }
}

void draw_belt(const Brush& brush, const VehicleLook& look) {
  brush.disc({290, 264}, 9, ink::steel, 1.5F);
  if (look.belt_off) return;
  for (const float side : {-1.0F, 1.0F}) {
    brush.line({290 - 7 * side, 264 + 6 * side}, {337 - 7 * side, 320 + 6 * side}, 3.5F, ink::black_lead);
  }
}

void draw_moved(const Brush& brush, const VehicleLook& look) {
  if (!look.moved) return;
  for (const float y : {258.0F, 266.0F, 274.0F}) brush.line({852 + (y - 258) * 2, y}, {932, y}, 2.0F, ink::danger);
  const ImVec2 arrow[] = {{800, 266}, {822, 254}, {822, 278}};
  brush.shape(arrow, ink::danger, 0);
  brush.line({820, 266}, {846, 266}, 5.0F, ink::danger);
}

}  // namespace voltfall
