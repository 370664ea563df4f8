#include "desktop/closeout/close_out_sheet.h"

#include <array>

#include "desktop/closeout/pages.h"
#include "desktop/style/draw.h"

namespace voltfall {

namespace {

constexpr std::array<std::string_view, 3> steps{"1  Name it", "2  Repair and prove", "3  Hand back"};

constexpr double said_for_s = 12.0;

/// Where the job stands on its way through the sheet.
void draw_steps(const Rect& row, std::size_t at) {
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const Rect cell = cell_of(row, static_cast<int>(i), static_cast<int>(steps.size()), gap_8);
    const bool now = i == at;
    text_in(cell, now ? Type::body_bold : Type::body, now ? ink::ink : ink::ink_soft, steps[i]);
    rule_across(cell.x, cell.right(), cell.bottom() - 3, now ? ink::ink : ink::hairline, now ? 3.0F : 1.0F);
  }
}

}  // namespace

std::vector<Nameable> names_for(const Wording& words, std::string_view typed) {
  return typed.empty() ? words.namings() : words.complete(typed);
}

void draw_close_out(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place) {
  ruled_zone(place);
  Rect inside = place.inset(gap_24, gap_8);
  Rect top = inside.cut_top(40);
  text_in(top.cut_left(220), Type::heading, ink::ink, "Close-out");
  const bool naming = session.namings().empty() || state.close_out.naming_again;
  draw_steps(top, naming ? 0 : session.cranked_since_repair() && !session.repairs_done().empty() ? 2 : 1);
  const Rect said = inside.cut_top(2 * line_height(Type::small_bold) + gap_4);
  if (state.said_s_ago < said_for_s) wrapped_text(said.min(), said.w, Type::small_bold, ink::ink, state.said);
  if (naming) {
    draw_name_page(session, words, state, wishes, inside);
  } else {
    draw_repair_page(session, words, state, wishes, inside);
  }
}

}  // namespace voltfall
