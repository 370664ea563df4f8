#include "desktop/fall_line/fall_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "desktop/fall_line/fall_lanes.h"
#include "desktop/style/draw.h"
#include "wording/wording.h"

namespace voltfall {

namespace {

constexpr std::array<std::string_view, 2> path_words{"Power", "Control"};

/// The set the latest reading went into.
std::size_t latest_set(const std::vector<FallSet>& sets) {
  const auto latest = std::max_element(
      sets.begin(), sets.end(), [](const FallSet& a, const FallSet& b) { return a.members.back() < b.members.back(); });
  return static_cast<std::size_t>(latest - sets.begin());
}

/// Keys to walk through the sets, when there are several.
void draw_set_keys(BayState& state, Rect& row, std::size_t shown, std::size_t count) {
  if (count < 2) return;
  KeyLook look;
  look.type = Type::small;
  look.enabled = shown > 0;
  if (push_key(state.hands, "fall/earlier", row.cut_left(24), "\u2190", look)) state.fall_set = shown - 1;
  const std::string words = fmt::format("set {} of {}", shown + 1, count);
  text_in(row.cut_left(text_width(Type::small, words) + gap_16), Type::small, ink::ink, words, Align::centre);
  look.enabled = shown + 1 < count;
  if (push_key(state.hands, "fall/later", row.cut_left(24), "\u2192", look)) state.fall_set = shown + 1;
  row.cut_left(gap_8);
}

void draw_title(BayState& state, Rect& row) {
  text_in(row.cut_left(76), Type::body_bold, ink::ink, "Fall line");
  KeyLook look;
  look.type = Type::small;
  const int path = state.fall_path == FallPath::power ? 0 : 1;
  const int chosen = choice_keys(state.hands, "fall/path", row.cut_left(136), path_words, path, look);
  state.fall_path = chosen == 0 ? FallPath::power : FallPath::control;
  row.cut_left(gap_16);
}

}  // namespace

std::string set_text(const FallSet& set) {
  std::string words(english().state(set.state));
  if (set.hold != MeterHold::none) words += set.hold == MeterHold::lowest ? ", lowest" : ", highest";
  if (set.headlamps) words += ", lamps on";
  if (set.after_repair) words += ", repaired";
  return words;
}

void draw_fall_line(const Session& session, BayState& state, const Rect& zone) {
  ruled_zone(zone);
  Rect inside = zone.inset(gap_16, gap_4);
  Rect row = inside.cut_top(24);
  draw_title(state, row);

  const auto& limits = session.scenario().limits;
  const auto sets = fall_sets(session.findings());
  if (sets.empty()) {
    text_in(row, Type::small, ink::ink_soft, "each voltage you note is drawn here: steps in volts, and a bar per leg");
    draw_fall_lanes(fall_line(state.fall_path, {}, {}, limits), limits, inside);
    return;
  }
  const std::size_t shown = std::min(state.fall_set.value_or(latest_set(sets)), sets.size() - 1);
  const FallLine line = fall_line(state.fall_path, sets[shown], session.findings(), limits);
  draw_set_keys(state, row, shown, sets.size());
  const std::string foot = foot_text(line);
  text_in(row.cut_right(text_width(Type::small, foot) + 1), Type::small, ink::ink, foot, Align::right);
  row.cut_right(gap_16);
  text_in(row, Type::small, ink::ink_soft, set_text(sets[shown]));
  draw_fall_lanes(line, limits, inside);
}

}  // namespace voltfall
