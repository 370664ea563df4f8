#include <fmt/format.h>

#include <array>

#include "desktop/rail/paper_column.h"
#include "desktop/rail/rail_parts.h"
#include "desktop/rail/rail_text.h"
#include "desktop/style/draw.h"
#include "faults/limit_keys.h"

namespace voltfall {

namespace {

void tick_row(PaperColumn& column, BayState& state, Wishes& wishes, std::string_view id, std::string_view label,
              bool on, const Action& toggled) {
  if (tick_key(state.hands, id, column.row_for(id, 26), label, on)) wishes.act(toggled);
}

void draw_gear(PaperColumn& column, const Session& session, BayState& state, Wishes& wishes) {
  constexpr std::array<std::string_view, 3> words{"Park", "Neutral", "Drive"};
  Rect row = column.row(30).inset(0, 2);
  text_in(row.cut_left(72), Type::small, ink::ink_soft, "gear");
  KeyLook look;
  look.type = Type::small;
  const int gear = static_cast<int>(session.controls().gear);
  const int chosen = choice_keys(state.hands, "safe/gear", row, words, gear, look);
  if (chosen != gear) wishes.act(ShiftGear{static_cast<Gear>(chosen)});
}

void draw_negative(PaperColumn& column, const Session& session, BayState& state, Wishes& wishes) {
  constexpr std::array<std::string_view, 2> words{"On the post", "Off"};
  Rect row = column.row(30).inset(0, 2);
  text_in(row.cut_left(72), Type::small, ink::ink_soft, "neg. clamp");
  KeyLook look;
  look.type = Type::small;
  const int now = session.controls().battery_connected ? 0 : 1;
  const int chosen = choice_keys(state.hands, "safe/negative", row, words, now, look);
  if (chosen != now) wishes.act(ConnectNegative{chosen == 0});
}

void draw_make_safe(PaperColumn& column, const Session& session, BayState& state, Wishes& wishes) {
  column.heading("Make safe");
  const bool eyes = session.eye_protection_on();
  const bool brake = session.brake_on();
  const bool disabled = !session.controls().ignition_live;
  tick_row(column, state, wishes, "safe/eyes", "Eye protection on", eyes, WearEyeProtection{!eyes});
  tick_row(column, state, wishes, "safe/brake", "Parking brake on", brake, SetBrake{!brake});
  tick_row(column, state, wishes, "safe/ignition", "Ignition lead off, fuel shut", disabled,
           DisableIgnition{!disabled});
  draw_gear(column, session, state, wishes);
  draw_negative(column, session, state, wishes);
}

void draw_limits(PaperColumn& column, const Scenario& scenario, const Wording& words) {
  column.heading("Limits for this vehicle");
  for (const LimitKey& key : all_limit_keys()) {
    const auto found = scenario.limits.find(std::string(key.id));
    if (found == scenario.limits.end()) continue;
    column.paragraph(Type::small, ink::ink_soft, words.limit(key.id));
    column.gap(-gap_4);
    text_in(column.row(20), Type::small, ink::ink, limit_text(found->second), Align::right);
  }
}

void draw_kit(PaperColumn& column, const Scenario& scenario) {
  column.heading("Kit");
  for (const Kit kit : scenario.kit) {
    column.paragraph(
        Type::small, ink::ink,
        kit == Kit::multimeter
            ? "Multimeter, 6000 counts: dc volts (10 M\u03A9) and ohms. New figure three times a second. "
              "Lowest and highest hold 50 ms means. Ohms in steps of 0.1 \u03A9, and only on a dead circuit."
            : "Clamp meter for dc amperes on any heavy cable: 0.1 A steps to 60 A, then 1 A. Zero it "
              "with the jaw in the air.");
  }
}

}  // namespace

void draw_work_order(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place) {
  const Scenario& scenario = session.scenario();
  PaperColumn column(state.hands, "work_order", place);
  column.paragraph(Type::small, ink::ink, fmt::format("\u201C{}\u201D", scenario.complaint));
  column.paragraph(Type::small, ink::ink_soft, scenario.setting);
  draw_make_safe(column, session, state, wishes);
  column.heading("Cautions");
  for (const std::string_view caution : words.cautions()) column.paragraph(Type::small, ink::ink, caution);
  draw_limits(column, scenario, words);
  draw_kit(column, scenario);
}

}  // namespace voltfall
