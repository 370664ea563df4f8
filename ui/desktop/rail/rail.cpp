#include "desktop/rail/rail.h"

#include <algorithm>
#include <array>

#include "desktop/rail/rail_parts.h"
#include "desktop/style/draw.h"

namespace voltfall {

namespace {

constexpr std::array<std::string_view, 3> tab_words{"Work order", "Findings", "Suspects"};

bool in_kit(const Session& session, Kit kit) {
  const auto& kits = session.scenario().kit;
  return std::find(kits.begin(), kits.end(), kit) != kits.end();
}

void draw_tab(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place) {
  switch (state.tab) {
    case RailTab::work_order:
      return draw_work_order(session, words, state, wishes, place);
    case RailTab::findings:
      return draw_findings(session, words, state, wishes, place);
    case RailTab::suspects:
      return draw_suspects(words, state, place);
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
  if (in_kit(session, Kit::multimeter)) {
    draw_meter(session, words, state, wishes, inside.cut_top(meter_height));
    inside.cut_top(gap_8);
  }
  if (in_kit(session, Kit::clamp_meter)) {
    draw_clamp(session, words, state, wishes, inside.cut_top(clamp_height));
    inside.cut_top(gap_8);
  }
  KeyLook look;
  look.type = Type::small;
  const int tab =
      choice_keys(state.hands, "rail/tab", inside.cut_top(28), tab_words, static_cast<int>(state.tab), look);
  state.tab = static_cast<RailTab>(tab);
  inside.cut_top(gap_4);
  const Rect close_out = inside.cut_bottom(36);
  inside.cut_bottom(gap_8);
  draw_tab(session, words, state, wishes, inside);
  draw_close_out_key(session, state, close_out);
}

}  // namespace voltfall
