#include <fmt/format.h>

#include <array>

#include "desktop/rail/paper_column.h"
#include "desktop/rail/rail_parts.h"
#include "desktop/rail/rail_text.h"
#include "desktop/style/draw.h"
#include "desktop/vehicle_kind.h"
#include "faults/limit_keys.h"

namespace voltfall {

namespace {

constexpr float make_safe_height = 100;

/// Neutral or any gear, and the pedal.
void draw_manual_gear(const Session& session, BayState& state, Wishes& wishes, Rect row) {
  KeyLook look;
  look.type = Type::small;
  const bool down = session.controls().clutch_pedal_down;
  look.selected = down;
  if (push_key(state.hands, "safe/pedal", row.cut_right(48), "pedal", look)) wishes.act(MoveClutchPedal{!down});
  row.cut_right(gap_4);
  const bool in_gear = session.controls().gear == Gear::drive;
  look.selected = !in_gear;
  if (push_key(state.hands, "safe/neutral", row.cut_left(24), "N", look)) wishes.act(ShiftGear{Gear::neutral});
  row.cut_left(gap_4);
  look.selected = in_gear;
  if (push_key(state.hands, "safe/in_gear", row, "in gear", look)) wishes.act(ShiftGear{Gear::drive});
}

void draw_gear(const Session& session, BayState& state, Wishes& wishes, Rect row) {
  if (is_manual(session)) return draw_manual_gear(session, state, wishes, row);
  text_in(row.cut_left(36), Type::small, ink::ink_soft, "gear");
  KeyLook look;
  look.type = Type::small;
  constexpr std::array<std::string_view, 3> words{"P", "N", "D"};
  const int gear = static_cast<int>(session.controls().gear);
  const int chosen = choice_keys(state.hands, "safe/gear", row, words, gear, look);
  if (chosen != gear) wishes.act(ShiftGear{static_cast<Gear>(chosen)});
}

void draw_negative(const Session& session, BayState& state, Wishes& wishes, Rect row) {
  constexpr std::array<std::string_view, 2> words{"on", "off"};
  text_in(row.cut_left(100), Type::small, ink::ink_soft, "negative clamp");
  KeyLook look;
  look.type = Type::small;
  const int now = session.controls().battery_connected ? 0 : 1;
  const int chosen = choice_keys(state.hands, "safe/negative", row, words, now, look);
  if (chosen != now) wishes.act(ConnectNegative{chosen == 0});
}

/// Stays in sight under whatever the work order has to say: it is wanted first, and the clamp again at the repair.
void draw_make_safe(const Session& session, BayState& state, Wishes& wishes, Rect place) {
  text_in(place.cut_top(20), Type::small_bold, ink::ink, "Make safe");
  rule_across(place.x, place.right(), place.y, ink::ink);
  place.cut_top(gap_4);
  const bool eyes = session.eye_protection_on();
  const bool brake = session.brake_on();
  const bool disabled = !session.controls().ignition_live;
  const Rect first = place.cut_top(24);
  if (tick_key(state.hands, "safe/eyes", cell_of(first, 0, 2, gap_8), "Eye protection on", eyes)) {
    wishes.act(WearEyeProtection{!eyes});
  }
  if (tick_key(state.hands, "safe/brake", cell_of(first, 1, 2, gap_8), "Parking brake on", brake)) {
    wishes.act(SetBrake{!brake});
  }
  if (tick_key(state.hands, "safe/ignition", place.cut_top(24), "Ignition lead off, fuel shut", disabled)) {
    wishes.act(DisableIgnition{!disabled});
  }
  Rect levers = place.inset(0, 1);
  draw_gear(session, state, wishes, levers.cut_left(136));
  levers.cut_left(gap_8);
  draw_negative(session, state, wishes, levers);
}

void draw_limits(PaperColumn& column, const Scenario& scenario, const Wording& words) {
  column.heading("Limits for this vehicle");
  for (const LimitKey& key : all_limit_keys()) {
    const auto found = scenario.limits.find(std::string(key.id));
    if (found == scenario.limits.end()) continue;
    column.paragraph(Type::small, ink::ink_soft, words.limit(key.id));
    column.gap(-gap_4);
    text_in(column.row(20), Type::small, ink::ink, limit_text(key, found->second), Align::right);
  }
}

void draw_kit(PaperColumn& column, const Scenario& scenario, const Wording& words) {
  column.heading("Kit");
  for (const Kit kit : scenario.kit) {
    column.paragraph(Type::small, ink::ink, fmt::format("{}: {}", words.kit(kit), words.kit_about(kit)));
  }
}

}  // namespace

void draw_work_order(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place) {
  const Scenario& scenario = session.scenario();
  Rect rest = place;
  const Rect make_safe = rest.cut_bottom(make_safe_height);
  rest.cut_bottom(gap_4);
  draw_make_safe(session, state, wishes, make_safe);
  PaperColumn column(state.hands, "work_order", rest);
  column.paragraph(Type::small, ink::ink, fmt::format("\u201C{}\u201D", scenario.complaint));
  column.paragraph(Type::small, ink::ink_soft, scenario.setting);
  KeyLook key;
  key.type = Type::small;
  if (push_key(state.hands, "work_order/service_sheet", column.row_for("work_order/service_sheet", 28).inset(0, 1),
               "Service sheet: wiring, points, limits", key)) {
    state.service_sheet_open = true;
  }
  column.heading("Cautions");
  for (const std::string_view caution : words.cautions()) column.paragraph(Type::small, ink::ink, caution);
  draw_limits(column, scenario, words);
  draw_kit(column, scenario, words);
}

}  // namespace voltfall
