#include "session/session.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "session/outcomes.h"

namespace voltfall {
namespace {

constexpr double display_window_s = 1.0 / 3.0;
constexpr double hold_window_s = 0.05;
constexpr double settling_s = 1.5;  // rig time that goes by after the last change before time stands still

std::size_t steps_in(double seconds) {
  return static_cast<std::size_t>(std::lround(seconds / Session::step_s));
}

}  // namespace

Session::RecentAmps::RecentAmps() : ring_(steps_in(display_window_s), 0.0) {}

void Session::RecentAmps::add(double amps) {
  ring_[next_] = amps;
  next_ = (next_ + 1) % ring_.size();
  filled_ = std::min(filled_ + 1, ring_.size());
}

double Session::RecentAmps::mean_of_last(std::size_t steps) const {
  const std::size_t count = std::min(steps, filled_);
  if (count == 0) return 0.0;
  double sum = 0.0;
  for (std::size_t back = 1; back <= count; ++back) sum += ring_[(next_ + ring_.size() - back) % ring_.size()];
  return sum / static_cast<double>(count);
}

Session::Session(Scenario scenario) : scenario_(std::move(scenario)), rig_(scenario_.faulty(), scenario_.rest) {
  controls_.ignition_live = true;
}

void Session::listen(Listener listener) {
  listener_ = std::move(listener);
}

Outcome Session::act(const Action& action) {
  Outcome outcome = closed() ? Outcome{false, std::string(outcome::job_is_closed)}
                             : std::visit([this](const auto& one) { return carry_out(one); }, action);
  if (outcome.done) quiet_s_ = 0.0;
  if (listener_) listener_(*this, step_count_, action, outcome);
  return outcome;
}

int Session::run_steps(int steps) {
  int done = 0;
  while (done < steps && !is_quiet()) {
    step_once();
    ++done;
  }
  return done;
}

int Session::run_for_s(double seconds) {
  return run_steps(static_cast<int>(steps_in(seconds)));
}

bool Session::is_quiet() const {
  constexpr double still_rpm = 0.5;
  const Readings& now = rig_.readings();
  const bool busy = controls_.key == KeyPosition::start || now.relay_closed || std::abs(now.motor_rpm) > still_rpm ||
                    std::abs(now.crank_rpm) > still_rpm;
  return !busy && quiet_s_ >= settling_s;
}

void Session::step_once() {
  controls_.attached.clear();
  if (const auto branch = meter_.loading()) controls_.attached.push_back(*branch);
  rig_.step(controls_);
  ++step_count_;
  quiet_s_ += step_s;
  const Readings& now = rig_.readings();
  const std::vector<RigEvent> events = rig_.take_events();
  events_.insert(events_.end(), events.begin(), events.end());
  recent_A_.add(now.loop_A);
  watch_.watch(now, events, controls_, step_s);
  meter_.watch(now, step_s);
  clamp_.watch(now, step_s);
  const bool held = meter_.hold() != MeterHold::none;
  follow(meter_track_, meter_.shown_at_s(), held ? hold_window_s : display_window_s);
  follow(clamp_track_, clamp_.shown_at_s(), display_window_s);
  if (controls_.key == KeyPosition::start) judge_running_crank();
}

void Session::follow(DisplayTrack& track, std::optional<double> shown_at_s, double window_s) {
  if (shown_at_s == track.shown_at_s) return;
  track.shown_at_s = shown_at_s;
  if (!shown_at_s) return;
  const std::size_t window = steps_in(window_s);
  // A held extreme belongs to the state its short window ended in; a plain figure has to be of one state throughout.
  const bool steady = window_s <= hold_window_s || step_count_ - switched_at_step_ + 1 >= window;
  track.taken = {electrical_state(), steady, recent_A_.mean_of_last(window)};
}

void Session::judge_running_crank() {
  constexpr double longest_stalled_s = 2.0, longest_crank_s = 15.0;
  const auto mark_once = [this](std::string_view id) {
    const auto& marks = log_.marks();
    const auto from = marks.begin() + static_cast<std::ptrdiff_t>(marks_before_crank_);
    if (std::none_of(from, marks.end(), [&](const SafetyMark& mark) { return mark.id == id; })) {
      log_.mark(MarkKind::slip, id);
    }
  };
  if (watch_.stalled_s() > longest_stalled_s) mark_once(outcome::held_while_stalled);
  if (watch_.last_crank()->held_s > longest_crank_s) mark_once(outcome::cranked_too_long);
  const bool turns = watch_.state() == CrankState::cranking || watch_.state() == CrankState::running;
  if (turns && watch_.last_crank()->crank_rpm > 0.0) cranked_since_repair_ = true;
}

void Session::switched() {
  switched_at_step_ = step_count_ + 1;
}

ElectricalState Session::electrical_state() const {
  switch (controls_.key) {
    case KeyPosition::off:
      return ElectricalState::at_rest;
    case KeyPosition::on:
      return ElectricalState::key_on;
    case KeyPosition::start:
      return ElectricalState::cranking;
  }
  return ElectricalState::at_rest;
}

std::optional<ElectricalState> Session::held_from() const {
  const bool held = meter_.hold() != MeterHold::none && meter_.display().kind == MeterDisplay::Kind::value;
  return held ? std::optional(meter_track_.taken.state) : std::nullopt;
}

LampLook Session::lamp_look() const {
  return controls_.headlamps ? lamp_look_at(watch_.lamp_V()) : LampLook::off;
}

std::optional<std::string> Session::named_fault() const {
  return namings_.empty() ? std::nullopt : std::optional(namings_.back().fault_ids.front());
}

std::vector<RigEvent> Session::take_events() {
  return std::exchange(events_, {});
}

bool Session::has_kit(Kit kit) const {
  return std::find(scenario_.kit.begin(), scenario_.kit.end(), kit) != scenario_.kit.end();
}

}  // namespace voltfall
