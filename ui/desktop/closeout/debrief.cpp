#include <array>

#include "console/record_place.h"
#include "desktop/closeout/close_out_sheet.h"
#include "desktop/closeout/debrief_parts.h"
#include "desktop/style/draw.h"

namespace voltfall {

namespace {

constexpr std::array<std::string_view, 5> page_words{"Score", "Steps and par", "Suspects", "Volts",
                                                     "On a real vehicle"};

void draw_page_keys(BayState& state, const Rect& row) {
  KeyLook look;
  look.type = Type::small;
  const auto cells = cells_by_words(row, Type::small_bold, page_words);
  for (std::size_t i = 0; i < page_words.size(); ++i) {
    look.selected = static_cast<std::size_t>(state.debrief_page) == i;
    if (push_key(state.hands, "debrief/page/" + std::to_string(i + 1), cells[i], page_words.at(i), look)) {
      state.debrief_page = static_cast<DebriefPage>(i);
    }
  }
}

void draw_page(const DebriefContents& contents, const Wording& words, BayState& state, Wishes& wishes,
               const Rect& place) {
  switch (state.debrief_page) {
    case DebriefPage::score:
      return draw_score_page(contents, state.hands, place);
    case DebriefPage::steps:
      return draw_steps_page(contents, state, wishes, place);
    case DebriefPage::suspects:
      return draw_suspects_page(contents, state.hands, place);
    case DebriefPage::volts:
      return draw_fall_comparison(contents.falls, place);
    case DebriefPage::check:
      return draw_check_page(contents, words, state.hands, place);
  }
}

/// What follows a sealed job: nothing of its answer.
void draw_handed_back(const Wording& words, BayState& state, Wishes& wishes, Rect inside) {
  Rect top = inside.cut_top(40);
  if (push_key(state.hands, "debrief/leave", top.cut_right(160).inset(0, 4), "To the start page", {.strong = true}))
    wishes.leave = true;
  text_in(top, Type::heading, ink::ink, words.text("sealed.handed_back"));
  rule_across(inside.x, inside.right(), inside.y);
  inside.cut_top(gap_16);
  for (const std::string& line : what_follows_a_sealed_job(words, state.record)) {
    inside.cut_top(wrapped_text(inside.min(), std::min(inside.w, 720.0F), Type::body, ink::ink, line) + gap_8);
  }
}

}  // namespace

void draw_debrief(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place) {
  ruled_zone(place);
  state.close_out_open = false;
  if (!session.score()) return draw_handed_back(words, state, wishes, place.inset(gap_24, gap_8));
  if (!state.debrief) state.debrief = std::make_shared<const DebriefContents>(debrief_contents(session, words));
  const DebriefContents& contents = *state.debrief;
  Rect inside = place.inset(gap_24, gap_8);
  Rect top = inside.cut_top(40);
  if (push_key(state.hands, "debrief/leave", top.cut_right(160).inset(0, 4), "To the start page", {.strong = true}))
    wishes.leave = true;
  if (!state.record.empty()) {
    top.cut_right(gap_8);
    if (push_key(state.hands, "debrief/again", top.cut_right(120).inset(0, 4), "See it again")) wishes.see_again = 0;
  }
  text_in(top.cut_left(110), Type::heading, ink::ink, "Debrief");
  text_in(top, Type::heading, ink::ink, contents.verdict);
  draw_page_keys(state, inside.cut_top(28));
  inside.cut_top(gap_8);
  draw_page(contents, words, state, wishes, inside);
}

}  // namespace voltfall
