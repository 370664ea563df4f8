#include "desktop/kit/objects.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <numbers>

#include "desktop/style/draw.h"

namespace voltfall {
namespace {

/// Draws in the object's own units, 40 x 28 with the origin at its upper left.
class Object {
 public:
  explicit Object(const Rect& place)
      : scale_(std::min(place.w / object_width, place.h / object_height)),
        left_(place.centre().x - scale_ * object_width / 2),
        top_(place.centre().y - scale_ * object_height / 2) {}

  void box(float x, float y, float w, float h, ImU32 fill = ink::instrument) const {
    sheet().AddRectFilled(at(x, y), at(x + w, y + h), fill);
  }
  void disc(float x, float y, float radius, ImU32 fill = ink::instrument) const {
    sheet().AddCircleFilled(at(x, y), radius * scale_, fill);
  }
  void ring(float x, float y, float radius, float width, ImU32 colour = ink::instrument) const {
    sheet().AddCircle(at(x, y), radius * scale_, colour, 0, width * scale_);
  }
  void path(std::initializer_list<ImVec2> spots, float width, ImU32 colour = ink::instrument) const {
    for (const ImVec2& spot : spots) sheet().PathLineTo(at(spot.x, spot.y));
    sheet().PathStroke(colour, ImDrawFlags_None, std::max(1.0F, width * scale_));
  }

 private:
  ImVec2 at(float x, float y) const { return {left_ + x * scale_, top_ + y * scale_}; }

  float scale_, left_, top_;
};

void draw_meters(const Object& o, Kit kit) {
  if (kit == Kit::clamp_meter) {
    o.ring(13, 14, 8, 4);
    o.box(19, 9, 17, 10);
    o.box(25, 11, 9, 6, ink::amber);
    return;
  }
  if (kit == Kit::tachometer) {
    o.disc(20, 14, 12);
    o.ring(20, 14, 8, 1.2F, ink::on_dark);
    o.path({{20, 14}, {25, 9}}, 1.8F, ink::amber);
    return;
  }
  o.box(11, 1, 18, 26);
  o.box(13.5F, 3.5F, 13, 8, ink::display);
  o.disc(20, 19, 4.5F, ink::on_dark);
  o.path({{20, 19}, {22.5F, 16.5F}}, 1.5F);
}

void draw_battery_testers(const Object& o, Kit kit) {
  o.box(9, 6, 22, 18);
  if (kit == Kit::load_tester) {
    o.disc(25, 15, 4, ink::on_dark);
    o.path({{25, 15}, {25, 11.5F}}, 1.5F);
    for (const float y : {10.0F, 13.0F, 16.0F, 19.0F}) o.path({{12, y}, {19, y}}, 1.2F, ink::amber);
    o.path({{9, 20}, {3, 20}, {3, 26}}, 3);
    o.path({{31, 20}, {37, 20}, {37, 26}}, 3);
    return;
  }
  if (kit == Kit::booster_pack) {
    o.path({{12, 13}, {18, 13}}, 1.8F, ink::on_dark);
    o.path({{22, 13}, {28, 13}}, 1.8F, ink::on_dark);
    o.path({{25, 10}, {25, 16}}, 1.8F, ink::on_dark);
    o.path({{15, 6}, {15, 2}, {25, 2}, {25, 6}}, 2);
    o.path({{9, 21}, {3, 21}, {3, 26}}, 3, ink::black_lead);
    o.path({{31, 21}, {37, 21}, {37, 26}}, 3, ink::red_lead);
    return;
  }
  o.box(12, 9, 16, 6, ink::display);
  o.disc(20, 19.5F, 2.2F, ink::amber);
  for (const float x : {4.0F, 36.0F}) {
    o.path({{x < 20 ? 9.0F : 31.0F, 11}, {x, 11}, {x, 20}}, 1.2F);
    o.path({{x < 20 ? 9.0F : 31.0F, 16}, {x < 20 ? x + 2.5F : x - 2.5F, 16}, {x < 20 ? x + 2.5F : x - 2.5F, 20}}, 1.2F);
    o.box(x < 20 ? x - 1.5F : x - 3.5F, 19, 5, 6);
  }
}

void draw_hydrometer(const Object& o) {
  o.box(15, 1, 10, 5);
  o.box(16.5F, 6, 7, 17);
  o.box(18, 8, 4, 14, ink::paper);
  o.box(18, 14, 4, 8, ink::copper_light);
  o.path({{20, 9}, {20, 18}}, 1.2F);
  o.path({{20, 23}, {20, 28}}, 2);
}

void draw_test_lamp(const Object& o, float glow) {
  o.path({{2, 24}, {9, 19}}, 1.5F);
  o.path({{9, 19}, {19, 12}}, 5);
  o.disc(24, 9, 6, ink::blend(ink::paper_shade, ink::lamp_lit, glow));
  o.ring(24, 9, 6, 1.6F);
  o.path({{22, 11}, {23, 7}, {25, 11}, {26, 7}}, 1);
  o.path({{28, 12}, {34, 17}, {32, 22}, {38, 26}}, 1.4F);
  if (glow < 0.03F) return;
  // Rays grow with the light: dim and bright differ in shape as well as in colour.
  for (int i = 0; i < 7; ++i) {
    const float angle = -std::numbers::pi_v<float> * (0.05F + 0.13F * static_cast<float>(i));
    const float reach = 8.5F + 4 * glow;
    o.path({{24 + 8 * std::cos(angle), 9 + 8 * std::sin(angle)},
            {24 + reach * std::cos(angle), 9 + reach * std::sin(angle)}},
           1.2F, ink::ink);
  }
}

void draw_leads(const Object& o, Kit kit) {
  switch (kit) {
    case Kit::remote_switch:
      o.box(12, 9, 18, 10);
      o.box(17, 4, 8, 5, ink::red_lead);
      o.path({{12, 14}, {4, 14}, {4, 24}}, 1.6F);
      o.path({{30, 14}, {36, 14}, {36, 24}}, 1.6F);
      break;
    case Kit::fused_jumper:
      o.path({{3, 22}, {8, 10}, {32, 10}, {37, 22}}, 1.8F);
      o.box(12, 6, 16, 8, ink::paper);
      o.path({{12, 6}, {28, 6}, {28, 14}, {12, 14}, {12, 6}}, 1.4F);
      o.path({{12, 10}, {28, 10}}, 1);
      break;
    default:  // heavy leads
      for (const float y : {9.0F, 19.0F}) {
        o.path({{4, y + 3}, {14, y - 3}, {26, y + 3}, {36, y - 3}}, 4.5F);
        o.disc(4, y + 3, 3, ink::copper_light);
        o.disc(36, y - 3, 3, ink::copper_light);
      }
      break;
  }
}

void draw_thermometer(const Object& o) {
  o.box(8, 5, 22, 9);
  o.path({{26, 12}, {29, 26}}, 7);
  o.box(23, 3, 8, 5);
  o.box(24.5F, 4, 5, 3, ink::display);
  for (const float x : {0.5F, 3.5F}) o.path({{x, 9.5F}, {x + 2, 9.5F}}, 1.2F);
}

void draw_recorder(const Object& o) {
  o.box(3, 4, 34, 21);
  o.box(6, 7, 21, 15, ink::display);
  o.path({{7, 10}, {12, 10}, {14, 20}, {18, 15}, {22, 16}, {26, 14}}, 1.2F, ink::display_ink);
  o.disc(32, 11, 2.2F, ink::amber);
  o.disc(32, 18, 2.2F, ink::on_dark);
}

}  // namespace

void draw_kit_object(Kit kit, const Rect& place, float glow) {
  const Object object(place);
  switch (kit) {
    case Kit::multimeter:
    case Kit::clamp_meter:
    case Kit::tachometer:
      return draw_meters(object, kit);
    case Kit::load_tester:
    case Kit::conductance_tester:
    case Kit::booster_pack:
      return draw_battery_testers(object, kit);
    case Kit::hydrometer:
      return draw_hydrometer(object);
    case Kit::test_lamp:
      return draw_test_lamp(object, glow);
    case Kit::remote_switch:
    case Kit::fused_jumper:
    case Kit::heavy_leads:
      return draw_leads(object, kit);
    case Kit::thermometer:
      return draw_thermometer(object);
    case Kit::recorder:
      return draw_recorder(object);
  }
}

}  // namespace voltfall
