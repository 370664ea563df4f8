#include "desktop/bay/picture.h"

#include "desktop/bay/entry.h"
#include "desktop/bay/hung.h"
#include "desktop/bay/leads.h"
#include "desktop/bay/notes.h"
#include "desktop/bay/points.h"
#include "desktop/style/draw.h"
#include "desktop/vehicle_kind.h"

namespace voltfall {
namespace {

/// Right click, or a click on metal: looking closely, choosing a point, opening a close-up.
void handle_clicks(const Session& session, BayState& state, Wishes& wishes, const Projection& projection,
                   const Rect& notes) {
  const ImGuiIO& io = ImGui::GetIO();
  if (!state.hands.over(projection.picture()) || notes.holds(io.MousePos)) return;
  if (io.MouseClicked[1]) {
    const auto component = component_at(projection.to_drawing(io.MousePos), start_switch_of(session.scenario()));
    if (component) wishes.act(LookClosely{std::string(*component)});
  }
  if (!io.MouseClicked[0] || state.dragged != Pick::nothing) return;
  if (const auto device = hung_under(session, projection, io.MousePos)) {
    state.in_hand = kit_of(*device);
    return;
  }
  state.chosen = point_at(projection, io.MousePos);
  if (state.chosen && aiming_kit(state)) return land_on(state, wishes, *state.chosen);
  if (!state.chosen) state.close_up = crowded_place_at(projection, io.MousePos);
}

}  // namespace

void draw_picture(const Session& session, const Wording& words, const VehicleLook& look, BayState& state,
                  Wishes& wishes, const Rect& zone) {
  ruled_zone(zone);
  const Rect inside = zone.inset(1);
  const Projection projection(inside);
  const Rect notes{inside.x + gap_16, inside.bottom() - notes_height - 2, notes_width, notes_height};
  sheet().PushClipRect(inside.min(), inside.max(), true);
  draw_vehicle(look, projection);
  state.pointed.reset();
  if (state.hands.over(inside)) state.pointed = point_at(projection, ImGui::GetIO().MousePos);
  const bool aiming = aiming_kit(state) || state.dragged == Pick::red || state.dragged == Pick::black;
  draw_lead_wires(session, state, projection);
  draw_hung_leads(session, state, projection);
  draw_point_leaders(projection, session.controls().s_wire_on);
  if (state.names_shown) draw_all_point_names(projection, words);  // under the numbers: they stay readable
  draw_points(projection, aiming ? state.pointed : state.chosen);
  draw_hung_devices(session, state, projection);
  draw_lead_grips(session, state, projection);
  if (state.pointed && !state.names_shown) draw_point_name(projection, words, *state.pointed);
  draw_notes(session, words, state, wishes, notes);
  sheet().PopClipRect();
  handle_leads(session, state, wishes, projection);
  handle_clicks(session, state, wishes, projection, notes);
}

}  // namespace voltfall
