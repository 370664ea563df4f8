#include "desktop/bay/bay_screen.h"

#include <algorithm>
#include <utility>
#include <variant>

#include "desktop/bay/bar.h"
#include "desktop/bay/close_up.h"
#include "desktop/bay/entry.h"
#include "desktop/bay/keys.h"
#include "desktop/bay/picture.h"
#include "desktop/closeout/close_out_sheet.h"
#include "desktop/fall_line/fall_line.h"
#include "desktop/kit/kit_parts.h"
#include "desktop/kit/recorder_panel.h"
#include "desktop/layout.h"
#include "desktop/rail/rail.h"
#include "desktop/style/draw.h"

namespace voltfall {

BayScreen::BayScreen(std::unique_ptr<Session> session, const Wording& words,
                     std::function<std::unique_ptr<Screen>()> before)
    : session_(std::move(session)),
      words_(words),
      before_(std::move(before)),
      service_sheet_(sheet_contents(session_->scenario(), words)) {}

void BayScreen::let_go() {
  state_.hands.let_go();
  state_.crank_held = false;
  state_.timed_crank_left_s = 0.0;
  state_.remote_held = false;
  state_.dragged = Pick::nothing;
  if (session_->load_tester_A() > 0.0) wishes_.act(TurnLoadTester{0.0});
  turn_key_as_held();
}

void BayScreen::pass_time(double frame_s) {
  int due = clock_.steps_due(frame_s);
  double& left_s = state_.timed_crank_left_s;
  const bool timed = left_s > 0.0 && session_->controls().key == KeyPosition::start;
  // A frame is no reason to overrun: a crank of 2 s ends a step short of it, since more than 2 s is held against
  // people.
  if (timed) due = std::clamp(static_cast<int>(left_s / Session::step_s) - 1, 0, due);
  const auto& marks = session_->log().marks();
  const std::size_t marks_before = marks.size();
  const int steps = session_->run_steps(due);
  // What time itself brought about, a blown fuse or a vehicle that moves, is no action's answer.
  if (marks.size() > marks_before) say(std::string(words_.outcome(marks.back().id)));
  still_ = steps == 0;
  if (timed) left_s -= steps * Session::step_s;
  if (left_s < 2.5 * Session::step_s) left_s = 0.0;
  motion_.follow(*session_, session_->take_events(), frame_s, state_.calm_motion);
  state_.said_s_ago += frame_s;
}

void BayScreen::turn_key_as_held() {
  const bool wanted = (state_.crank_held || state_.timed_crank_left_s > 0.0) && !session_->closed();
  const bool starting = session_->controls().key == KeyPosition::start;
  if (wanted && !starting) wishes_.act(TurnKey{KeyPosition::start});
  if (!wanted && starting) wishes_.act(TurnKey{KeyPosition::on});
  if (state_.remote_held != session_->remote_pressed() && hung_at(*session_, Device::remote_switch) != nullptr) {
    wishes_.act(PressRemote{state_.remote_held});
  }
  carry_out();
}

void BayScreen::draw_panels(ImVec2 window_size) {
  const Layout zones = layout_of(window_size.x, window_size.y);
  if (state_.service_sheet_open) {
    state_.service_sheet_open = !draw_service_sheet(service_sheet_, state_.hands, zones.sheet);
    return;
  }
  state_.hands.live = !state_.close_up && !state_.keys_shown;
  draw_bar(*session_, state_, wishes_, zones.bar);
  if (state_.debrief_open && session_->closed()) {
    draw_debrief(*session_, words_, state_, wishes_, zones.picture);
  } else if (state_.close_out_open) {
    draw_close_out(*session_, words_, state_, wishes_, zones.picture);
  } else {
    draw_picture(*session_, words_, motion_.look(*session_), state_, wishes_, zones.picture);
  }
  if (state_.recorder_open) {
    draw_recorder_panel(*session_, words_, state_, wishes_, zones.fall_line);
  } else {
    draw_fall_line(*session_, state_, zones.fall_line);
  }
  draw_rail(*session_, words_, state_, wishes_, zones.rail);
  draw_title(zones.title_block);
  draw_layers(zones.picture);
}

void BayScreen::draw_title(const Rect& zone) {
  draw_title_block(*session_, zone);
}

void BayScreen::take_vehicle(std::unique_ptr<Session> session) {
  session_ = std::move(session);
  service_sheet_ = sheet_contents(session_->scenario(), words_);
  const bool calm = state_.calm_motion;
  state_ = BayState{};
  state_.calm_motion = calm;
  motion_ = Motion{};
}

void BayScreen::draw_layers(const Rect& picture) {
  state_.hands.live = true;
  if (state_.keys_shown)
    draw_keys_list(state_, picture);
  else if (state_.close_up)
    draw_close_up(*session_, words_, motion_.look(*session_), state_, wishes_, picture);
}

void BayScreen::frame(double frame_s, ImVec2 window_size) {
  pass_time(frame_s);
  begin_sheet(window_size);
  state_.crank_held = false;
  state_.remote_held = false;
  state_.hands.begin_frame();
  state_.hands.letters_taken = state_.typed != Pick::nothing;
  handle_entry(*session_, words_, state_, wishes_);
  draw_panels(window_size);
  if (!state_.service_sheet_open) handle_keys(*session_, state_, wishes_);
  state_.hands.end_frame();
  end_sheet();
  carry_out();
  turn_key_as_held();
  if (wishes_.leave) next.emplace(before_());
}

void BayScreen::carry_out() {
  for (const Action& action : std::exchange(wishes_.actions, {})) {
    const Outcome outcome = session_->act(action);
    if (!outcome.id.empty()) say(std::string(words_.outcome(outcome.id)));
    if (std::holds_alternative<DoRepair>(action) && outcome.done) state_.close_out.repair_id.reset();
    if (std::holds_alternative<NoteReading>(action) && outcome.done) {
      say("Noted. It stands among the findings.");
      state_.tab = RailTab::findings;
    }
    if (std::holds_alternative<LookClosely>(action) && outcome.done && !session_->findings().empty()) {
      const Finding& found = session_->findings().back();
      say(std::string(words_.component(found.component)) + ": " + std::string(words_.look(found.observation)));
    }
  }
}

void BayScreen::say(std::string words) {
  state_.said = std::move(words);
  state_.said_s_ago = 0.0;
}

}  // namespace voltfall
