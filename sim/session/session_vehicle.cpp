#include <algorithm>
#include <cmath>

#include "session/outcomes.h"
#include "session/session.h"

// What a person does to the vehicle and the kit, and what that means for safety at the moment it is done.

namespace voltfall {
namespace {

Outcome refused(std::string_view id) {
  return {false, std::string(id)};
}

}  // namespace

Outcome Session::carry_out(const TurnKey& action) {
  if (action.to == controls_.key) return {};
  Outcome outcome = action.to == KeyPosition::start ? begin_crank() : Outcome{};
  if (controls_.key == KeyPosition::start) end_crank();
  controls_.key = action.to;
  switched();
  return outcome;
}

Outcome Session::begin_crank() {
  constexpr double rest_minutes = 2.0;
  marks_before_crank_ = log_.marks().size();
  const bool first = !watch_.last_crank().has_value();
  // The first crank after a repair is the proof of it, which economy leaves out.
  const bool proof = !repairs_done_.empty() && cranks_since_repair_ == 0;
  Outcome outcome;
  const auto omitted = [&](bool safe, std::string_view id) {
    if (safe) return;
    log_.mark(MarkKind::omission, id);
    if (outcome.id.empty()) outcome.id = id;
  };
  omitted(!controls_.ignition_live, outcome::cranked_ignition_live);
  omitted(controls_.gear != Gear::drive, outcome::cranked_in_gear);
  omitted(brake_on_, outcome::cranked_brake_off);
  omitted(eye_protection_on_, outcome::no_eye_protection);
  if (long_crank_ended_at_minute_ && log_.minutes() - *long_crank_ended_at_minute_ < rest_minutes) {
    log_.mark(MarkKind::slip, outcome::no_rest_after_long_crank);
    outcome.id = outcome::no_rest_after_long_crank;
  }
  log_.add("crank", "", first ? job_minutes::first_crank : job_minutes::crank, !proof);
  ++cranks_since_repair_;
  return outcome;
}

void Session::end_crank() {
  constexpr double long_crank_s = 10.0;
  const auto& crank = watch_.last_crank();
  if (crank && crank->held_s >= long_crank_s) long_crank_ended_at_minute_ = log_.minutes();
}

Outcome Session::carry_out(const SwitchHeadlamps& action) {
  controls_.headlamps = action.on;
  switched();
  return {};
}

Outcome Session::carry_out(const ShiftGear& action) {
  controls_.gear = action.to;
  switched();
  return {};
}

Outcome Session::carry_out(const SetBrake& action) {
  if (action.on && !brake_on_) log_.add("safety", "brake", job_minutes::other_safety_step, false);
  brake_on_ = action.on;
  return {};
}

Outcome Session::carry_out(const DisableIgnition& action) {
  if (action.disabled && controls_.ignition_live) {
    log_.add("safety", "ignition", job_minutes::ignition_disabled, false);
  }
  controls_.ignition_live = !action.disabled;
  return {};
}

Outcome Session::carry_out(const WearEyeProtection& action) {
  if (action.on && !eye_protection_on_) log_.add("safety", "eyes", job_minutes::other_safety_step, false);
  eye_protection_on_ = action.on;
  return {};
}

Outcome Session::require_eye_protection() {
  if (eye_protection_on_) return {};
  log_.mark(MarkKind::omission, outcome::no_eye_protection);
  return {true, std::string(outcome::no_eye_protection)};
}

Outcome Session::carry_out(const ConnectNegative& action) {
  if (controls_.key != KeyPosition::off) return refused(outcome::key_not_off);
  if (action.connected == controls_.battery_connected) return {};
  Outcome outcome = require_eye_protection();
  controls_.battery_connected = action.connected;
  switched();
  log_.add("safety", action.connected ? "negative_on" : "negative_off", job_minutes::negative_clamp, false);
  return outcome;
}

Outcome Session::carry_out(const PutProbe& action) {
  if (!has_kit(Kit::multimeter)) return refused(outcome::not_in_kit);
  action.red ? meter_.put_red(action.at) : meter_.put_black(action.at);
  return {};
}

Outcome Session::carry_out(const PutClamp& action) {
  if (!has_kit(Kit::clamp_meter)) return refused(outcome::not_in_kit);
  clamp_.put_round(action.round);
  return {};
}

Outcome Session::carry_out(const ZeroClamp& /*action*/) {
  if (!has_kit(Kit::clamp_meter)) return refused(outcome::not_in_kit);
  clamp_.zero();
  return {};
}

Outcome Session::carry_out(const SetMeterFunction& action) {
  if (!has_kit(Kit::multimeter)) return refused(outcome::not_in_kit);
  meter_.set_function(action.to);
  return {};
}

Outcome Session::carry_out(const SetMeterHold& action) {
  if (!has_kit(Kit::multimeter)) return refused(outcome::not_in_kit);
  meter_.set_hold(action.to);
  return {};
}

Outcome Session::carry_out(const PassTime& action) {
  constexpr double longest_s = 12.0 * 3600.0;
  if (controls_.key != KeyPosition::off) return refused(outcome::key_not_off);
  if (!(action.wait_s > 0.0 && action.wait_s <= longest_s)) return refused(outcome::no_such_wait);
  rig_.rest(action.wait_s);
  switched();
  log_.add("wait", "", action.wait_s / 60.0, false);
  return {true, std::string(outcome::time_passed)};
}

}  // namespace voltfall
