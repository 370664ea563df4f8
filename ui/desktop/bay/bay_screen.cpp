#include "desktop/bay/bay_screen.h"

#include <algorithm>
#include <fstream>
#include <sstream>
#include <utility>
#include <variant>

#include "debrief/still_possible.h"
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
                     std::function<std::unique_ptr<Screen>()> before, BesideTheJob beside)
    : session_(std::move(session)),
      words_(words),
      before_(std::move(before)),
      service_sheet_(sheet_contents(session_->scenario(), words)),
      beside_(std::move(beside)) {
  state_.record = beside_.record;
  state_.debrief = beside_.debrief;
  state_.debrief_open = beside_.debrief != nullptr;
}

BayScreen::~BayScreen() {
  if (beside_.table) beside_.table->stop();
}

void BayScreen::let_go() {
  state_.hands.let_go();
  if (closing_) return;
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
  if (closing_) return;
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

void BayScreen::take_vehicle(std::unique_ptr<Session> session, std::shared_ptr<TableAtWork> table) {
  session_ = std::move(session);
  beside_ = {std::move(table), {}, nullptr};
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
  if (replay_) {
    replay_->frame(frame_s, window_size);
    if (replay_->ended()) replay_.reset();
    return;
  }
  if (closing_ && !closing_->ready()) return frame_while_closing(window_size);
  if (closing_) end_closing();
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
  check_naming();
  if (wishes_.see_again) see_again(*std::exchange(wishes_.see_again, std::nullopt));
  if (wishes_.leave) next.emplace(before_());
}

void BayScreen::frame_while_closing(ImVec2 window_size) {
  begin_sheet(window_size);
  state_.hands.begin_frame();
  const Progress progress = progress_of(beside_.table.get(), words_);
  const Rect place = layout_of(window_size.x, window_size.y).sheet;
  if (draw_waiting(state_.hands, "Handing the vehicle back", progress, "Leave the job open", place)) {
    if (beside_.table) beside_.table->stop();
    next.emplace(before_());
  }
  state_.hands.end_frame();
  end_sheet();
}

void BayScreen::end_closing() {
  Closing::Result result = closing_->result();
  closing_.reset();
  if (!result.outcome.id.empty()) say(std::string(words_.outcome(result.outcome.id)));
  state_.debrief = std::move(result.contents);
  state_.debrief_open = session_->closed();
}

void BayScreen::see_again(std::size_t entry) {
  std::ifstream file(beside_.record, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  replay_ = std::make_unique<ReplayScreen>(std::move(text).str(), state_.debrief, words_, entry + 1);
}

void BayScreen::check_naming() {
  if (naming_check_.valid()) {
    if (naming_check_.wait_for(std::chrono::seconds(0)) != std::future_status::ready) return;
    if (std::string open = naming_check_.get(); !open.empty()) say(std::move(open));
  }
  if (closing_ || !naming_unchecked_ || !beside_.table->ready()) return;
  naming_unchecked_ = false;
  naming_check_ = std::async(std::launch::async,
                             [table = beside_.table->table(), scenario = session_->scenario(),
                              findings = session_->findings(), naming = session_->namings().back(),
                              &words = words_] { return still_possible(scenario, findings, naming, table, words); });
}

void BayScreen::carry_out() {
  for (const Action& action : std::exchange(wishes_.actions, {})) {
    if (std::holds_alternative<CloseJob>(action) && !session_->closed()) {
      closing_ = std::make_unique<Closing>(*session_, words_);
      return;
    }
    follow(action, session_->act(action));
  }
}

void BayScreen::follow(const Action& action, const Outcome& outcome) {
  if (!outcome.id.empty()) say(std::string(words_.outcome(outcome.id)));
  if (!outcome.done) return;
  if (std::holds_alternative<DoRepair>(action)) state_.close_out.repair_id.reset();
  if (std::holds_alternative<NoteReading>(action)) {
    say("Noted. It stands among the findings.");
    state_.tab = RailTab::findings;
  }
  if (std::holds_alternative<LookClosely>(action) && !session_->findings().empty()) {
    const Finding& found = session_->findings().back();
    say(std::string(words_.component(found.component)) + ": " + std::string(words_.look(found.observation)));
  }
  const bool guided = session_->scenario().level == Level::guided;
  if (std::holds_alternative<NameFault>(action)) naming_unchecked_ = guided && beside_.table;
}

void BayScreen::say(std::string words) {
  state_.said = std::move(words);
  state_.said_s_ago = 0.0;
}

}  // namespace voltfall
