#include "bench/open_bench.h"

#include <algorithm>
#include <cmath>

#include "rig/crank_run.h"

namespace voltfall {
namespace {

constexpr double sleeps_after_s = 0.4;  // of stillness: lamps have come to their light, the battery's fast part is back
constexpr double still_rpm = 0.5, still_m = 2.0e-5;
constexpr double before_key_s = 5.0e-3, after_home_s = 0.03, longest_attempt_s = 0.35;
constexpr int steps_between_questions = 4;

}  // namespace

OpenBench::OpenBench(const RigParameters& healthy, const RestingPlace& rest)
    : vehicle_(healthy),
      rest_(rest),
      controls_(ready_to_crank(healthy)),
      rig_(healthy, rest),
      tape_(Rig::step_s),
      mechanisms_(kept_steps) {
  wake();
}

// ---- what is done ----

void OpenBench::hold_key(bool at_start) {
  const KeyPosition wanted = at_start ? KeyPosition::start : released();
  if (controls_.key == wanted) return;
  go_to_newest();
  if (at_start && !awake_) begin_fresh();
  controls_.key = wanted;
  wake();
  if (!at_start) timed_until_s_.reset();
  if (!at_start) return;
  paused_ = false;
  if (watch_) runs_.back().to_s = newest_s();
  watch_.emplace(newest_s(), vehicle_.parameters());
  runs_.push_back(watch_->run());
  constexpr std::size_t most_runs = 40;
  if (runs_.size() > most_runs) runs_.pop_front();
}

void OpenBench::crank_for(double held_s) {
  hold_key(true);
  timed_until_s_ = newest_s() + held_s;
}

void OpenBench::switch_headlamps(bool on) {
  go_to_newest();
  controls_.headlamps = on;
  wake();
}

void OpenBench::switch_ignition(bool on) {
  go_to_newest();
  controls_.ignition_live = on;
  if (controls_.key != KeyPosition::start) controls_.key = released();
  wake();
}

std::string OpenBench::change(const std::function<void(BenchVehicle&)>& edit) {
  BenchVehicle changed = vehicle_;
  edit(changed);
  std::string refused = contradiction_in(changed.parameters());
  if (!refused.empty()) return refused;
  vehicle_ = std::move(changed);
  ++changes_;
  go_to_newest();
  if (!awake_) {
    begin_fresh();
  } else {
    rig_.refit(vehicle_.parameters(), false);
  }
  wake();
  return refused;
}

void OpenBench::place_at(const RestingPlace& rest) {
  rest_ = rest;
  go_to_newest();
  if (!awake_) begin_fresh();
}

// ---- time ----

void OpenBench::go_to_newest() {
  loop_.reset();
  shown_s_ = std::max(shown_s_, newest_s());
}

void OpenBench::wake() {
  awake_ = true;
  still_s_ = 0.0;
}

void OpenBench::begin_fresh() {
  rig_ = Rig(vehicle_.parameters(), rest_);
}

void OpenBench::step_by(int steps) {
  paused_ = true;
  loop_.reset();
  const double to_s = (std::floor(shown_s_ / Rig::step_s + 0.5) + steps) * Rig::step_s;
  if (to_s > newest_s() && awake_) take_step();
  show(to_s);
}

void OpenBench::show(double time_s) {
  shown_s_ = std::clamp(time_s, oldest_s(), newest_s());
}

void OpenBench::loop(std::optional<BenchStretch> over) {
  loop_ = over;
  if (!over) return;
  paused_ = false;
  if (shown_s_ < over->from_s || shown_s_ >= over->to_s) show(over->from_s);
}

void OpenBench::advance(double wall_s, const MayGoOn& may_go_on) {
  if (paused_) return;
  shown_s_ += wall_s * speed_;
  if (loop_) {
    if (shown_s_ >= std::min(loop_->to_s, newest_s())) show(loop_->from_s);
    return;
  }
  for (int taken = 1; awake_ && newest_s() < shown_s_; ++taken) {
    take_step();
    if (taken % steps_between_questions == 0 && may_go_on && !may_go_on()) break;
  }
  shown_s_ = std::min(shown_s_, newest_s());
}

void OpenBench::take_step() {
  if (timed_until_s_ && newest_s() >= *timed_until_s_ - 0.5 * Rig::step_s) {
    timed_until_s_.reset();
    controls_.key = released();
  }
  rig_.step(controls_);
  ++steps_;
  const std::vector<RigEvent> events = rig_.take_events();
  const double later_s = newest_s() - rig_.readings().time_s;
  Readings now = rig_.readings();
  now.time_s = newest_s();
  tape_.append(now);
  mechanisms_.append(mechanism_of(rig_.state(), now));
  if (watch_) {
    std::vector<RigEvent> on_bench_time = events;
    for (RigEvent& event : on_bench_time) event.time_s += later_s;
    watch_->follow(now, on_bench_time, controls_, Rig::step_s);
    runs_.back() = watch_->run();
  }
  if (watcher_) watcher_(rig_, now, events);
  still_s_ = all_still() ? still_s_ + Rig::step_s : 0.0;
  if (still_s_ >= sleeps_after_s) fall_asleep();
}

bool OpenBench::all_still() const {
  const Readings& now = rig_.readings();
  return controls_.key != KeyPosition::start && std::abs(now.crank_rpm) < still_rpm &&
         std::abs(now.motor_rpm) < still_rpm && now.shoe_travel_m < still_m && !now.relay_closed;
}

void OpenBench::fall_asleep() {
  awake_ = false;
  if (!watch_) return;
  watch_->end(newest_s());
  runs_.back() = watch_->run();
  watch_.reset();
}

// ---- what there is to see ----

Mechanism OpenBench::mechanism() const {
  return mechanism_at(shown_s_);
}

Mechanism OpenBench::mechanism_at(double time_s) const {
  if (steps_ == 0) return mechanism_of(rig_.state(), rig_.readings());
  // The first step appended ends at one step's time.
  const double at = time_s / Rig::step_s - 1.0;
  const auto held_from = static_cast<double>(mechanisms_.held_from());
  const double place = std::clamp(at, held_from, static_cast<double>(mechanisms_.count() - 1));
  const long first = static_cast<long>(place);
  const long next = std::min(first + 1, mechanisms_.count() - 1);
  return between(mechanisms_.at(first), mechanisms_.at(next), static_cast<float>(place - static_cast<double>(first)),
                 pitch_m());
}

float OpenBench::signal(std::size_t tape_signal) const {
  if (tape_.empty()) return 0.0F;
  const double step = std::max(1.0, std::floor(shown_s_ / Rig::step_s + 0.5));
  TapeRange range{};
  tape_.look(tape_signal, (step - 0.5) * Rig::step_s, (step + 0.5) * Rig::step_s, std::span(&range, 1));
  return 0.5F * (range.lowest + range.highest);
}

const BenchRun* OpenBench::run_shown() const {
  const auto after = std::find_if(runs_.rbegin(), runs_.rend(),
                                  [&](const BenchRun& run) { return run.from_s <= shown_s_ + 0.5 * Rig::step_s; });
  return after != runs_.rend() ? &*after : nullptr;
}

BenchStretch OpenBench::engagement_of(const BenchRun& run) const {
  const double from_s = std::max(run.from_s - before_key_s, oldest_s());
  const double attempt_s = run.seated_s ? *run.seated_s + after_home_s : longest_attempt_s;
  return {from_s, std::min(run.from_s + attempt_s, newest_s())};
}

}  // namespace voltfall
