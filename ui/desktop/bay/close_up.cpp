#include "desktop/bay/close_up.h"

#include <fmt/format.h>

#include <cmath>

#include "desktop/bay/entry.h"
#include "desktop/style/draw.h"

namespace voltfall {
namespace {

constexpr float enlarged = 3.0F;
constexpr float surface_reach_px = 44;

void draw_surface(const Projection& projection, TestPoint point) {
  const ImVec2 metal = projection.to_screen(place_of(point).metal);
  const ImVec2 out = projection.to_screen(place_of(point).disc);
  const float length = std::max(1.0F, std::hypot(out.x - metal.x, out.y - metal.y));
  constexpr float leader_px = 64;
  const ImVec2 disc{metal.x + (out.x - metal.x) / length * leader_px, metal.y + (out.y - metal.y) / length * leader_px};
  sheet().AddLine(disc, metal, ink::paper, 4.0F);
  sheet().AddLine(disc, metal, ink::ink, 1.5F);
  sheet().AddCircleFilled(metal, 5, ink::paper);
  sheet().AddCircleFilled(metal, 3.5F, ink::ink);
  sheet().AddCircleFilled(disc, disc_radius_px + 1, ink::paper);
  sheet().AddCircle(disc, disc_radius_px, ink::ink, 0, 1.5F);
  text_in({disc.x - 12, disc.y - 12.5F, 24, 24}, Type::callout, ink::ink, std::to_string(number_of(point)),
          Align::centre);
}

void put(BayState& state, Wishes& wishes, bool red, TestPoint point) {
  wishes.act(PutProbe{red, point});
  state.chosen = point;
  state.walking = red ? Pick::red : Pick::black;
  state.dragged = Pick::nothing;
  state.carried = false;
  state.close_up.reset();
}

void draw_choices(const Session& session, const Wording& words, BayState& state, Wishes& wishes, Rect column,
                  TestPoint point) {
  text_in(column.cut_top(24), Type::body_bold, ink::ink, fmt::format("{}  {}", number_of(point), words.point(point)));
  const std::string id = "close_up/" + std::string(id_of(point));
  const Rect keys = column.cut_top(32);
  if (aiming_kit(state)) {
    if (!push_key(state.hands, id + "/kit", keys, entry_subject(words, state) + " here")) return;
    state.close_up.reset();
    return land_on(state, wishes, point);
  }
  KeyLook red, black;
  red.selected = session.meter().red() == point;
  black.selected = session.meter().black() == point;
  if (push_key(state.hands, id + "/red", cell_of(keys, 0, 2, gap_8), "Red + here", red))
    put(state, wishes, true, point);
  if (push_key(state.hands, id + "/black", cell_of(keys, 1, 2, gap_8), "Black COM here", black)) {
    put(state, wishes, false, point);
  }
}

/// A lead in the hand: the surface that is clicked takes it.
void land_in_view(BayState& state, Wishes& wishes, const Projection& projection, const CrowdedPlace& place) {
  const bool carrying = state.dragged == Pick::red || state.dragged == Pick::black;
  const ImVec2 mouse = ImGui::GetIO().MousePos;
  if (!carrying || !ImGui::GetIO().MouseClicked[0] || !projection.picture().holds(mouse)) return;
  const auto away = [&](TestPoint point) {
    const ImVec2 metal = projection.to_screen(place_of(point).metal);
    return std::hypot(metal.x - mouse.x, metal.y - mouse.y);
  };
  const TestPoint nearer = away(place.stud) < away(place.lug) ? place.stud : place.lug;
  if (away(nearer) <= surface_reach_px) put(state, wishes, state.dragged == Pick::red, nearer);
}

}  // namespace

std::optional<int> crowded_place_of(TestPoint point) {
  const auto places = crowded_places();
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (places[i].stud == point || places[i].lug == point) return static_cast<int>(i);
  }
  return std::nullopt;
}

void draw_close_up(const Session& session, const Wording& words, const VehicleLook& look, BayState& state,
                   Wishes& wishes, const Rect& picture) {
  const CrowdedPlace& place = crowded_places()[static_cast<std::size_t>(*state.close_up)];
  const ImVec2 middle = picture.centre();
  Rect page{middle.x - 380, middle.y - 190, 760, 380};
  ruled_zone(page);
  sheet().AddRect(page.min(), page.max(), ink::ink, 0, ImDrawFlags_None, 3.0F);
  page = page.inset(gap_16);
  Rect column = page.cut_right(320);
  page.w -= gap_16;
  const Projection projection(page, place.middle, enlarged * Projection(picture).scale());
  sheet().PushClipRect(page.min(), page.max(), true);
  draw_vehicle(look, projection);
  draw_surface(projection, place.stud);
  draw_surface(projection, place.lug);
  sheet().PopClipRect();
  sheet().AddRect(page.min(), page.max(), ink::ink);

  text_in(column.cut_top(28), Type::heading, ink::ink, place.battery ? "Post or clamp?" : "Stud or lug?");
  const std::string why = place.battery
                              ? "Two surfaces with a joint between them. A reading on the post leaves the joint out; "
                                "a reading on the clamp takes it in."
                              : "Two surfaces with a joint between them. The lug is the cable's end; the stud "
                                "is the part it is bolted to.";
  column.cut_top(wrapped_text(column.min(), column.w, Type::body, ink::ink, why) + gap_16);
  draw_choices(session, words, state, wishes, column.cut_top(72), place.stud);
  draw_choices(session, words, state, wishes, column.cut_top(72), place.lug);
  if (state.dragged != Pick::nothing) {
    wrapped_text(column.min(), column.w, Type::body, ink::ink_soft, "A lead is in your hand: click the surface.");
  }
  const bool escaped = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false);
  if (push_key(state.hands, "close_up/close", column.cut_bottom(32), "Back to the vehicle  (Esc)") || escaped) {
    state.close_up.reset();
    state.dragged = Pick::nothing;
    return;
  }
  land_in_view(state, wishes, projection, place);
}

}  // namespace voltfall
