#include <algorithm>

#include "instruments/clamp_meter.h"
#include "job/looks.h"
#include "session/outcomes.h"
#include "session/session.h"

// What the learner notes. Only noted things are evidence.

namespace voltfall {
namespace {

Outcome refused(std::string_view id) {
  return {false, std::string(id)};
}

bool is_behind_dash(std::optional<TestPoint> point) {
  return point == TestPoint::ignition_feed || point == TestPoint::ignition_start_output ||
         point == TestPoint::dash_feed;
}

bool same_test(const Finding& one, const Finding& other) {
  if (one.kind != other.kind || one.state != other.state || one.headlamps != other.headlamps) return false;
  if (one.clamp || other.clamp) return one.clamp == other.clamp;
  return one.red && one.black && other.is_between(*one.red, *one.black);
}

}  // namespace

bool Session::meter_can_be_noted() const {
  const MeterDisplay::Kind kind = meter_.display().kind;
  return (kind == MeterDisplay::Kind::value || kind == MeterDisplay::Kind::overload) && meter_track_.taken.steady &&
         meter_track_.shown_at_s == meter_.shown_at_s();
}

bool Session::clamp_can_be_noted() const {
  return clamp_.round() && clamp_.shown_at_s() && clamp_track_.taken.steady &&
         clamp_track_.shown_at_s == clamp_.shown_at_s();
}

Finding Session::new_finding(Finding::Kind kind) const {
  Finding finding;
  finding.kind = kind;
  finding.number = static_cast<int>(findings_.size()) + 1;
  finding.job_minute = log_.minutes();
  finding.state = electrical_state();
  finding.headlamps = controls_.headlamps;
  finding.battery_connected = controls_.battery_connected;
  finding.repairs_before = static_cast<int>(repairs_done_.size());
  finding.after_repair = !repairs_done_.empty();
  return finding;
}

Outcome Session::carry_out(const NoteReading& action) {
  if (!has_kit(action.from)) return refused(outcome::not_in_kit);
  return note_display(action.from == Kit::clamp_meter);
}

Outcome Session::note_display(bool clamp) {
  const MeterDisplay shown = clamp ? clamp_.display() : meter_.display();
  const bool figure = shown.kind == MeterDisplay::Kind::value || shown.kind == MeterDisplay::Kind::overload;
  if (!figure || (clamp && !clamp_.round())) return refused(outcome::nothing_on_display);
  if (!(clamp ? clamp_can_be_noted() : meter_can_be_noted())) return refused(outcome::reading_unsteady);
  const bool ohms = meter_.function() == MeterFunction::ohms;
  Finding finding = new_finding(clamp ? Finding::Kind::amps : ohms ? Finding::Kind::ohms : Finding::Kind::volts);
  const Taken& taken = clamp ? clamp_track_.taken : meter_track_.taken;
  finding.state = taken.state;
  const MeterDisplay loop = amps_display(taken.loop_A);
  finding.loop_A = loop.kind == MeterDisplay::Kind::value ? loop.value : taken.loop_A;
  finding.shown = shown;
  if (clamp) {
    finding.clamp = clamp_.round();
  } else {
    finding.hold = meter_.hold();
    finding.red = meter_.red();
    finding.black = meter_.black();
  }
  charge_reading(finding);
  findings_.push_back(std::move(finding));
  return {};
}

void Session::charge_reading(const Finding& finding) {
  const auto same = [&](const Finding& earlier) { return same_test(earlier, finding); };
  const bool repeated = std::any_of(findings_.begin(), findings_.end(), same);
  const bool proof =
      finding.after_repair && std::any_of(findings_.begin(), findings_.end(), [&](const Finding& earlier) {
        return same(earlier) && earlier.repairs_before < finding.repairs_before;
      });
  double minutes =
      finding.state == ElectricalState::cranking ? job_minutes::reading_under_load : job_minutes::reading_at_rest;
  if (finding.clamp) minutes = job_minutes::clamp_reading;
  if (repeated) minutes = job_minutes::repeated_reading;
  if (!behind_dash_open_ && (is_behind_dash(finding.red) || is_behind_dash(finding.black))) {
    behind_dash_open_ = true;
    minutes += job_minutes::behind_dash;
  }
  log_.add("reading", in_words(finding), minutes, !proof);
}

Outcome Session::carry_out(const NoteObservation& action) {
  const Observation* observation = observation_named(action.id);
  if (observation == nullptr) return refused(outcome::no_such_observation);
  const auto& crank = watch_.last_crank();
  if (!crank) return refused(outcome::no_crank_yet);
  Finding finding = new_finding(Finding::Kind::heard_or_seen);
  finding.state = ElectricalState::cranking;
  finding.observation = action.id;
  finding.observation_true = observation->holds(*crank);
  log_.add("observation", action.id, 0.0, true);
  findings_.push_back(std::move(finding));
  return {};
}

Outcome Session::carry_out(const LookClosely& action) {
  const std::string_view look = look_at(action.component, rig_.parameters(), scenario_.healthy);
  if (look.empty()) return refused(outcome::no_such_component);
  Finding finding = new_finding(Finding::Kind::looked);
  finding.component = action.component;
  finding.observation = look;
  finding.observation_true = true;
  log_.add("look", action.component, job_minutes::look, true);
  findings_.push_back(std::move(finding));
  return {true, std::string(look)};
}

}  // namespace voltfall
