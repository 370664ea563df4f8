#include <fmt/format.h>

#include "desktop/closeout/debrief_parts.h"

namespace voltfall {

namespace {

constexpr float minute_width = 34, minutes_width = 62, money_width = 62, bar_width = 4;

float words_width(float width, bool paid) {
  return width - minute_width - minutes_width - (paid ? money_width : 0) - bar_width - gap_8 - 2;
}

void draw_plan(const std::vector<DebriefStep>& steps, std::string_view currency, PaperColumn& column) {
  for (const DebriefStep& step : steps) draw_step(step, currency, column.row(step_height(step, column.width())));
}

void draw_sum(PaperColumn& column, std::string_view sum) {
  column.gap(gap_4);
  text_in(column.row(22).inset(2, 0), Type::body_bold, ink::ink, sum, Align::right);
}

void draw_done(const DebriefContents& contents, BayState& state, Wishes& wishes, PaperColumn& column) {
  for (std::size_t i = 0; i < contents.timeline.size(); ++i) {
    const DebriefStep& step = contents.timeline[i];
    const float height = step_height(step, column.width());
    if (!state.record.empty()) {
      const std::string id = fmt::format("debrief/step/{}", i + 1);
      const Rect row = column.row_for(id, height);
      if (list_row(state.hands, id, row, false)) wishes.see_again = i;
      draw_step(step, contents.currency, row);
    } else {
      draw_step(step, contents.currency, column.row(height));
    }
  }
  draw_sum(column, contents.timeline_sum);
}

}  // namespace

float step_height(const DebriefStep& step, float width) {
  const float words = words_width(width, step.money > 0.0);
  float height = wrapped_height(Type::small_bold, step.what, words) + gap_8;
  for (const std::string& note : step.notes) height += wrapped_height(Type::small, note, words) + 1;
  return height;
}

void draw_step(const DebriefStep& step, std::string_view currency, const Rect& row) {
  rule_across(row.x, row.right(), row.bottom() - 1, ink::hairline);
  if (step.telling) sheet().AddRectFilled(row.min(), {row.x + bar_width, row.bottom() - 1}, ink::ink);
  Rect line{row.x + bar_width, row.y + 3, row.w - bar_width - 2, line_height(Type::small)};
  text_in(line.cut_left(minute_width - gap_8), Type::figures_small, ink::ink_soft,
          fmt::format("{:.0f}", step.at_minute), Align::right);
  line.cut_left(gap_8);
  if (step.money > 0.0) {
    text_in(line.cut_right(money_width), Type::small, ink::ink, fmt::format("{:.0f} {}", step.money, currency),
            Align::right);
  }
  text_in(line.cut_right(minutes_width), Type::small, ink::ink, fmt::format("{:.1f} min", step.minutes), Align::right);
  const float width = words_width(row.w, step.money > 0.0);
  float y = line.y;
  y += wrapped_text({line.x, y}, width, Type::small_bold, ink::ink, step.what);
  for (const std::string& note : step.notes) {
    const bool told = step.telling && &note == &step.notes.front();
    y += wrapped_text({line.x, y}, width, Type::small, told ? ink::ink : ink::ink_soft, note) + 1;
  }
}

void draw_steps_page(const DebriefContents& contents, BayState& state, Wishes& wishes, const Rect& place) {
  Rect left = place;
  const Rect right = left.cut_right(place.w * 0.40F);
  left.cut_right(gap_24);
  {
    PaperColumn column(state.hands, "debrief/done", left);
    column.heading(!state.record.empty() ? "What you did; press a step to see it again" : "What you did");
    draw_done(contents, state, wishes, column);
  }
  PaperColumn column(state.hands, "debrief/par", right);
  column.heading("Par: the cheapest sound order of work");
  draw_plan(contents.par, contents.currency, column);
  draw_sum(column, contents.par_sum);
}

}  // namespace voltfall
