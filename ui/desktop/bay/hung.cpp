#include "desktop/bay/hung.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "desktop/bay/notes.h"
#include "desktop/kit/objects.h"
#include "desktop/style/draw.h"
#include "instruments/places.h"

namespace voltfall {
namespace {

/// How the two halves of a device's lead are drawn; a heavy one is as thick as the vehicle's own cables.
struct LeadStroke {
  float width;
  ImU32 colour;
  float core;  ///< width of a lighter core; 0: none
};

LeadStroke stroke_of(Device device) {
  switch (device) {
    case Device::heavy_lead_1:
    case Device::heavy_lead_2:
      return {10, ink::black_lead, 4};
    case Device::booster_pack:
    case Device::load_tester:
      return {7, ink::black_lead, 2};
    case Device::test_lamp:
    case Device::remote_switch:
    case Device::fused_jumper:
      break;
  }
  return {3, ink::black_lead, 0};
}

/// What has a plus and a minus has its red lead on the supply.
LeadStroke stroke_at(const Hung& hung, TestPoint point) {
  LeadStroke stroke = stroke_of(hung.device);
  const bool has_sides = hung.device == Device::booster_pack || hung.device == Device::load_tester;
  if (has_sides && is_heavy_supply(point)) stroke = {stroke.width, ink::red_lead, 0};
  return stroke;
}

/// A lead sags from its first point by way of the device to its last.
struct Hanging {
  ImVec2 first, last, middle;
  Rect box() const { return {middle.x - 24, middle.y - 18, 48, 36}; }
};

bool covers_a_disc(const Projection& projection, const Rect& box) {
  for (const TestPoint point : all_test_points()) {
    if (box.inset(-disc_radius_px - 1).holds(projection.to_screen(place_of(point).disc))) return true;
  }
  return false;
}

bool under_notes(const Projection& projection, const Rect& box) {
  const Rect& picture = projection.picture();
  return box.x < picture.x + gap_16 + notes_width && box.bottom() > picture.bottom() - notes_height - gap_8;
}

bool overlap(const Rect& one, const Rect& other) {
  return one.x < other.right() && other.x < one.right() && one.y < other.bottom() && other.y < one.bottom();
}

/// @param earlier  where other devices hang already
Hanging hanging_of(const Projection& projection, const Hung& hung, const std::vector<Hanging>& earlier) {
  Hanging place{projection.to_screen(place_of(hung.first).disc), projection.to_screen(place_of(hung.last).disc), {}};
  const ImVec2 centre{(place.first.x + place.last.x) / 2, (place.first.y + place.last.y) / 2};
  // Each device has its own first wish, so that two between the same points hang apart.
  const float own = 12 * static_cast<float>(hung.device);
  const Rect room = projection.picture().inset(26, 20);
  constexpr std::array<float, 9> sags{44, 84, -44, 124, -84, 164, -124, 204, 244};
  for (const float aside : {0.0F, 60.0F, -60.0F, 120.0F, -120.0F}) {
    for (const float sag : sags) {
      place.middle = {centre.x + aside, centre.y + sag + own};
      const bool free = !covers_a_disc(projection, place.box()) && !under_notes(projection, place.box()) &&
                        std::none_of(earlier.begin(), earlier.end(),
                                     [&](const Hanging& other) { return overlap(other.box(), place.box()); });
      if (room.holds(place.middle) && free) return place;
    }
  }
  return place;
}

/// In the order of the session's list.
std::vector<Hanging> hangings_of(const Session& session, const Projection& projection) {
  std::vector<Hanging> places;
  for (const Hung& hung : session.hung()) places.push_back(hanging_of(projection, hung, places));
  return places;
}

void draw_half(ImVec2 end, ImVec2 middle, const LeadStroke& stroke) {
  const ImVec2 bend{(end.x + middle.x) / 2, std::max(end.y, middle.y) + 10};
  const auto draw = [&](ImU32 colour, float width) {
    sheet().AddBezierQuadratic(end, bend, middle, colour, width, 32);
  };
  draw(ink::paper, stroke.width + 3);
  draw(stroke.colour, stroke.width);
  if (stroke.core > 0) draw(ink::copper_light, stroke.core);
}

/// A clip that grips the disc's edge; the one connected last carries a second ring.
void draw_clip(ImVec2 at, bool last) {
  sheet().AddCircle(at, disc_radius_px + 1.5F, ink::paper, 0, 6.0F);
  sheet().AddCircle(at, disc_radius_px + 1.5F, ink::ink, 0, 3.0F);
  if (last) sheet().AddCircle(at, disc_radius_px + 5.0F, ink::ink, 0, 1.5F);
}

void draw_tag(ImVec2 disc, std::string_view words, float dx, float dy) {
  const float width = text_width(Type::small_bold, words) + 8;
  const Rect tag{disc.x + dx - width / 2, disc.y + dy - 9, width, 18};
  const Rect casing = tag.inset(-2);
  sheet().AddRectFilled(casing.min(), casing.max(), ink::paper);
  sheet().AddRectFilled(tag.min(), tag.max(), ink::instrument);
  text_in(tag, Type::small_bold, ink::amber, words, Align::centre);
}

constexpr float clear_of_disc_px = 24;

/// The recorder's clips come up from its panel under the picture, behind the notes.
void draw_recorder_lead(const Projection& projection, std::optional<TestPoint> point, float from_share) {
  if (!point) return;
  const ImVec2 end = projection.to_screen(place_of(*point).disc);
  const Rect& picture = projection.picture();
  const ImVec2 from{picture.x + picture.w * from_share, picture.bottom() - notes_height};
  for (const auto& [colour, width] : {std::pair{ink::paper, 5.0F}, std::pair{ink::instrument, 2.0F}}) {
    sheet().AddBezierCubic(end, {end.x, end.y + 60}, {from.x, from.y - 80}, from, colour, width, 40);
  }
}

void draw_recorder_tags(const Session& session, const Projection& projection) {
  for (const int channel : {1, 2}) {
    const RecorderInput& input = session.recorder().input(channel);
    const auto tag = [&](std::optional<TestPoint> point, const char* sign, float side) {
      if (!point) return;
      draw_tag(projection.to_screen(place_of(*point).disc), fmt::format("{}{}", channel, sign), side * clear_of_disc_px,
               channel == 1 ? clear_of_disc_px - 4 : 4 - clear_of_disc_px);
    };
    tag(input.red, "+", 1);
    tag(input.black, "\u2212", -1);
    if (input.round) draw_tag(projection.to_screen(jaw_place(*input.round)), fmt::format("{} A", channel), 0, 34);
  }
}

void draw_beam(const Session& session, const Projection& projection) {
  const auto at = session.thermometer_at();
  if (!at) return;
  const ImVec2 disc = projection.to_screen(place_of(*at).disc);
  for (int i = 0; i < 4; ++i) {
    const float out = disc_radius_px + 3, x = (i % 2 == 0 ? 1.0F : -1.0F), y = (i < 2 ? 1.0F : -1.0F);
    const ImVec2 corner{disc.x + x * out, disc.y + y * out};
    sheet().AddLine(corner, {corner.x - x * 7, corner.y}, ink::ink, 2.0F);
    sheet().AddLine(corner, {corner.x, corner.y - y * 7}, ink::ink, 2.0F);
  }
  draw_tag(disc, "\u00B0C", 0, -clear_of_disc_px - 4);
}

}  // namespace

void draw_hung_leads(const Session& session, const BayState& state, const Projection& projection) {
  const std::vector<Hanging> places = hangings_of(session, projection);
  for (std::size_t i = 0; i < places.size(); ++i) {
    const Hung& hung = session.hung()[i];
    const Hanging& place = places[i];
    draw_half(place.first, place.middle, stroke_at(hung, hung.first));
    draw_half(place.last, place.middle, stroke_at(hung, hung.last));
  }
  if (state.typed == Pick::device && state.first_point && state.hands.over(projection.picture())) {
    draw_half(projection.to_screen(place_of(*state.first_point).disc), ImGui::GetIO().MousePos,
              stroke_of(state.to_hang));
  }
  for (const int channel : {1, 2}) {
    const float share = channel == 1 ? 0.06F : 0.10F;
    draw_recorder_lead(projection, session.recorder().input(channel).red, share);
    draw_recorder_lead(projection, session.recorder().input(channel).black, share + 0.02F);
  }
}

void draw_hung_devices(const Session& session, const BayState& state, const Projection& projection) {
  const std::vector<Hanging> places = hangings_of(session, projection);
  for (std::size_t i = 0; i < places.size(); ++i) {
    const Hung& hung = session.hung()[i];
    const Hanging& place = places[i];
    draw_clip(place.first, false);
    draw_clip(place.last, true);
    const Rect box = place.box();
    sheet().AddRectFilled(box.min(), box.max(), ink::paper);
    sheet().AddRect(box.min(), box.max(), ink::ink, 0, ImDrawFlags_None,
                    kit_of(hung.device) == state.in_hand ? 2.5F : 1.0F);
    const float glow = hung.device == Device::test_lamp ? static_cast<float>(session.test_lamp_light()) : 0.0F;
    draw_kit_object(kit_of(hung.device), box.inset(4), glow);
  }
  if (state.first_point) draw_clip(projection.to_screen(place_of(*state.first_point).disc), false);
  draw_recorder_tags(session, projection);
  draw_beam(session, projection);
}

std::optional<Device> hung_under(const Session& session, const Projection& projection, ImVec2 pixel) {
  const std::vector<Hanging> places = hangings_of(session, projection);
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (places[i].box().holds(pixel)) return session.hung()[i].device;
  }
  return std::nullopt;
}

}  // namespace voltfall
