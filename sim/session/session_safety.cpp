#include <algorithm>
#include <cmath>

#include "instruments/battery_testers.h"
#include "job/touch.h"
#include "session/outcomes.h"
#include "session/session.h"

// What is dangerous or hard on the equipment, judged at the moment it happens.

namespace voltfall {

Outcome Session::require_eye_protection() {
  if (eye_protection_on_) return {};
  log_.mark(MarkKind::omission, outcome::no_eye_protection);
  return {true, std::string(outcome::no_eye_protection)};
}

// The starter begins to be fed, by the key or past it.
Outcome Session::feed_starter(bool by_bypass) {
  if (starter_fed()) return {};
  marks_before_crank_ = log_.marks().size();
  const bool first = !watch_.last_crank().has_value();
  // The first crank after a repair is the proof of it, which economy leaves out.
  const bool proof = !repairs_done_.empty() && cranks_since_repair_ == 0;
  Outcome outcome;
  judge_crank_safety(outcome, by_bypass);
  log_.add("crank", by_bypass ? "bypass" : "", first ? job_minutes::first_crank : job_minutes::crank, !proof);
  ++cranks_since_repair_;
  set_triggers(after_crank(triggers_, seed(), times_cranked_++));
  shown_cool_.clear();
  return outcome;
}

void Session::judge_crank_safety(Outcome& outcome, bool by_bypass) {
  constexpr double rest_minutes = 2.0;
  const auto omitted = [&](bool safe, std::string_view id) {
    if (safe) return;
    log_.mark(MarkKind::omission, id);
    if (outcome.id.empty()) outcome.id = id;
  };
  const bool in_gear = controls_.gear == Gear::drive && !controls_.clutch_pedal_down;
  omitted(!controls_.ignition_live, outcome::cranked_ignition_live);
  omitted(!in_gear, outcome::cranked_in_gear);
  omitted(brake_on_, outcome::cranked_brake_off);
  omitted(eye_protection_on_, outcome::no_eye_protection);
  if (long_crank_ended_at_minute_ && log_.minutes() - *long_crank_ended_at_minute_ < rest_minutes) {
    log_.mark(MarkKind::slip, outcome::no_rest_after_long_crank);
    outcome.id = outcome::no_rest_after_long_crank;
  }
  const auto critical = [&](std::string_view id) {
    log_.mark(MarkKind::critical, id);
    outcome.id = id;
  };
  if (by_bypass && in_gear) critical(outcome::bypass_in_gear);
  // A thud and a dead stop may be liquid above a piston: the next turn is by hand, with the plugs out.
  const auto& crank = watch_.last_crank();
  constexpr double turned_rpm = 20.0;
  const bool stopped_hard = crank && crank->state == CrankState::stalled && crank->crank_rpm > turned_rpm;
  const bool suspected = stopped_hard || (crank && observation_named("thud_and_stop")->holds(*crank));
  const bool liquid = rig_.parameters().engine.liquid_cm3 > 0.0 && !controls_.plugs_out;
  if (suspected && liquid) critical(outcome::cranked_hydrolocked);
}

void Session::stop_feeding() {
  constexpr double long_crank_s = 10.0;
  const auto& crank = watch_.last_crank();
  if (crank && crank->held_s >= long_crank_s) long_crank_ended_at_minute_ = log_.minutes();
  let_go_of_brushes();
}

bool Session::bypassed() const {
  return devices_.feeds_relay_coil() || step_count_ < bridged_until_step_;
}

void Session::judge_running_crank() {
  constexpr double longest_stalled_s = 2.0, longest_crank_s = 15.0;
  const auto mark_once = [this](MarkKind kind, std::string_view id) {
    const auto& marks = log_.marks();
    const auto from = marks.begin() + static_cast<std::ptrdiff_t>(marks_before_crank_);
    if (std::none_of(from, marks.end(), [&](const SafetyMark& mark) { return mark.id == id; })) log_.mark(kind, id);
  };
  if (watch_.stalled_s() > longest_stalled_s) mark_once(MarkKind::slip, outcome::held_while_stalled);
  if (watch_.last_crank()->held_s > longest_crank_s) mark_once(MarkKind::slip, outcome::cranked_too_long);
  if (drives_off()) {
    vehicle_moved_ = true;
    mark_once(MarkKind::critical, outcome::vehicle_moved);
  }
  const bool turns = watch_.state() == CrankState::cranking || watch_.state() == CrankState::running;
  if (turns && watch_.last_crank()->crank_rpm > 0.0) cranked_since_repair_ = true;
}

// A starter moves a vehicle in gear against its brake with a manual gearbox; with an automatic it takes a brake that is
// off, or somebody who stands in front of it with a jumper in hand.
bool Session::drives_off() const {
  constexpr double rolling_rpm = 30.0;
  const bool in_gear = controls_.gear == Gear::drive && !controls_.clutch_pedal_down;
  const bool manual = gearbox_of(scenario_.healthy) == Gearbox::manual;
  return in_gear && rig_.readings().crank_rpm > rolling_rpm && (manual || bypassed() || !brake_on_);
}

void Session::judge_kit() {
  constexpr double across_battery_A = 100.0, longest_load_s = 20.0;
  const bool meter_was_dead = meter_fuse_counted_;
  meter_fuse_counted_ = meter_.fuse_blown();
  if (meter_fuse_counted_ && !meter_was_dead) {
    switched();
    if (meter_.highest_shunt_A() > across_battery_A) log_.mark(MarkKind::critical, outcome::amps_across_battery);
  }
  const bool too_long = devices_.load_tester().held_s() > longest_load_s;
  if (too_long && !load_slip_counted_) log_.mark(MarkKind::slip, outcome::load_held_too_long);
  load_slip_counted_ = too_long;
  const auto cool_at = thermometer_.at();
  if (!cool_at) return;
  const MeterDisplay thermometer = thermometer_.display();
  if (thermometer.kind == MeterDisplay::Kind::value && thermometer.value < burns_from_C) {
    shown_cool_.insert(*cool_at);
  }
}

bool Session::battery_is_live() const {
  return controls_.battery_connected || devices_.place_of(Device::booster_pack) != nullptr;
}

std::string_view Session::charge_hazard() const {
  return is_frozen(rig_.parameters().battery, rig_.state().battery) ? outcome::frozen_battery : std::string_view();
}

}  // namespace voltfall
