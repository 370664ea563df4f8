#include "desktop/closeout/close_out_sheet.h"
#include "desktop/closeout/debrief_parts.h"
#include "desktop/closeout/debrief_text.h"
#include "desktop/style/draw.h"

namespace voltfall {

namespace {

FallComparison compared(const Session& session) {
  const Scenario& scenario = session.scenario();
  return {settled_fall(scenario.healthy, scenario.rest), settled_fall(scenario.faulty(), scenario.rest),
          settled_fall(session.rig().parameters(), scenario.rest)};
}

void draw_author(PaperColumn& column, const Scenario& scenario) {
  if (scenario.debrief.empty()) return;
  column.heading("From the author of this job");
  column.paragraph(Type::body, ink::ink, scenario.debrief);
}

}  // namespace

void draw_debrief(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place) {
  ruled_zone(place);
  state.close_out_open = false;
  if (!state.falls) state.falls = compared(session);
  const Score score = *session.score();
  Rect inside = place.inset(gap_24, gap_8);
  Rect top = inside.cut_top(40);
  if (push_key(state.hands, "debrief/leave", top.cut_right(200).inset(0, 4), "To the start page", {.strong = true}))
    wishes.leave = true;
  text_in(top.cut_left(130), Type::heading, ink::ink, "Debrief");
  text_in(top, Type::heading, ink::ink, verdict_text(score));
  rule_across(inside.x, inside.right(), inside.y);
  inside.cut_top(gap_8);

  Rect left = inside;
  Rect right = left.cut_right((inside.w - gap_24) / 2);
  left.cut_right(gap_24);
  {
    PaperColumn column(state.hands, "debrief/left", left);
    draw_verdict(column, session, words);
    draw_score(column, score, words);
    draw_safety(column, session, words);
    draw_author(column, session.scenario());
    draw_on_a_real_vehicle(column, session, words);
  }
  draw_fall_comparison(*state.falls, right.cut_top(190));
  PaperColumn column(state.hands, "debrief/right", right);
  draw_timeline(column, session, words);
}

}  // namespace voltfall
