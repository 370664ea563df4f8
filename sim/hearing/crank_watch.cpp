#include "hearing/crank_watch.h"

#include <algorithm>
#include <cmath>

namespace voltfall {
namespace {

constexpr double block_s = 0.05;
constexpr std::size_t second_blocks = 20, half_second_blocks = 10, lamp_blocks = 7;

constexpr double chatter_per_s = 3.0;    // common practice: about 5 to 15; a slow, flat battery fewer
constexpr double turning_rpm = 5.0;      // slower, and a person says the engine does not turn
constexpr double labouring_rpm = 60.0;   // slower, and single compressions are heard one by one
constexpr double whirring_rpm = 1500.0;  // a motor that drives an engine can't reach it
constexpr double running_rpm = 400.0;    // no starter turns an engine as fast
constexpr double heavy_A = 50.0;         // more than lamps, relay and dash together

}  // namespace

LampLook lamp_look_at(double lamp_V) {
  // Design words: bright within 1.5 V of a healthy crank's feed of about 11 V, dim below 8 V; between, the nearer.
  constexpr double bright_from_V = 8.75, out_below_V = 4.0;
  if (lamp_V < out_below_V) return LampLook::out;
  return lamp_V < bright_from_V ? LampLook::dim : LampLook::bright;
}

void CrankWatch::watch(const Readings& readings, std::span<const RigEvent> events, const Controls& controls,
                       double dt_s) {
  now_s_ = readings.time_s;
  notice_key(controls);
  for (const RigEvent& event : events) hear(event);
  while (!closings_s_.empty() && closings_s_.front() < now_s_ - 1.0) closings_s_.pop_front();
  fill(readings, dt_s);
  if (starting_) {
    crank_->held_s += dt_s;
    crank_->headlamps = crank_->headlamps && controls.headlamps;
    crank_->closings_per_s = std::max(crank_->closings_per_s, closings_per_s());
  }
  look_for_pinion(readings);
  if (filled_s_ >= block_s - 0.5 * dt_s) finish_block(readings, controls);
}

void CrankWatch::notice_key(const Controls& controls) {
  const bool starting = controls.key == KeyPosition::start;
  if (starting == starting_) return;
  starting_ = starting;
  blocks_.clear();
  filling_ = {};
  filled_s_ = 0.0;
  stalled_s_ = 0.0;
  if (!starting) return;
  crank_ = CrankSeen{};
  crank_->headlamps = controls.headlamps;
  crank_->in_gear = controls.gear == Gear::drive && !controls.clutch_pedal_down;
  beats_.clear();
  last_beat_s_ = 0.0;
  closings_s_.clear();
}

void CrankWatch::hear(const RigEvent& event) {
  if (!crank_) return;
  switch (event.kind) {
    case RigEventKind::relay_closed:
      closings_s_.push_back(event.time_s);
      if (starting_) ++crank_->relay_closings;
      return;
    case RigEventKind::shoe_moved:
      crank_->shoe_moved = crank_->shoe_moved || starting_;
      return;
    case RigEventKind::shoe_seated:
      crank_->shoe_seated = crank_->shoe_seated || starting_;
      if (starting_ && !crank_->seated_at_s) crank_->seated_at_s = crank_->held_s;
      return;
    case RigEventKind::shoe_dropped:
      if (starting_) ++crank_->shoe_drops;
      return;
    case RigEventKind::teeth_struck:
      if (starting_) ++crank_->teeth_struck;
      return;
    case RigEventKind::crank_stopped:
      if (starting_) crank_->stopped_dead = true;
      return;
    case RigEventKind::crank_turned:
      // With the key let go what was pressed together pushes the engine back.
      if (starting_) crank_->stopped_dead = false;
      return;
    case RigEventKind::engine_fired:
      crank_->engine_fired = crank_->engine_fired || starting_;
      return;
    case RigEventKind::engine_running:
      crank_->engine_started = crank_->engine_started || starting_;
      return;
    case RigEventKind::top_centre:
      hear_beat(event);
      return;
    default:
      return;
  }
}

// An engine that still gains or loses speed does not limp: it is heard at an even pace only, when the oldest beat took
// as long as the one of the same cylinder a cycle later.
void CrankWatch::hear_beat(const RigEvent& event) {
  constexpr std::size_t beats = 8;
  constexpr double even_pace = 0.03;
  if (!starting_) return;
  const double length_s = last_beat_s_ > 0.0 ? event.time_s - last_beat_s_ : 0.0;
  last_beat_s_ = event.time_s;
  if (length_s > 0.0) beats_.push_back({length_s, event.interval});
  if (beats_.size() > beats + 1) beats_.pop_front();
  if (beats_.size() < beats) return;
  const Beat& oldest = beats_.front();
  const auto cycle_later = std::find_if(beats_.begin() + 1, beats_.end(),
                                        [&](const Beat& beat) { return beat.interval == oldest.interval; });
  if (cycle_later == beats_.end() || std::abs(oldest.length_s / cycle_later->length_s - 1.0) > even_pace) return;
  const auto [shortest, longest] = std::minmax_element(
      beats_.end() - beats, beats_.end(), [](const Beat& a, const Beat& b) { return a.length_s < b.length_s; });
  crank_->uneven = longest->length_s / shortest->length_s;
}

// Half a second is ten times what a sound return spring takes.
void CrankWatch::look_for_pinion(const Readings& readings) {
  constexpr double long_gone_s = 0.5;
  if (readings.relay_closed || starting_) let_go_at_s_ = now_s_;
  if (!crank_ || !crank_->shoe_seated || crank_->stayed_in_mesh) return;
  crank_->stayed_in_mesh = readings.shoe_seated && now_s_ - let_go_at_s_ > long_gone_s;
}

void CrankWatch::fill(const Readings& readings, double dt_s) {
  filled_s_ += dt_s;
  filling_.crank_rpm += readings.crank_rpm * dt_s;
  filling_.motor_rpm += readings.motor_rpm * dt_s;
  filling_.loop_A += readings.loop_A * dt_s;
  if (starting_) crank_->lowest_rpm = std::min(crank_->lowest_rpm, readings.crank_rpm);
  filling_.lamp_V += readings.lamp_V * dt_s;
  filling_.relay_closed += readings.relay_closed ? dt_s : 0.0;
}

void CrankWatch::finish_block(const Readings& readings, const Controls& controls) {
  Block block = filling_;
  for (double* sum : {&block.crank_rpm, &block.motor_rpm, &block.loop_A, &block.lamp_V, &block.relay_closed}) {
    *sum /= filled_s_;
  }
  block.shoe_seated = readings.shoe_seated;
  block.meshed = readings.meshed;
  blocks_.push_back(block);
  if (blocks_.size() > second_blocks) blocks_.pop_front();
  filling_ = {};
  filled_s_ = 0.0;

  const Block recent = mean_of_last(half_second_blocks);
  const bool runs_on = !starting_ && crank_ && block.relay_closed > 0.9 && blocks_.size() > 3;
  const bool runs = recent.crank_rpm > running_rpm;
  state_ = starting_ || runs_on || runs ? judge(recent) : CrankState::at_rest;
  if (runs_on) crank_->ran_on = true;
  if (starting_) {
    crank_->peak_loop_A = std::max(crank_->peak_loop_A, block.loop_A);
    crank_->hottest_C = std::max({crank_->hottest_C, readings.hottest_joint_C, readings.winding_C});
    follow_crank(recent, controls);
  }
}

void CrankWatch::follow_crank(const Block& recent, const Controls& controls) {
  crank_->state = state_;
  crank_->lamp_V = controls.headlamps ? mean_of_last(lamp_blocks).lamp_V : 0.0;
  const bool still = recent.crank_rpm < turning_rpm || blocks_.back().crank_rpm < turning_rpm;
  stalled_s_ = still && mean_of_last(half_second_blocks).loop_A > heavy_A ? stalled_s_ + block_s : 0.0;
  if (blocks_.size() < half_second_blocks) return;
  crank_->crank_rpm = std::max(crank_->crank_rpm, recent.crank_rpm);
  crank_->motor_rpm = std::max(crank_->motor_rpm, recent.motor_rpm);
}

CrankWatch::Block CrankWatch::mean_of_last(std::size_t blocks) const {
  const std::size_t count = std::min(blocks, blocks_.size());
  Block mean;
  if (count == 0) return mean;
  for (std::size_t i = blocks_.size() - count; i < blocks_.size(); ++i) {
    mean.crank_rpm += blocks_[i].crank_rpm / static_cast<double>(count);
    mean.motor_rpm += blocks_[i].motor_rpm / static_cast<double>(count);
    mean.loop_A += blocks_[i].loop_A / static_cast<double>(count);
    mean.lamp_V += blocks_[i].lamp_V / static_cast<double>(count);
    mean.relay_closed += blocks_[i].relay_closed / static_cast<double>(count);
  }
  mean.shoe_seated = blocks_.back().shoe_seated;
  mean.meshed = blocks_.back().meshed;
  return mean;
}

CrankState CrankWatch::judge(const Block& recent) const {
  if (recent.crank_rpm > running_rpm) return CrankState::running;
  if (recent.crank_rpm > labouring_rpm) return CrankState::cranking;
  if (closings_per_s() >= chatter_per_s) return CrankState::chattering;
  if (recent.crank_rpm > turning_rpm) return CrankState::labouring;
  if (recent.relay_closed <= 0.0) return CrankState::no_relay;
  if (recent.motor_rpm > whirring_rpm) return CrankState::free_spin;
  return recent.shoe_seated && recent.meshed ? CrankState::stalled : CrankState::not_engaged;
}

double CrankWatch::lamp_V() const {
  return blocks_.empty() ? filling_.lamp_V / std::max(filled_s_, 1.0e-9) : mean_of_last(lamp_blocks).lamp_V;
}

}  // namespace voltfall
