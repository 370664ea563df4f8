#include "desktop/closeout/closing.h"

#include "desktop/style/draw.h"
#include "wording/filled.h"

namespace voltfall {
namespace {

Closing::Result close(Session& session, const Wording& words) {
  try {
    const Outcome outcome = session.act(CloseJob{});
    if (!outcome.done || !session.score()) return {outcome, nullptr};
    return {outcome, std::make_shared<const DebriefContents>(debrief_contents(session, words))};
  } catch (const TableStopped&) {
    return {{}, nullptr};
  }
}

void draw_bar_of(float share, const Rect& place) {
  sheet().AddRectFilled(place.min(), place.max(), ink::paper_shade);
  sheet().AddRectFilled(place.min(), {place.x + place.w * share, place.bottom()}, ink::copper);
  sheet().AddRect(place.min(), place.max(), ink::ink);
  for (int tenth = 1; tenth < 10; ++tenth) {
    rule_down(place.x + place.w * static_cast<float>(tenth) / 10, place.bottom(), place.bottom() + 5);
  }
}

}  // namespace

Closing::Closing(Session& session, const Wording& words)
    : result_(std::async(std::launch::async, [&session, &words] { return close(session, words); })) {}

bool Closing::ready() const {
  return result_.wait_for(std::chrono::seconds(0)) == std::future_status::ready;
}

Progress progress_of(const TableAtWork* table, const Wording& words) {
  if (table == nullptr || table->ready()) return {filled(words, "debrief.scoring"), 1.0F};
  if (table->of() == 0) return {filled(words, "debrief.looking_up"), 0.0F};
  return {filled(words, "debrief.working_out", fmt::arg("done", table->done()), fmt::arg("of", table->of())),
          static_cast<float>(table->done()) / static_cast<float>(table->of())};
}

bool draw_waiting(Hands& hands, std::string_view title, const Progress& progress, std::string_view leave_label,
                  const Rect& place) {
  ruled_zone(place);
  const ImVec2 middle = place.centre();
  Rect page{middle.x - 320, middle.y - 90, 640, 200};
  text_in(page.cut_top(32), Type::heading, ink::ink, title);
  rule_across(page.x, page.right(), page.y);
  page.cut_top(gap_16);
  text_in(page.cut_top(24), Type::body, ink::ink, progress.words);
  page.cut_top(gap_8);
  draw_bar_of(progress.share, page.cut_top(16));
  page.cut_top(gap_24);
  const bool escaped = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false);
  return push_key(hands, "waiting/leave", page.cut_top(36).cut_right(280), leave_label) || escaped;
}

}  // namespace voltfall
