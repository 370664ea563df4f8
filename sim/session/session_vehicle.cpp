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
  if (action.to == KeyPosition::start && controls_.starter_off) return refused(outcome::starter_is_off);
  const bool was_fed = starter_fed();
  Outcome outcome = action.to == KeyPosition::start ? feed_starter(false) : Outcome{};
  controls_.key = action.to;
  if (was_fed && !starter_fed()) stop_feeding();
  switched();
  return outcome;
}

Outcome Session::carry_out(const SwitchHeadlamps& action) {
  controls_.headlamps = action.on;
  switched();
  return {};
}

Outcome Session::carry_out(const ShiftGear& action) {
  const bool manual = gearbox_of(scenario_.healthy) == Gearbox::manual;
  if (manual && action.to == Gear::park) return refused(outcome::no_park);
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

Outcome Session::carry_out(const ConnectNegative& action) {
  if (controls_.key != KeyPosition::off || starter_fed()) return refused(outcome::key_not_off);
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
  switched();
  return {};
}

Outcome Session::carry_out(const SetMeterHold& action) {
  if (!has_kit(Kit::multimeter)) return refused(outcome::not_in_kit);
  meter_.set_hold(action.to);
  return {};
}

Outcome Session::carry_out(const PassTime& action) {
  constexpr double longest_s = 12.0 * 3600.0;
  if (controls_.key != KeyPosition::off || starter_fed()) return refused(outcome::key_not_off);
  if (!(action.wait_s > 0.0 && action.wait_s <= longest_s)) return refused(outcome::no_such_wait);
  rig_.rest(action.wait_s);
  follow_wait(action.wait_s);
  switched();
  log_.add("wait", "", action.wait_s / 60.0, false);
  return {true, std::string(outcome::time_passed)};
}

}  // namespace voltfall
