#include "desktop/closeout/debrief_parts.h"

#include <fmt/format.h>

namespace voltfall {

namespace {

struct Halves {
  Rect left, right;
};

Halves halved(const Rect& place) {
  Halves halves{place, {}};
  halves.right = halves.left.cut_right((place.w - gap_24) / 2);
  halves.left.cut_right(gap_24);
  return halves;
}

/// A mark, its words in bold, the reason under them.
void reasoned(PaperColumn& column, const DebriefPoint& point) {
  Rect row = column.row(22);
  const Rect mark = row.cut_left(24);
  if (point.held) {
    tick_mark({mark.x + 8, mark.centre().y}, 14, ink::ink);
  } else {
    const ImVec2 at{mark.x + 8, mark.centre().y};
    sheet().AddLine({at.x - 5, at.y - 5}, {at.x + 5, at.y + 5}, ink::danger, 2.5F);
    sheet().AddLine({at.x - 5, at.y + 5}, {at.x + 5, at.y - 5}, ink::danger, 2.5F);
  }
  text_in(row.cut_right(text_width(Type::body, point.figure) + 2), Type::body, ink::ink, point.figure, Align::right);
  text_in(row, Type::body_bold, ink::ink, point.head);
  column.paragraph(Type::small, ink::ink_soft, point.reason);
}

void draw_names(PaperColumn& column, const DebriefList& list) {
  column.heading(list.heading);
  for (const std::string& name : list.names) column.paragraph(Type::small, ink::ink, name);
}

}  // namespace

void draw_score_page(const DebriefContents& contents, Hands& hands, const Rect& place) {
  const Halves halves = halved(place);
  {
    PaperColumn column(hands, "debrief/left", halves.left);
    column.heading("What it was");
    for (const std::string& said : contents.what_it_was) column.paragraph(Type::body, ink::ink, said);
    column.heading("A pass is all four of these and 70 points");
    for (const DebriefPoint& gate : contents.gates) reasoned(column, gate);
  }
  PaperColumn column(hands, "debrief/right", halves.right);
  column.heading("Points");
  for (const DebriefPoint& line : contents.points) reasoned(column, line);
  column.heading("Safety");
  for (const std::string& mark : contents.safety) column.paragraph(Type::body, ink::ink, mark);
  if (contents.author.empty()) return;
  column.heading("From the author of this job");
  column.paragraph(Type::body, ink::ink, contents.author);
}

void draw_suspects_page(const DebriefContents& contents, Hands& hands, const Rect& place) {
  Rect rest = place;
  rest.cut_top(wrapped_text(rest.min(), rest.w, Type::body, ink::ink, contents.suspects_sum) + gap_4);
  const Halves halves = halved(rest);
  {
    PaperColumn column(hands, "debrief/suspects_left", halves.left);
    for (std::size_t i = 0; i + 1 < contents.suspects.size(); ++i) draw_names(column, contents.suspects[i]);
  }
  PaperColumn column(hands, "debrief/suspects_right", halves.right);
  draw_names(column, contents.suspects.back());
}

void draw_check_page(const DebriefContents& contents, const Wording& words, Hands& hands, const Rect& place) {
  const Halves halves = halved(place);
  {
    PaperColumn column(hands, "debrief/check_steps", halves.left);
    column.heading(words.text("debrief.check_title"));
    column.paragraph(Type::body_bold, ink::ink, words.text("debrief.check_first"));
    for (std::size_t i = 0; i < contents.check_steps.size(); ++i) {
      column.paragraph(Type::body, ink::ink, fmt::format("{}. {}", i + 1, contents.check_steps[i]));
    }
    column.paragraph(Type::small, ink::ink_soft, "On paper: voltfall debrief RECORD --html PAGE");
  }
  PaperColumn column(hands, "debrief/check_rows", halves.right);
  column.heading("To read");
  for (const CheckRow& row : contents.check_rows) {
    column.paragraph(Type::body, ink::ink, row.what);
    if (!row.limit.empty()) column.paragraph(Type::small, ink::ink_soft, row.limit);
  }
  column.heading("Cautions");
  for (const std::string& caution : contents.cautions) column.paragraph(Type::small, ink::ink, caution);
}

}  // namespace voltfall
