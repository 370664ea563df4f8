#include <algorithm>
#include <cmath>
#include <numbers>

#include "faults/catalogue.h"
#include "job/touch.h"
#include "rig/resting_place.h"
#include "session/outcomes.h"
#include "session/session.h"

// Eyes, ears and hands: what a person moves, turns, wiggles, feels and takes off.

namespace voltfall {
namespace {

Outcome refused(std::string_view id) {
  return {false, std::string(id)};
}

bool is_component(std::string_view id) {
  const auto known = all_components();
  return std::find(known.begin(), known.end(), id) != known.end();
}

constexpr std::string_view hung_up_part = "starter";
constexpr double hung_up_from_ohm = 0.1, seated_again_ohm = 0.002;  // brushes that touch at all; from memory

}  // namespace

double Session::access_minutes(Access access, double published) {
  return accessed_.insert(access).second ? published : 0.0;
}

// Work on a still vehicle: it cools meanwhile.
void Session::work_for(double minutes) {
  if (minutes > 0.0) rig_.rest(minutes * 60.0);
  follow_wait(minutes * 60.0);
  switched();
}

Outcome Session::carry_out(const MoveClutchPedal& action) {
  if (gearbox_of(scenario_.healthy) != Gearbox::manual) return refused(outcome::no_clutch_pedal);
  controls_.clutch_pedal_down = action.down;
  switched();
  return {};
}

Outcome Session::carry_out(const LiftSWire& action) {
  if (action.lifted != controls_.s_wire_on) return {};
  controls_.s_wire_on = !action.lifted;
  log_.add("hands", action.lifted ? "s_wire_off" : "s_wire_on", job_minutes::s_wire_lifted, true);
  switched();
  return {};
}

Outcome Session::carry_out(const TakeBeltOff& action) {
  if (controls_.key != KeyPosition::off || starter_fed()) return refused(outcome::key_not_off);
  if (action.off == controls_.belt_off) return {};
  controls_.belt_off = action.off;
  const double minutes = access_minutes(Access::belt, job_minutes::belt_off);
  log_.add("hands", action.off ? "belt_off" : "belt_on", minutes, true);
  work_for(minutes);
  return {};
}

Outcome Session::carry_out(const TakePlugsOut& action) {
  if (controls_.key != KeyPosition::off || starter_fed()) return refused(outcome::key_not_off);
  if (action.out == controls_.plugs_out) return {};
  controls_.plugs_out = action.out;
  const double minutes = access_minutes(Access::plugs, job_minutes::plugs_out);
  log_.add("hands", action.out ? "plugs_out" : "plugs_in", minutes, true);
  work_for(minutes);
  return {};
}

Outcome Session::carry_out(const BarEngine& /*action*/) {
  if (controls_.key != KeyPosition::off || starter_fed()) return refused(outcome::key_not_off);
  if (rig_.readings().relay_closed || rig_.readings().crank_rpm > 1.0) return refused(outcome::engine_turns);
  Finding finding = new_finding(Finding::Kind::felt);
  finding.component = "engine";
  finding.observation = barred(rig_.parameters(), scenario_.healthy, controls_);
  finding.observation_true = true;
  if (bar_turns_it(finding.observation)) rest_elsewhere();
  work_for(job_minutes::engine_barred);
  return note(std::move(finding), "hands", "bar_engine", job_minutes::engine_barred);
}

void Session::rest_elsewhere() {
  ++times_barred_;
  const auto came_in_at = static_cast<std::uint64_t>(std::abs(scenario_.rest.crank_angle_deg) * 1000.0);
  const RestingPlace place = resting_place(rig_.parameters(), came_in_at + static_cast<std::uint64_t>(times_barred_));
  RigState state = rig_.state();
  const EngineParameters& engine = rig_.parameters().engine;
  state.engine = rested_engine(engine, CylinderVolume(engine), place.crank_angle_deg);
  const double phase = tooth_phase_at(rig_.parameters().drive, state.engine.crank_angle_rad * 180.0 / std::numbers::pi);
  state.tooth_position_m = (phase - std::round(phase)) * rig_.parameters().drive.circular_pitch_m;
  rig_ = Rig(state, rig_.parameters(), {}, step_s, Books::closed);
}

Outcome Session::carry_out(const DisturbPart& action) {
  if (!is_component(action.component)) return refused(outcome::no_such_component);
  Finding finding = new_finding(Finding::Kind::felt);
  finding.component = action.component;
  finding.observation = wiggled(action.component, awake(), scenario_.healthy);
  finding.observation_true = true;
  const bool tap = action.how == Touch::tap;
  if (tap && action.component == hung_up_part) tap_brushes_down();
  if (!tap) shake(action.component);
  const std::string_view how = tap ? "tap" : action.how == Touch::press ? "press" : "wiggle";
  if (!tap)
    return note(std::move(finding), "hands", std::string(how) + " " + action.component, job_minutes::part_disturbed);
  log_.add("hands", std::string(how) + " " + action.component, job_minutes::part_disturbed, true);
  return {};
}

// A knock lets brushes that hang in their holders drop on to the commutator; the next crank shakes them up again.
void Session::tap_brushes_down() {
  RigParameters knocked = rig_.parameters();
  if (tapped_brushes_ohm_ || knocked.starter.brush_added_ohm < hung_up_from_ohm) return;
  tapped_brushes_ohm_ = knocked.starter.brush_added_ohm;
  knocked.starter.brush_added_ohm = seated_again_ohm;
  rig_.refit(knocked);
  switched();
}

void Session::let_go_of_brushes() {
  if (!tapped_brushes_ohm_) return;
  RigParameters shaken = rig_.parameters();
  shaken.starter.brush_added_ohm = *tapped_brushes_ohm_;
  tapped_brushes_ohm_.reset();
  rig_.refit(shaken);
}

Outcome Session::carry_out(const FeelPart& action) {
  if (!is_component(action.component)) return refused(outcome::no_such_component);
  if (controls_.key != KeyPosition::off || starter_fed()) return refused(outcome::key_not_off);
  const double air_C = rig_.parameters().ambient_C;
  const double part_C = hand_temperature_C(action.component, rig_.state().temperatures, air_C);
  const auto points = points_of_part(action.component);
  const bool checked =
      std::any_of(points.begin(), points.end(), [&](TestPoint point) { return shown_cool_.count(point) == 1; });
  Outcome outcome;
  if (part_C > burns_from_C && !checked) {
    log_.mark(MarkKind::slip, outcome::burnt_hand);
    outcome.id = outcome::burnt_hand;
  }
  Finding finding = new_finding(Finding::Kind::felt);
  finding.component = action.component;
  finding.observation = felt(part_C, air_C);
  finding.cranked_s = warmed_by_plain_cranking_s();
  finding.observation_true = true;
  note(std::move(finding), "hands", "feel " + action.component, job_minutes::part_felt);
  return outcome;
}

Outcome Session::carry_out(const TakeStarterOff& action) {
  if (controls_.key != KeyPosition::off || starter_fed()) return refused(outcome::key_not_off);
  if (action.off == controls_.starter_off) return {};
  Outcome outcome = require_eye_protection();
  if (battery_is_live()) {
    log_.mark(MarkKind::critical, outcome::spark_at_battery);
    outcome.id = outcome::spark_at_battery;
  }
  controls_.starter_off = action.off;
  const double minutes = access_minutes(Access::starter, job_minutes::starter_off);
  log_.add("hands", action.off ? "starter_off" : "starter_on", minutes, true);
  work_for(minutes);
  return outcome;
}

}  // namespace voltfall
