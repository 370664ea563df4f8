#include <fmt/format.h>

#include <algorithm>

#include "desktop/closeout/pages.h"
#include "desktop/rail/paper_column.h"
#include "desktop/rail/rail_parts.h"
#include "desktop/style/draw.h"

namespace voltfall {

namespace {

constexpr float row_height = 28;
constexpr std::size_t most_evidence = 6;

/// By keyboard the way goes on at the findings, not down the rest of the list.
void choose(const Session& session, BayState& state, const std::string& fault_id) {
  CloseOutDraft& draft = state.close_out;
  state.hands.go_on_at(session.findings().empty() ? "close_out/seal" : "close_out/finding/1");
  if (std::find(draft.fault_ids.begin(), draft.fault_ids.end(), fault_id) == draft.fault_ids.end()) {
    draft.fault_ids.push_back(fault_id);
  }
  draft.words.clear();
}

void draw_completion(const Session& session, const Wording& words, BayState& state, Rect place) {
  CloseOutDraft& draft = state.close_out;
  const Rect field = place.cut_top(34);
  const bool entered = text_field(state.hands, "close_out/words", field, draft.words,
                                  "component and what is wrong, three letters or more");
  place.cut_top(gap_4);
  const auto names = names_for(words, draft.words);
  if (entered && names.size() == 1) return choose(session, state, names.front().id);
  PaperColumn column(state.hands, "close_out/names", place);
  column.below("close_out/words");
  if (names.empty()) {
    column.paragraph(
        Type::small, ink::ink_soft,
        draft.words.size() < 3 ? "Go on typing: three letters or more." : "The catalogue has no such name.");
  }
  for (const Nameable& name : names) {
    const std::string control = "close_out/name/" + name.id;
    const Rect row = column.row_for(control, row_height);
    if (list_row(state.hands, control, row, false)) choose(session, state, name.id);
    text_in(row.inset(gap_8, 0), Type::body, ink::ink, name.name);
  }
}

/// What has been chosen, each with a key to take it out again.
void draw_chosen(const Wording& words, BayState& state, Rect place) {
  auto& ids = state.close_out.fault_ids;
  if (ids.empty()) {
    text_in(place.cut_top(row_height), Type::body, ink::ink_soft, "nothing named yet");
    return;
  }
  KeyLook look;
  look.type = Type::small;
  for (std::size_t i = 0; i < ids.size(); ++i) {
    Rect row = place.cut_top(row_height).inset(0, 2);
    const Rect out = row.cut_right(76);
    text_in(row, Type::body_bold, ink::ink, words.fault(ids[i]));
    if (push_key(state.hands, "close_out/out/" + ids[i], out, "take out", look)) {
      ids.erase(ids.begin() + static_cast<std::ptrdiff_t>(i));
      return;
    }
  }
}

void toggle(std::vector<int>& evidence, int number) {
  const auto found = std::find(evidence.begin(), evidence.end(), number);
  if (found != evidence.end()) {
    evidence.erase(found);
  } else if (evidence.size() < most_evidence) {
    evidence.push_back(number);
  }
}

void draw_evidence(const Session& session, const Wording& words, BayState& state, Rect place) {
  auto& evidence = state.close_out.evidence;
  Rect heading = place.cut_top(24);
  text_in(heading.cut_right(80), Type::body, ink::ink, fmt::format("{} of {}", evidence.size(), most_evidence),
          Align::right);
  text_in(heading, Type::body_bold, ink::ink, "Findings that show it");
  rule_across(place.x, place.right(), place.y);
  place.cut_top(gap_4);
  PaperColumn column(state.hands, "close_out/evidence", place);
  if (session.findings().empty()) {
    column.paragraph(Type::body, ink::ink_soft,
                     "Nothing noted yet. A name without findings can be sealed, but nothing supports it.");
  }
  for (const Finding& finding : session.findings()) {
    const std::string id = fmt::format("close_out/finding/{}", finding.number);
    Rect row = column.row_for(id, row_height);
    const bool picked = std::find(evidence.begin(), evidence.end(), finding.number) != evidence.end();
    if (list_row(state.hands, id, row, picked)) toggle(evidence, finding.number);
    const Rect box_row = row.cut_left(28);
    const Rect box{box_row.x + gap_8, box_row.centre().y - 8, 16, 16};
    sheet().AddRect(box.min(), box.max(), ink::ink);
    if (picked) tick_mark(box.centre(), 12, ink::ink);
    draw_finding(finding, words, row);
  }
}

void seal(BayState& state, Wishes& wishes) {
  CloseOutDraft& draft = state.close_out;
  wishes.act(NameFault{draft.fault_ids, draft.evidence});
  draft = {};
  state.hands.go_on_at("close_out/repair_words");
}

}  // namespace

void draw_name_page(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place) {
  Rect rest = place;
  Rect foot = rest.cut_bottom(40);
  rest.cut_bottom(gap_8);
  Rect left = rest.cut_left((rest.w - gap_24) / 2);
  rest.cut_left(gap_24);
  const Rect chosen =
      left.cut_bottom(row_height * static_cast<float>(std::clamp<std::size_t>(state.close_out.fault_ids.size(), 1, 4)));
  text_in(left.cut_top(24), Type::body_bold, ink::ink, "Component and what is wrong with it");
  left.cut_bottom(gap_8);
  left.cut_top(gap_4);
  draw_completion(session, words, state, left);
  draw_chosen(words, state, chosen);
  draw_evidence(session, words, state, rest);

  KeyLook look;
  look.strong = true;
  look.enabled = !state.close_out.fault_ids.empty();
  if (push_key(state.hands, "close_out/seal", foot.cut_right(180), "Seal the name", look)) seal(state, wishes);
  foot.cut_right(gap_16);
  if (state.close_out.naming_again &&
      push_key(state.hands, "close_out/keep", foot.cut_right(180), "Keep the first name")) {
    state.close_out = {};
  }
  wrapped_text({foot.x, foot.y + 2}, foot.w, Type::small, ink::ink_soft,
               session.namings().empty()
                   ? "Sealed before the first repair. A later name is a second attempt and counts half."
                   : "This is a second attempt: it counts half.");
}

}  // namespace voltfall
