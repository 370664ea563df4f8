#include <fmt/format.h>

#include <array>

#include "desktop/kit/kit_parts.h"
#include "desktop/kit/objects.h"
#include "desktop/rail/paper_column.h"
#include "desktop/style/draw.h"
#include "desktop/vehicle_kind.h"

namespace voltfall {
namespace {

constexpr float kit_row = 36, hand_row = 28;

std::string where_now(const Session& session, const BayState& state, Kit kit) {
  if (kit == Kit::multimeter) return "above";
  std::string hung;
  for (const Hung& one : session.hung()) {
    if (kit_of(one.device) != kit) continue;
    hung += fmt::format("{}{}\u2013{}", hung.empty() ? "" : ", ", number_of(one.first), number_of(one.last));
  }
  if (!hung.empty()) return hung;
  return state.in_hand == kit ? "in hand" : "";
}

void draw_kit_row(const Session& session, const Wording& words, BayState& state, PaperColumn& column, Kit kit) {
  const std::string id = fmt::format("kit/{}", id_of(kit));
  const bool can_be_taken = kit != Kit::multimeter;  // its own face is always there
  const Rect row = can_be_taken ? column.row_for(id, kit_row) : column.row(kit_row);
  const bool in_hand = can_be_taken && state.in_hand == kit;
  if (list_row(state.hands, id, row, in_hand, can_be_taken)) {
    state.in_hand = kit;
    state.recorder_open = kit == Kit::recorder;
  }
  Rect inside = row.inset(gap_8, 0);
  draw_kit_object(kit, inside.cut_left(object_width));
  inside.cut_left(gap_8);
  const std::string where = where_now(session, state, kit);
  text_in(inside.cut_right(text_width(Type::small, where) + 1), Type::small, ink::ink_soft, where, Align::right);
  text_in(inside, in_hand ? Type::body_bold : Type::body, ink::ink, words.kit(kit));
}

/// Something done by hand: the words of what pressing does now, and the action that does it.
struct HandRow {
  std::string_view id;
  std::string_view words;
  Action action;
};

std::vector<HandRow> hand_rows(const Session& session) {
  const Controls& now = session.controls();
  std::vector<HandRow> rows;
  if (is_manual(session)) {
    rows.push_back(
        {"hand/pedal", now.clutch_pedal_down ? "pedal_up" : "pedal_down", MoveClutchPedal{!now.clutch_pedal_down}});
  }
  rows.push_back({"hand/s_wire", now.s_wire_on ? "lift_s_wire" : "put_s_wire", LiftSWire{now.s_wire_on}});
  rows.push_back({"hand/bar", "bar_engine", BarEngine{}});
  rows.push_back({"hand/belt", now.belt_off ? "belt_on" : "belt_off", TakeBeltOff{!now.belt_off}});
  rows.push_back({"hand/plugs", now.plugs_out ? "plugs_in" : "plugs_out", TakePlugsOut{!now.plugs_out}});
  const bool off = session.starter_off();
  rows.push_back({"hand/starter", off ? "starter_on" : "starter_off", TakeStarterOff{!off}});
  rows.push_back({"hand/bridge", "bridge_studs", BridgeStuds{}});
  return rows;
}

void draw_hand_row(BayState& state, Wishes& wishes, PaperColumn& column, std::string_view id, std::string_view words,
                   const Action& action) {
  const Rect row = column.row_for(id, hand_row);
  if (list_row(state.hands, id, row, false)) wishes.act(action);
  text_in(row.inset(gap_8, 0), Type::body, ink::ink, words);
}

void draw_bench(const Wording& words, BayState& state, Wishes& wishes, PaperColumn& column) {
  constexpr std::array<std::string_view, 4> ids{"no_load", "hold_in", "clutch_torque", "brush_length"};
  column.heading("The starter on the bench");
  for (std::size_t i = 0; i < ids.size(); ++i) {
    draw_hand_row(state, wishes, column, fmt::format("bench/{}", ids.at(i)), words.bench(ids.at(i)),
                  TestOnBench{static_cast<BenchTest>(i)});
  }
}

}  // namespace

void draw_kit_tab(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place) {
  PaperColumn column(state.hands, "kit", place);
  for (const Kit kit : session.scenario().kit) draw_kit_row(session, words, state, column, kit);
  if (session.starter_off()) draw_bench(words, state, wishes, column);
  column.heading("Hands");
  for (const HandRow& row : hand_rows(session)) {
    draw_hand_row(state, wishes, column, row.id, words.hand(row.words), row.action);
  }
  Rect touch = column.row_for("hand/touch", hand_row);
  if (list_row(state.hands, "hand/touch", touch, false)) {
    state.tab = RailTab::findings;
    state.noting = Noting::look;
  }
  text_in(touch.inset(gap_8, 0), Type::body, ink::ink, "Look at, wiggle, press, tap or feel a part");
  const std::string_view about = session.has_kit(state.in_hand) ? words.kit_about(state.in_hand) : "";
  if (about.empty()) return;
  column.heading(words.kit(state.in_hand));
  column.paragraph(Type::small, ink::ink_soft, about);
}

}  // namespace voltfall
