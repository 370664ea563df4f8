#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "desktop/closeout/pages.h"
#include "desktop/rail/paper_column.h"
#include "desktop/rail/rail_parts.h"
#include "desktop/rail/rail_text.h"
#include "desktop/style/draw.h"
#include "faults/catalogue.h"

namespace voltfall {

namespace {

constexpr float row_height = 28;

std::string lower(std::string_view words) {
  std::string result(words);
  for (char& letter : result) letter = static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
  return result;
}

double price_of(const Repair& repair, const Scenario& scenario) {
  const auto own = scenario.part_prices.find(std::string(repair.id));
  return own != scenario.part_prices.end() ? own->second : repair.parts_price;
}

void draw_repair_row(const Repair& repair, const Wording& words, const Scenario& scenario, Rect row) {
  row = row.inset(gap_8, 0);
  text_in(row.cut_right(56), Type::small, ink::ink,
          fmt::format("{:.0f} {}", price_of(repair, scenario), scenario.currency), Align::right);
  text_in(row.cut_right(56), Type::small, ink::ink, fmt::format("{:.0f} min", repair.minutes), Align::right);
  row.cut_right(gap_8);
  text_in(row, Type::small, ink::ink, words.repair(repair.id));
}

void draw_repairs(const Session& session, const Wording& words, BayState& state, Rect place) {
  CloseOutDraft& draft = state.close_out;
  text_field(state.hands, "close_out/repair_words", place.cut_top(34), draft.repair_words, "type to shorten the list");
  place.cut_top(gap_4);
  PaperColumn column(state.hands, "close_out/repairs", place);
  column.below("close_out/repair_words");
  const std::string typed = lower(draft.repair_words);
  for (const Repair& repair : all_repairs()) {
    if (lower(words.repair(repair.id)).find(typed) == std::string::npos) continue;
    const std::string id = "close_out/repair/" + std::string(repair.id);
    const Rect row = column.row_for(id, row_height);
    if (list_row(state.hands, id, row, draft.repair_id == repair.id)) {
      draft.repair_id = repair.id;
      state.hands.go_on_at("close_out/do");
    }
    draw_repair_row(repair, words, session.scenario(), row);
  }
}

/// What has to be done at the key or the clamp before the chosen repair, or after the last one.
struct HandWork {
  std::string_view label;
  Action action;
};

std::optional<HandWork> next_hand_work(const Session& session, const Repair* chosen) {
  const Controls& controls = session.controls();
  if (chosen != nullptr && controls.key != KeyPosition::off) {
    return HandWork{"turn the key off first", TurnKey{KeyPosition::off}};
  }
  if (chosen != nullptr && chosen->needs_negative_off && controls.battery_connected) {
    return HandWork{"take the negative clamp off first", ConnectNegative{false}};
  }
  if (chosen == nullptr && !session.repairs_done().empty() && !controls.battery_connected) {
    return HandWork{"put the negative clamp on again", ConnectNegative{true}};
  }
  return std::nullopt;
}

/// By keyboard the focus goes along with the work: clamp off, repair, clamp on, back to the vehicle.
void follow_the_work(Hands& hands, bool hand_work, bool chosen) {
  if (!hands.focused("close_out/before") && !hands.focused("close_out/do")) return;
  const std::string_view there = hand_work ? "close_out/before" : chosen ? "close_out/do" : "rail/close_out";
  if (!hands.focused(there)) hands.go_on_at(there);
}

void draw_repair_key(const Session& session, BayState& state, Wishes& wishes, Rect foot) {
  const auto& repair_id = state.close_out.repair_id;
  const Repair* chosen = repair_id ? repair_named(*repair_id) : nullptr;
  const auto before = next_hand_work(session, chosen);
  follow_the_work(state.hands, before.has_value(), chosen != nullptr);
  const KeyLook look{.enabled = chosen != nullptr, .strong = !before};
  if (push_key(state.hands, "close_out/do", foot.cut_right(160), "Do this repair", look)) {
    wishes.act(DoRepair{*repair_id});
  }
  foot.cut_right(gap_8);
  if (before) {
    const KeyLook strong{.strong = true, .type = Type::small};
    if (push_key(state.hands, "close_out/before", foot.inset(0, 4), before->label, strong)) wishes.act(before->action);
  } else if (chosen == nullptr && session.repairs_done().empty()) {
    text_in(foot, Type::small, ink::ink_soft, "Press the repair that cures what you named.");
  }
}

void draw_named(const Session& session, const Wording& words, PaperColumn& column) {
  column.heading("Named");
  for (const Naming& naming : session.namings()) {
    for (const std::string& id : naming.fault_ids) column.paragraph(Type::body, ink::ink, words.fault(id));
  }
  if (session.repairs_done().empty()) return;
  column.heading("Done");
  for (const std::string& id : session.repairs_done()) column.paragraph(Type::body, ink::ink, words.repair(id));
}

/// The latest finding between the same points after the repair; null when it was not read again.
const Finding* read_again(const Session& session, const Finding& before) {
  const Finding* again = nullptr;
  for (const Finding& finding : session.findings()) {
    if (finding.after_repair && finding.is_reading() && finding.kind == before.kind && before.red && before.black &&
        finding.is_between(*before.red, *before.black) && finding.state == before.state) {
      again = &finding;
    }
  }
  return again;
}

void proof_row(PaperColumn& column, bool done, std::string_view words) {
  Rect row = column.row(24);
  const Rect box = row.cut_left(28);
  const Rect square{box.x, box.centre().y - 8, 16, 16};
  sheet().AddRect(square.min(), square.max(), ink::ink);
  if (done) tick_mark(square.centre(), 12, ink::ink);
  text_in(row, Type::body, ink::ink, words);
}

void draw_proof(const Session& session, const Wording& words, PaperColumn& column) {
  column.heading("Prove it");
  column.paragraph(Type::small, ink::ink_soft,
                   "On the vehicle: note again what failed, in the same state, and crank. Connect the battery first.");
  if (session.namings().empty()) return;
  for (const int number : session.namings().back().evidence) {
    const Finding& before = session.findings().at(static_cast<std::size_t>(number - 1));
    if (!before.red || !before.black) continue;
    const Finding* again = read_again(session, before);
    const std::string pair =
        fmt::format("{}\u2013{} {}", number_of(*before.red), number_of(*before.black), words.state(before.state));
    proof_row(column, again != nullptr,
              again ? fmt::format("{}: {}, was {}", pair, figure_text(*again), figure_text(before)) : pair + ", again");
  }
  proof_row(column, session.cranked_since_repair(), "crank: the engine turns as it should");
}

void draw_hand_back(const Session& session, BayState& state, Wishes& wishes, Rect foot) {
  CloseOutDraft& draft = state.close_out;
  const KeyLook strong{.strong = session.cranked_since_repair() && !session.repairs_done().empty()};
  const std::string_view label = draft.hand_back_asked ? "Press again: it ends the job" : "Hand the vehicle back";
  if (push_key(state.hands, "close_out/hand_back", foot.cut_right(232), label, strong)) {
    if (draft.hand_back_asked) {
      if (session.controls().key != KeyPosition::off) wishes.act(TurnKey{KeyPosition::off});
      wishes.act(CloseJob{});
      state.debrief_open = true;
    }
    draft.hand_back_asked = !draft.hand_back_asked;
  }
  foot.cut_right(gap_8);
  KeyLook small;
  small.type = Type::small;
  if (push_key(state.hands, "close_out/again", foot.cut_right(104), "Name again", small)) draft.naming_again = true;
}

}  // namespace

void draw_repair_page(const Session& session, const Wording& words, BayState& state, Wishes& wishes,
                      const Rect& place) {
  Rect left = place;
  Rect right = left.cut_right(352);
  left.cut_right(gap_24);
  const Rect left_foot = left.cut_bottom(40);
  left.cut_bottom(gap_8);
  const Rect right_foot = right.cut_bottom(40);
  right.cut_bottom(gap_8);
  text_in(left.cut_top(24), Type::body_bold, ink::ink, "Repair only what you named");
  left.cut_top(gap_4);
  draw_repairs(session, words, state, left);
  draw_repair_key(session, state, wishes, left_foot);
  {
    PaperColumn column(state.hands, "close_out/proof", right);
    draw_named(session, words, column);
    draw_proof(session, words, column);
  }
  draw_hand_back(session, state, wishes, right_foot);
}

}  // namespace voltfall
