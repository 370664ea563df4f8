#include "desktop/bay/bar.h"

#include <fmt/format.h>

#include <array>

#include "desktop/style/draw.h"

namespace voltfall {
namespace {

constexpr std::array timed_s{2.0, 5.0, 10.0, 15.0};

void draw_key_row(const Session& session, BayState& state, Wishes& wishes, const Rect& row) {
  const KeyPosition key = session.controls().key;
  KeyLook look;
  look.selected = key == KeyPosition::off;
  if (push_key(state.hands, "key/off", cell_of(row, 0, 3, gap_8), "off", look)) wishes.act(TurnKey{KeyPosition::off});
  look.selected = key == KeyPosition::on;
  if (push_key(state.hands, "key/on", cell_of(row, 1, 3, gap_8), "on", look)) wishes.act(TurnKey{KeyPosition::on});
  look.selected = key == KeyPosition::start;
  look.type = Type::small;
  if (hold_key(state.hands, "key/crank", cell_of(row, 2, 3, gap_8), "crank: hold C", look)) state.crank_held = true;
}

void draw_timed_cranks(BayState& state, Rect row) {
  text_in(row.cut_left(76), Type::small, ink::ink_soft, "crank for", Align::left);
  for (std::size_t i = 0; i < timed_s.size(); ++i) {
    KeyLook look;
    look.type = Type::small;
    const Rect cell = cell_of(row, static_cast<int>(i), static_cast<int>(timed_s.size()), gap_4);
    const std::string label = fmt::format("{:.0f} s", timed_s[i]);
    if (push_key(state.hands, "timed/" + label, cell, label, look)) state.timed_crank_left_s = timed_s[i];
  }
}

}  // namespace

void draw_bar(const Session& session, BayState& state, Wishes& wishes, const Rect& zone) {
  ruled_zone(zone);
  Rect row = zone.inset(gap_16, gap_8);
  draw_key_row(session, state, wishes, row.cut_right(336 - 2 * gap_16));
  row.cut_right(2 * gap_16);
  if (push_key(state.hands, "bar/leave", row.cut_left(64), "Leave")) wishes.leave = true;
  row.cut_left(gap_16);
  draw_timed_cranks(state, row.cut_right(76 + 4 * 44));
  row.cut_right(gap_16);
  KeyLook lamps;
  lamps.selected = session.controls().headlamps;
  const std::string lamp_words = lamps.selected ? "Lamps on" : "Lamps off";
  if (push_key(state.hands, "bar/lamps", row.cut_right(96), lamp_words, lamps)) {
    wishes.act(SwitchHeadlamps{!session.controls().headlamps});
  }
  row.cut_right(gap_16);
  const Scenario& scenario = session.scenario();
  constexpr int first_walk_sheet = 100;
  const std::string number = scenario.sheet < first_walk_sheet ? fmt::format("Work order {}", scenario.sheet) : "Walk";
  text_in(row.cut_left(text_width(Type::heading, number) + gap_16), Type::heading, ink::ink, number);
  if (session.is_practice()) {
    constexpr std::string_view practice = "practice";
    text_in(row.cut_right(text_width(Type::small_bold, practice) + 1), Type::small_bold, ink::danger, practice);
    row.cut_right(gap_16);
  }
  text_in(row, Type::body, ink::ink, scenario.title);
}

}  // namespace voltfall
