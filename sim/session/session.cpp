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

Session::RecentAmps::RecentAmps() : ring_(steps_in(Tachometer::window_s), 0.0) {}

void Session::RecentAmps::add(double amps) {
  ring_[next_] = amps;
  if (++next_ == ring_.size()) next_ = 0;
  filled_ = std::min(filled_ + 1, ring_.size());
}

double Session::RecentAmps::mean_of_last(std::size_t steps) const {
  const std::size_t count = std::min(steps, filled_);
  if (count == 0) return 0.0;
  double sum = 0.0;
  const auto from_next_back = [&](std::size_t end, std::size_t most) {
    for (std::size_t back = 1; back <= most; ++back) sum += ring_[end - back];
  };
  from_next_back(next_, std::min(count, next_));
  if (count > next_) from_next_back(ring_.size(), count - next_);
  return sum / static_cast<double>(count);
}

Session::Session(Scenario scenario, TableSource tables)
    : scenario_(std::move(scenario)),
      tables_(std::move(tables)),
      rig_(scenario_.faulty(), scenario_.rest, {}, step_s, Books::closed),
      clamp_(scenario_.healthy.ambient_C),
      thermometer_(scenario_.healthy.ambient_C) {
  controls_.ignition_live = true;
  if (gearbox_of(scenario_.healthy) == Gearbox::manual) controls_.gear = Gear::neutral;
  triggers_ = {.hot = true, .shaken = true, .damp = true};  // as the rig was made
  set_triggers(triggers_on_arrival(seed()));
}

void Session::listen(Listener listener) {
  listener_ = std::move(listener);
}

Outcome Session::act(const Action& action) {
  const double minutes_before = log_.minutes();
  Outcome outcome = closed() ? Outcome{false, std::string(outcome::job_is_closed)}
                             : std::visit([this](const auto& one) { return carry_out(one); }, action);
  if (outcome.done) quiet_s_ = 0.0;
  clamp_.let_pass((log_.minutes() - minutes_before) * 60.0);
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
  const bool busy =
      under_load() || now.relay_closed || std::abs(now.motor_rpm) > still_rpm || std::abs(now.crank_rpm) > still_rpm;
  return !busy && quiet_s_ >= settling_s;
}

void Session::step_once() {
  const bool was_fed = starter_fed();
  attach_kit();
  rig_.step(controls_);
  ++step_count_;
  quiet_s_ += step_s;
  const Readings& now = rig_.readings();
  const std::vector<RigEvent> events = rig_.take_events();
  events_.insert(events_.end(), events.begin(), events.end());
  recent_A_.add(now.loop_A);
  Controls heard;  // a starter fed past its key sounds as one fed by it
  heard.key = starter_fed() ? KeyPosition::start : controls_.key;
  heard.headlamps = controls_.headlamps;
  heard.gear = controls_.gear;
  heard.clutch_pedal_down = controls_.clutch_pedal_down;
  watch_.watch(now, events, heard, step_s);
  meter_.watch(now, step_s);
  clamp_.watch(now, step_s);
  thermometer_.watch(rig_.state().temperatures, now.time_s, step_s);
  tachometer_.watch(now, step_s);
  recorder_.watch(now, step_s);
  if (devices_.watch(now, step_s)) switched();
  if (was_fed && !starter_fed()) stop_feeding();  // a fuse has gone, or the tool is off the studs again
  follow_displays();
  constexpr std::uint64_t steps_per_tenth_s = 500;
  if (step_count_ % steps_per_tenth_s == 0) {
    follow_heat();
    cool_for(0.1);
  }
  judge_kit();
  if (!starter_fed()) return;
  judge_running_crank();
  count_heat();
  crank_taken_ = {around(), controls_.headlamps, faults_are_there()};
}

void Session::attach_kit() {
  controls_.attached.clear();
  if (const auto branch = meter_.loading()) controls_.attached.push_back(*branch);
  devices_.add_branches(controls_.attached);
  constexpr double tool_ohm = 1.0e-3;  // a wrench and two bad touches; from memory
  if (step_count_ < bridged_until_step_) {
    controls_.attached.push_back({TestPoint::relay_battery_stud, TestPoint::relay_motor_stud, tool_ohm});
  }
}

void Session::follow_displays() {
  // Asked at every step, and hardly ever so.
  const auto follow_changed = [this](Kit kit, const std::optional<double>& shown_at_s, double window_s) {
    if (shown_at_s != track_of(kit).shown_at_s) follow(kit, shown_at_s, window_s);
  };
  const bool held = meter_.hold() != MeterHold::none;
  follow_changed(Kit::multimeter, meter_.shown_at_s(), held ? hold_window_s : display_window_s);
  follow_changed(Kit::clamp_meter, clamp_.shown_at_s(), display_window_s);
  follow_changed(Kit::load_tester, devices_.load_tester().shown_at_s(), display_window_s);
  follow_changed(Kit::test_lamp, devices_.lamp_glow_V().shown_at_s(), display_window_s);
  follow_changed(Kit::thermometer, thermometer_.shown_at_s(), display_window_s);
  follow_changed(Kit::tachometer, tachometer_.shown_at_s(), Tachometer::window_s);
  follow_changed(Kit::recorder, recorder_.shown_at_s(), hold_window_s);
}

// A display shows a figure that it did not show before, or none any more.
void Session::follow(Kit kit, std::optional<double> shown_at_s, double window_s) {
  DisplayTrack& track = track_of(kit);
  track.shown_at_s = shown_at_s;
  if (!shown_at_s) return;
  const std::size_t window = steps_in(window_s);
  // A held extreme belongs to the state its short window ended in; a plain figure has to be of one state throughout.
  const bool steady = window_s <= hold_window_s || step_count_ - switched_at_step_ + 1 >= window;
  const bool settled = step_count_ - switched_at_step_ + 1 >= steps_in(Recorder::settled_window_s);
  track.taken = {electrical_state(), steady, settled, recent_A_.mean_of_last(window), around()};
}

void Session::switched() {
  switched_at_step_ = step_count_ + 1;
}

ElectricalState Session::electrical_state() const {
  if (starter_fed()) return ElectricalState::cranking;
  return controls_.key == KeyPosition::off ? ElectricalState::at_rest : ElectricalState::key_on;
}

bool Session::starter_fed() const {
  return controls_.key == KeyPosition::start || bypassed();
}

bool Session::under_load() const {
  const bool pile = devices_.place_of(Device::load_tester) != nullptr && devices_.load_tester().turned_up();
  return starter_fed() || pile;
}

Around Session::around() const {
  return {.gear = controls_.gear,
          .ignition_live = controls_.ignition_live,
          .clutch_pedal_down = controls_.clutch_pedal_down,
          .s_wire_on = controls_.s_wire_on,
          .belt_off = controls_.belt_off,
          .plugs_out = controls_.plugs_out,
          .starter_off = controls_.starter_off,
          .remote_pressed = devices_.remote_pressed(),
          .hung = devices_.all()};
}

std::optional<ElectricalState> Session::held_from() const {
  const bool held = meter_.hold() != MeterHold::none && meter_.display().kind == MeterDisplay::Kind::value;
  return held ? std::optional(track_of(Kit::multimeter).taken.state) : std::nullopt;
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
