#include "desktop/bay/leads.h"

#include <array>
#include <cmath>

#include "desktop/bay/entry.h"
#include "desktop/bay/points.h"
#include "desktop/style/draw.h"

namespace voltfall {
namespace {

constexpr float probe_from_px = 13, probe_to_px = 34;

struct LeadLook {
  ImU32 colour;
  const char* tag;
  float tag_width;
  bool banded;
  float lean_rad;  // how far the probe leans away from the straight way to the meter
};
constexpr LeadLook red_look{ink::red_lead, "+", 18, false, -0.35F};
constexpr LeadLook black_look{ink::black_lead, "COM", 38, true, 0.35F};

/// One end of a lead on the screen.
struct LeadEnd {
  ImVec2 tip;    // what it touches: the disc's middle, or the tip itself in the hand
  ImVec2 tag;    // middle of the grip
  ImVec2 along;  // unit vector from tip to grip
};

ImVec2 plus(ImVec2 a, ImVec2 b, float times) {
  return {a.x + b.x * times, a.y + b.y * times};
}

float distance(ImVec2 a, ImVec2 b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

LeadEnd lead_end(ImVec2 tip, ImVec2 from, float lean) {
  const float angle = std::atan2(from.y - tip.y, from.x - tip.x) + lean;
  const ImVec2 along{std::cos(angle), std::sin(angle)};
  return {tip, plus(tip, along, probe_to_px + 10), along};
}

Rect tag_of(const LeadEnd& end, const LeadLook& look) {
  return {end.tag.x - look.tag_width / 2, end.tag.y - 9, look.tag_width, 18};
}

bool covers_a_disc(const Projection& projection, const Rect& tag, TestPoint own) {
  for (const TestPoint point : all_test_points()) {
    if (point != own && tag.inset(-disc_radius_px - 1).holds(projection.to_screen(place_of(point).disc))) return true;
  }
  return false;
}

/// The probe on a point, leaning as it likes to unless its grip would then hide another number.
LeadEnd landed_end(const Projection& projection, TestPoint point, ImVec2 from, const LeadLook& look) {
  const ImVec2 tip = projection.to_screen(place_of(point).disc);
  constexpr std::array further_rad{0.0F, 0.4F, -0.4F, 0.8F, -0.8F, 1.2F, -1.2F, 1.6F, -1.6F, 2.2F, -2.2F};
  for (const float further : further_rad) {
    const LeadEnd end = lead_end(tip, from, look.lean_rad + further);
    if (!covers_a_disc(projection, tag_of(end, look), point)) return end;
  }
  return lead_end(tip, from, look.lean_rad);
}

std::optional<TestPoint> landed(const Session& session, Pick pick) {
  return pick == Pick::red ? session.meter().red() : session.meter().black();
}

ImVec2 entry_of(const Projection& projection, ImVec2 place) {
  return {projection.picture().right(), projection.to_screen(place).y};
}

LeadEnd end_of(const Session& session, const BayState& state, const Projection& projection, Pick pick) {
  const bool red = pick == Pick::red;
  const ImVec2 from = entry_of(projection, red ? parked.red_from : parked.black_from);
  const LeadLook& look = red ? red_look : black_look;
  if (state.dragged == pick) return lead_end(ImGui::GetIO().MousePos, from, look.lean_rad);
  if (const auto point = landed(session, pick)) return landed_end(projection, *point, from, look);
  LeadEnd end;
  end.tag = projection.to_screen(red ? parked.red : parked.black);
  end.along = {0, 1};
  end.tip = plus(end.tag, end.along, -(probe_to_px + 10));
  return end;
}

void draw_curve(ImVec2 a, ImVec2 b, ImVec2 c, ImVec2 d, const LeadLook& look) {
  sheet().AddBezierCubic(a, b, c, d, ink::paper, 8.0F, 40);
  sheet().AddBezierCubic(a, b, c, d, look.colour, 4.5F, 40);
  if (!look.banded) return;
  constexpr int pieces = 64;
  ImVec2 last = a;
  for (int i = 1; i <= pieces; ++i) {
    const float t = static_cast<float>(i) / pieces, u = 1 - t;
    const ImVec2 at{u * u * u * a.x + 3 * u * u * t * b.x + 3 * u * t * t * c.x + t * t * t * d.x,
                    u * u * u * a.y + 3 * u * u * t * b.y + 3 * u * t * t * c.y + t * t * t * d.y};
    if (i % 3 == 0) sheet().AddLine(last, at, ink::paper, 1.6F);
    last = at;
  }
}

void draw_probe(const LeadEnd& end, const LeadLook& look, bool on_disc) {
  const float from = on_disc ? probe_from_px : 0.0F;
  sheet().AddLine(plus(end.tip, end.along, from), plus(end.tip, end.along, probe_to_px), ink::paper, 9.0F);
  sheet().AddLine(plus(end.tip, end.along, from), plus(end.tip, end.along, from + 8), ink::ink, 2.5F);
  sheet().AddLine(plus(end.tip, end.along, from + 7), plus(end.tip, end.along, probe_to_px + 6), look.colour, 6.0F);
  if (on_disc) {
    sheet().AddCircle(end.tip, disc_radius_px + 1.5F, ink::paper, 0, 6.0F);
    sheet().AddCircle(end.tip, disc_radius_px + 1.5F, look.colour, 0, 3.5F);
  }
  const Rect tag = tag_of(end, look);
  const Rect casing = tag.inset(-2);
  sheet().AddRectFilled(casing.min(), casing.max(), ink::paper);
  sheet().AddRectFilled(tag.min(), tag.max(), look.colour);
  text_in(tag, Type::small_bold, ink::on_dark, look.tag, Align::centre);
}

bool in_use(const Session& session, const BayState& state, Pick pick) {
  return state.dragged == pick || landed(session, pick).has_value();
}

void draw_wire(const Session& session, const BayState& state, const Projection& projection, Pick pick) {
  const bool red = pick == Pick::red;
  const LeadEnd end = end_of(session, state, projection, pick);
  const ImVec2 entry = entry_of(projection, red ? parked.red_from : parked.black_from);
  const bool used = in_use(session, state, pick);
  const float reach = used ? 0.35F * distance(end.tag, entry) : 14.0F;
  draw_curve(end.tag, plus(end.tag, end.along, reach), {entry.x - reach * 1.2F, entry.y + (used ? 40.0F : 26.0F)},
             entry, red ? red_look : black_look);
}

void draw_grip(const Session& session, const BayState& state, const Projection& projection, Pick pick) {
  const LeadEnd end = end_of(session, state, projection, pick);
  const bool on_disc = in_use(session, state, pick) && state.dragged != pick;
  draw_probe(end, pick == Pick::red ? red_look : black_look, on_disc);
}

ImVec2 jaw_on_screen(const Session& session, const BayState& state, const Projection& projection) {
  if (state.dragged == Pick::clamp) return ImGui::GetIO().MousePos;
  const auto round = session.clamp().round();
  return projection.to_screen(round ? jaw_place(*round) : parked.jaw);
}

void draw_jaw_wire(const Session& session, const BayState& state, const Projection& projection) {
  const ImVec2 at = jaw_on_screen(session, state, projection), entry = entry_of(projection, parked.jaw_from);
  // Hung up, its lead lies on the shelf and leaves the words under it alone.
  const bool used = state.dragged == Pick::clamp || session.clamp().round().has_value();
  const float reach = used ? 0.3F * distance(at, entry) : 14.0F;
  const ImVec2 grip{at.x, at.y + 26}, below{at.x, at.y + 26 + reach},
      before{entry.x - reach, entry.y + (used ? 30.0F : 8.0F)};
  sheet().AddBezierCubic(grip, below, before, entry, ink::paper, 5.0F, 40);
  sheet().AddBezierCubic(grip, below, before, entry, ink::instrument, 2.0F, 40);
}

void draw_jaw(const Session& session, const BayState& state, const Projection& projection) {
  const ImVec2 at = jaw_on_screen(session, state, projection);
  sheet().AddCircle(at, 16, ink::paper, 0, 10.0F);
  sheet().AddCircle(at, 16, ink::instrument, 0, 6.0F);
  sheet().AddLine({at.x, at.y - 20}, {at.x, at.y - 12}, ink::paper, 2.0F);  // where the jaws part
  const Rect grip{at.x - 11, at.y + 15, 22, 18};
  sheet().AddRectFilled(grip.inset(-2).min(), grip.inset(-2).max(), ink::paper);
  sheet().AddRectFilled(grip.min(), grip.max(), ink::instrument);
  text_in(grip, Type::small_bold, ink::amber, "A", Align::centre);
}

void draw_shelf(const Projection& projection) {
  const ImVec2 left = projection.to_screen(ImVec2{776, 502}), right = projection.to_screen(ImVec2{930, 502});
  rule_across(left.x, right.x, left.y, ink::edge, 2.0F);
  text_in({left.x, left.y + 2, right.x - left.x, 18}, Type::small, ink::ink_soft, "drag leads and clamp", Align::right);
}

std::optional<Pick> pick_at(const Session& session, const BayState& state, const Projection& projection, ImVec2 mouse) {
  const auto near_grip = [&](Pick pick, float half_width) {
    const ImVec2 tag = end_of(session, state, projection, pick).tag;
    return Rect{tag.x - half_width, tag.y - 14, 2 * half_width, 28}.holds(mouse);
  };
  if (near_grip(Pick::red, 14)) return Pick::red;
  if (near_grip(Pick::black, 22)) return Pick::black;
  const ImVec2 jaw = jaw_on_screen(session, state, projection);
  if (Rect{jaw.x - 18, jaw.y - 18, 36, 52}.holds(mouse)) return Pick::clamp;
  return std::nullopt;
}

void land(const Session& session, BayState& state, Wishes& wishes, const Projection& projection, ImVec2 mouse) {
  const Pick pick = state.dragged;
  state.dragged = Pick::nothing;
  if (!projection.picture().holds(mouse)) return;  // dropped outside the picture: it goes back
  if (pick == Pick::clamp) {
    wishes.act(PutClamp{cable_at(projection, mouse)});
    return;
  }
  const bool red = pick == Pick::red;
  state.walking = pick;
  if (const auto point = point_at(projection, mouse)) {
    wishes.act(PutProbe{red, point});
    state.chosen = point;
  } else if (const auto crowded = crowded_place_at(projection, mouse)) {
    state.close_up = crowded;
    state.dragged = pick;
    state.carried = true;
  } else if (landed(session, pick)) {
    wishes.act(PutProbe{red, std::nullopt});
  }
}

}  // namespace

std::optional<HeavyCable> cable_at(const Projection& projection, ImVec2 pixel) {
  const auto component = component_at(projection.to_drawing(pixel), StartSwitch::neutral);
  if (component == "positive_cable") return HeavyCable::positive;
  if (component == "starter_cable") return HeavyCable::starter;
  if (component == "negative_cable") return HeavyCable::negative;
  if (component == "body_strap") return HeavyCable::body_strap;
  return std::nullopt;
}

std::optional<int> crowded_place_at(const Projection& projection, ImVec2 pixel) {
  const auto places = crowded_places();
  for (std::size_t i = 0; i < places.size(); ++i) {
    const ImVec2 middle = projection.to_screen(places[i].middle);
    if (distance(middle, pixel) < places[i].radius * projection.scale()) return static_cast<int>(i);
  }
  return std::nullopt;
}

void draw_lead_wires(const Session& session, const BayState& state, const Projection& projection) {
  draw_shelf(projection);
  draw_jaw_wire(session, state, projection);
  draw_wire(session, state, projection, Pick::black);
  draw_wire(session, state, projection, Pick::red);
}

void draw_lead_grips(const Session& session, const BayState& state, const Projection& projection) {
  draw_jaw(session, state, projection);
  draw_grip(session, state, projection, Pick::black);
  draw_grip(session, state, projection, Pick::red);
}

void handle_leads(const Session& session, BayState& state, Wishes& wishes, const Projection& projection) {
  const ImGuiIO& io = ImGui::GetIO();
  if (state.dragged == Pick::nothing) {
    const bool pressed = io.MouseClicked[0] && state.hands.over(projection.picture()) && !aiming_kit(state);
    if (!pressed) return;
    if (const auto pick = pick_at(session, state, projection, io.MousePos)) {
      state.dragged = *pick;
      state.carried = false;
    }
    return;
  }
  if (ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false)) {
    state.dragged = Pick::nothing;
    return;
  }
  if (!io.MouseReleased[0]) return;
  constexpr float still_px = 6;
  const bool moved = io.MouseDragMaxDistanceSqr[0] > still_px * still_px;
  if (!moved && !state.carried) {
    state.carried = true;
    return;
  }
  state.carried = false;
  land(session, state, wishes, projection, io.MousePos);
}

}  // namespace voltfall
