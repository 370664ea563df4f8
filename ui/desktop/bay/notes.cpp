#include "desktop/bay/notes.h"

#include <fmt/format.h>

#include <cmath>

#include "desktop/bay/caption.h"
#include "desktop/bay/close_up.h"
#include "desktop/bay/entry.h"
#include "desktop/rail/rail_text.h"
#include "desktop/style/draw.h"
#include "desktop/vehicle_kind.h"

namespace voltfall {
namespace {

constexpr double said_lasts_s = 12.0;
constexpr double cooling_s = 120.0;

/// A mark that walks along a short rule while the relay chatters: movement without flashing.
void draw_chatter_mark(const Rect& row) {
  const double t = ImGui::GetTime() * 0.5;
  const float along = static_cast<float>(t - std::floor(t));
  rule_across(row.right() - 60, row.right(), row.centre().y, ink::edge, 1.0F);
  const float x = row.right() - 60 + 60 * along;
  sheet().AddRectFilled({x - 2, row.centre().y - 6}, {x + 2, row.centre().y + 6}, ink::ink);
}

void draw_caption(const Caption& caption, Rect row) {
  text_in(row.cut_left(112), Type::small, ink::ink_soft, "heard and seen");
  if (caption.chattering) draw_chatter_mark(row);
  text_in(row, Type::body_bold, ink::ink, caption.words);
}

void draw_warning(const Rect& row, std::string_view words, bool danger) {
  if (danger) sheet().AddRectFilled({row.x, row.y + 2}, {row.x + 4, row.bottom() - 2}, ink::danger);
  text_in(row.inset(danger ? 10.0F : 0.0F, 0), Type::small_bold, danger ? ink::danger : ink::ink, words);
}

/// What presses comes first, then what was just said, then the state that lasts.
void draw_said(const BayState& state, const Caption& caption, const std::optional<SheetState>& lasting,
               const Rect& row) {
  if (!caption.advice.empty()) return draw_warning(row, caption.advice, caption.danger);
  if (state.said_s_ago < said_lasts_s) return text_in(row, Type::small_bold, ink::ink, state.said);
  if (lasting) draw_warning(row, lasting->words, lasting->danger);
}

/// The one key that is the way out of what is the matter. True when there is one: it comes before the chosen point.
bool draw_way_out(const Session& session, const std::optional<SheetState>& lasting, BayState& state, Wishes& wishes,
                  Rect& row) {
  const KeyLook strong{.strong = true, .type = Type::small};
  if (is_hot(session) && session.controls().key != KeyPosition::start) {
    if (push_key(state.hands, "notes/cool", row.cut_right(132), "Let it cool, 2 min", strong)) {
      wishes.act(PassTime{cooling_s});
    }
  } else if (lasting && lasting->action && !state.chosen) {
    if (push_key(state.hands, "notes/way_out", row.cut_right(132), lasting->key, strong)) wishes.act(*lasting->action);
  } else {
    return false;
  }
  row.cut_right(gap_8);
  return true;
}

void draw_chosen(const Session& session, const Wording& words, BayState& state, Wishes& wishes, Rect row) {
  const TestPoint point = *state.chosen;
  KeyLook small;
  small.type = Type::small;
  const auto component = component_of(point, start_switch_of(session.scenario()));
  const auto crowded = crowded_place_of(point);
  KeyLook look = small;
  look.enabled = component.has_value();
  if (push_key(state.hands, "chosen/look", row.cut_right(56), "Look", look)) {
    wishes.act(LookClosely{std::string(*component)});
  }
  row.cut_right(gap_4);
  KeyLook close = small;
  close.enabled = crowded.has_value();
  if (push_key(state.hands, "chosen/close_up", row.cut_right(40), "3\u00D7", close)) state.close_up = crowded;
  row.cut_right(gap_4);
  KeyLook black = small, red = small;
  black.selected = session.meter().black() == point;
  red.selected = session.meter().red() == point;
  const auto put = [&](bool is_red) {
    const bool lift = is_red ? red.selected : black.selected;
    wishes.act(PutProbe{is_red, lift ? std::nullopt : std::optional(point)});
    state.walking = is_red ? Pick::red : Pick::black;
  };
  if (push_key(state.hands, "chosen/black", row.cut_right(82), "Black COM", black)) put(false);
  row.cut_right(gap_4);
  if (push_key(state.hands, "chosen/red", row.cut_right(56), "Red +", red)) put(true);
  row.cut_right(gap_8);
  text_in(row, Type::body, ink::ink, fmt::format("{}  {}", number_of(point), words.point_short(point)));
}

void draw_entry(const Wording& words, const BayState& state, const Rect& row) {
  sheet().AddRectFilled(row.min(), row.max(), ink::paper);
  sheet().AddRect(row.min(), row.max(), ink::focus, 0, ImDrawFlags_None, 3.0F);
  text_in(row.inset(gap_8, 0), Type::body, ink::ink, entry_text(words, state));
}

void draw_hint(const Session& session, const Rect& row) {
  const bool no_lead = !session.meter().red() && !session.meter().black();
  text_in(row, Type::small, ink::ink_soft,
          no_lead ? "Drag a lead to a number, or press R or B and type it. F1 lists the keys."
                  : "Click a number for its keys. N notes a reading. F1 lists the keys.");
}

}  // namespace

void draw_notes(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place) {
  const Caption caption = caption_of(session);
  Rect rest = place;
  sheet().AddRectFilled(rest.min(), rest.max(), ink::paper);  // leads pass behind the words
  rule_across(rest.x, rest.right(), rest.y, ink::ink);
  rest.cut_top(2);
  draw_caption(caption, rest.cut_top(24));
  const auto lasting = sheet_state(session, words);
  draw_said(state, caption, lasting, rest.cut_top(24));
  rest.cut_top(gap_4);
  Rect row = rest.cut_top(30);
  const bool way_out = draw_way_out(session, lasting, state, wishes, row);
  if (state.typed != Pick::nothing) {
    draw_entry(words, state, row);
  } else if (way_out) {
    return;
  } else if (state.chosen) {
    draw_chosen(session, words, state, wishes, row);
  } else {
    draw_hint(session, row);
  }
}

}  // namespace voltfall
