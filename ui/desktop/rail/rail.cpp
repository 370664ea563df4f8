#include "desktop/rail/rail.h"

#include <array>

#include "desktop/kit/kit_parts.h"
#include "desktop/rail/rail_parts.h"
#include "desktop/style/draw.h"

namespace voltfall {

namespace {

constexpr std::array<std::string_view, 4> tab_words{"Work order", "Findings", "Suspects", "Kit"};

void draw_tab(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place) {
  switch (state.tab) {
    case RailTab::work_order:
      return draw_work_order(session, words, state, wishes, place);
    case RailTab::findings:
      return draw_findings(session, words, state, wishes, place);
    case RailTab::suspects:
      return draw_suspects(session, words, state, wishes, place);
    case RailTab::kit:
      return draw_kit_tab(session, words, state, wishes, place);
  }
}

void draw_tab_keys(BayState& state, const Rect& row) {
  const auto cells = cells_by_words(row, Type::small_bold, tab_words);
  for (std::size_t i = 0; i < tab_words.size(); ++i) {
    KeyLook look;
    look.type = Type::small;
    look.selected = static_cast<std::size_t>(state.tab) == i;
    const std::string id = "rail/tab/" + std::to_string(i);
    if (push_key(state.hands, id, cells[i], tab_words.at(i), look)) state.tab = static_cast<RailTab>(i);
  }
}

void draw_close_out_key(const Session& session, BayState& state, const Rect& place) {
  KeyLook look;
  look.strong = !session.closed();
  const bool over = session.closed() ? state.debrief_open : state.close_out_open;
  const std::string_view label = over ? "Back to the vehicle" : session.closed() ? "Debrief" : "Close out";
  if (push_key(state.hands, "rail/close_out", place, label, look)) turn_close_out(session, state);
}

}  // namespace

void turn_close_out(const Session& session, BayState& state) {
  bool& open = session.closed() ? state.debrief_open : state.close_out_open;
  open = !open;
  state.close_out.hand_back_asked = false;
}

void draw_rail(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& zone) {
  ruled_zone(zone);
  Rect inside = zone.inset(gap_8);
  if (session.has_kit(Kit::multimeter)) {
    draw_meter(session, words, state, wishes, inside.cut_top(meter_height));
    inside.cut_top(gap_8);
  }
  if (const float height = face_height(session, state); height > 0) {
    draw_face(session, words, state, wishes, inside.cut_top(height));
    inside.cut_top(gap_8);
  }
  draw_tab_keys(state, inside.cut_top(28));
  inside.cut_top(gap_4);
  const Rect close_out = inside.cut_bottom(36);
  inside.cut_bottom(gap_8);
  draw_tab(session, words, state, wishes, inside);
  draw_close_out_key(session, state, close_out);
}

}  // namespace voltfall
