#include "desktop/replay/replay_screen.h"

#include <fmt/format.h>

#include "desktop/bay/picture.h"
#include "desktop/layout.h"
#include "desktop/rail/rail.h"
#include "desktop/replay/scrubber.h"
#include "desktop/style/draw.h"

namespace voltfall {

ReplayScreen::ReplayScreen(std::string record, std::shared_ptr<const DebriefContents> contents, const Wording& words,
                           std::size_t shown)
    : contents_(std::move(contents)), words_(words), reader_(std::move(record), "record"), shown_(shown) {
  state_.tab = RailTab::findings;
  state_.hands.focus_on("replay/later");
  show(shown);
}

void ReplayScreen::show(std::size_t step) {
  shown_ = step;
  reader_.go_to(step);
  settled_ = false;
}

void ReplayScreen::settle(const Session& session) {
  constexpr double long_enough_s = 5.0;  // for lamps and smoke to be as bright and thick as they get
  motion_ = Motion{};
  motion_.follow(session, {}, long_enough_s, true);
  settled_ = true;
}

void ReplayScreen::draw_head(const Rect& bar) {
  ruled_zone(bar);
  Rect row = bar.inset(gap_16, gap_8);
  text_in(row.cut_left(text_width(Type::heading, contents_->title) + gap_16), Type::heading, ink::ink,
          contents_->title);
  text_in(row, Type::body_bold, ink::ink, words_.text("sheet_state.replay"));
}

/// Where the Bay has its close-out key.
void ReplayScreen::draw_back_key(const Rect& rail) {
  const Rect place = rail.inset(gap_8).cut_bottom(36);
  const bool escaped = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false);
  const KeyLook strong{.strong = true};
  if (push_key(state_.hands, "replay/back", place, "Back to the debrief  (Esc)", strong) || escaped) ended_ = true;
}

void ReplayScreen::draw_job(const Session* session, const Rect& picture, const Rect& rail, const Rect& title_block) {
  if (session == nullptr) {
    ruled_zone(picture);
    ruled_zone(rail);
    ruled_zone(title_block);
    text_in(picture, Type::heading, ink::ink_soft, words_.text("debrief.reading_record"), Align::centre);
    return;
  }
  if (!settled_) settle(*session);
  Wishes unheard;
  state_.hands.live = false;
  draw_picture(*session, words_, motion_.look(*session), state_, unheard, picture);
  draw_rail(*session, words_, state_, unheard, rail);
  draw_title_block(*session, title_block);
  state_.hands.live = true;
  state_.dragged = Pick::nothing;
  state_.close_up.reset();
}

void ReplayScreen::frame(double /*frame_s*/, ImVec2 window_size) {
  begin_sheet(window_size);
  state_.hands.begin_frame();
  const Layout zones = layout_of(window_size.x, window_size.y);
  draw_head(zones.bar);
  draw_job(reader_.session(), zones.picture, zones.rail, zones.title_block);
  draw_back_key(zones.rail);
  const std::size_t next = draw_scrubber(*contents_, shown_, words_, state_.hands, zones.fall_line);
  state_.hands.end_frame();
  end_sheet();
  if (next != shown_) show(next);
}

}  // namespace voltfall
