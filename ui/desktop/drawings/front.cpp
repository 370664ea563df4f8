#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "desktop/drawings/parts.h"

namespace voltfall {
namespace {

void draw_one_lamp(const Brush& brush, ImVec2 centre, float light) {
  brush.disc(centre, 24, ink::steel, 2.0F);
  brush.disc(centre, 19, ink::blend(ink::paper_shade, ink::lamp_lit, light * 1.15F), 1.2F);
  for (int i = -1; i <= 1; ++i) {
    const float x = centre.x + static_cast<float>(i) * 9;
    const float half = std::sqrt(19.0F * 19.0F - 81.0F * static_cast<float>(i * i)) - 1;
    brush.line({x, centre.y - half}, {x, centre.y + half}, 1.0F, ink::faded(ink::ink, 0.35F));
  }
  if (light < 0.03F) return;
  // Rays grow with the light, so that dim and bright differ in shape, not only in colour.
  const float reach = 28 + 12 * std::min(1.0F, light);
  for (int i = 0; i < 7; ++i) {
    const float angle = std::numbers::pi_v<float> * (1.05F + 0.15F * static_cast<float>(i));
    const ImVec2 out{std::cos(angle), std::sin(angle)};
    brush.line({centre.x + out.x * 28, centre.y + out.y * 28}, {centre.x + out.x * reach, centre.y + out.y * reach},
               2.0F, ink::ink);
  }
}

void draw_post(const Brush& brush, float x) {
  brush.box({x - 10, 196, 20, 14}, ink::steel_dark, 1.2F);
  brush.box({x - 8, 186, 16, 14}, ink::steel, 1.5F);
  brush.line({x - 3, 188}, {x - 3, 198}, 1.0F, ink::paper);
}

/// A clamp's ring round the post seen from the side, its ears and bolt towards the battery's middle.
void draw_clamp(const Brush& brush, float x, float ear, float lift, bool crusted) {
  const float y = 197 - lift;
  brush.box({x - 14, y, 28, 12}, ink::steel, 1.8F);
  brush.line({x - 14, y + 4}, {x + 14, y + 4}, 1.0F, ink::steel_dark);
  brush.box({ear > 0 ? x + 13 : x - 23, y + 2, 10, 9}, ink::steel, 1.5F);
  brush.nut({x + ear * 18, y + 6}, 4.5F);
  if (!crusted) return;
  for (int i = 0; i < 7; ++i) {
    const float along = static_cast<float>(i) / 6.0F;
    brush.disc({x - 13 + 26 * along, y + (i % 2 == 0 ? -1.0F : 2.0F)}, i % 3 == 0 ? 4.0F : 3.0F, ink::crust, 1.0F);
  }
}

}  // namespace

void draw_headlamps(const Brush& brush, const VehicleLook& look) {
  const float light = look.headlamps ? static_cast<float>(look.lamp_light) : 0.0F;
  const ImVec2 feed[] = {{116, 58}, {116, 44}, {128, 36}, {240, 36}};
  brush.wire(feed);
  const ImVec2 ground[] = {{116, 86}, {116, 112}};
  brush.wire(ground);
  for (int i = 0; i < 3; ++i) {
    const float half = 9 - 3.0F * static_cast<float>(i), y = 113 + 4.0F * static_cast<float>(i);
    brush.line({116 - half, y}, {116 + half, y}, 1.8F);
  }
  brush.box({102, 52, 16, 40}, ink::instrument, 1.2F);
  draw_one_lamp(brush, {88, 72}, light);
  draw_one_lamp(brush, {42, 72}, light);
  brush.words({58, 112}, "headlamps");
}

void draw_battery(const Brush& brush, const VehicleLook& look) {
  brush.box({30, 328, 204, 8}, ink::steel_dark, 1.5F);
  brush.box({36, 206, 192, 122}, ink::instrument, 2.0F);
  brush.box({36, 206, 192, 20}, ink::blend(ink::instrument, ink::on_dark, 0.10F), 1.2F);
  for (int i = 0; i < 6; ++i) {
    brush.disc({62 + 28.0F * static_cast<float>(i), 216}, 5, ink::instrument, 1.2F, ink::instrument_edge);
  }
  for (float x : {46.0F, 218.0F}) brush.line({x, 234}, {x, 322}, 1.0F, ink::instrument_edge);
  brush.line({68, 244}, {84, 244}, 3.0F, ink::on_dark);
  brush.line({180, 244}, {196, 244}, 3.0F, ink::on_dark);
  brush.line({188, 236}, {188, 252}, 3.0F, ink::on_dark);
  brush.words({132, 272}, "battery", ink::on_dark_soft);
  brush.words({132, 296}, fmt::format("12 V  {:.0f} CCA", look.rated_CCA_A), ink::on_dark, Type::figures);
  draw_post(brush, 76);
  draw_post(brush, 188);
}

void draw_battery_clamps(const Brush& brush, const VehicleLook& look) {
  draw_clamp(brush, 188, -1, 0, look.positive_crust);
  draw_clamp(brush, 76, 1, look.battery_connected ? 0.0F : 26.0F, look.negative_crust);
}

}  // namespace voltfall
