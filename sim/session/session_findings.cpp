#include <algorithm>

#include "instruments/clamp_meter.h"
#include "instruments/places.h"
#include "job/looks.h"
#include "session/outcomes.h"
#include "session/session.h"

// What the learner notes. Only noted things are evidence.

namespace voltfall {
namespace {

Outcome refused(std::string_view id) {
  return {false, std::string(id)};
}

// The same question asked again: the same instrument at the same place in the same state.
bool same_test(const Finding& one, const Finding& other) {
  if (one.kind != other.kind || one.state != other.state || one.headlamps != other.headlamps) return false;
  if (one.clamp || other.clamp) return one.clamp == other.clamp;
  if (!one.red) return !other.red;
  if (!one.black) return one.red == other.red && !other.black;
  return other.is_between(*one.red, *one.black);
}

double minutes_for(const Finding& finding) {
  switch (finding.kind) {
    case Finding::Kind::load_volts:
      return job_minutes::load_reading;
    case Finding::Kind::lamp:
      return job_minutes::lamp_reading;
    case Finding::Kind::temperature:
      return job_minutes::thermometer_reading;
    case Finding::Kind::speed:
      return job_minutes::tachometer_reading;
    case Finding::Kind::trace:
      return job_minutes::trace;
    default:
      break;
  }
  if (finding.clamp) return job_minutes::clamp_reading;
  return finding.state == ElectricalState::cranking ? job_minutes::reading_under_load : job_minutes::reading_at_rest;
}

Finding::Kind kind_of(Kit from, MeterFunction function) {
  switch (from) {
    case Kit::clamp_meter:
      return Finding::Kind::amps;
    case Kit::load_tester:
      return Finding::Kind::load_volts;
    case Kit::test_lamp:
      return Finding::Kind::lamp;
    case Kit::thermometer:
      return Finding::Kind::temperature;
    case Kit::tachometer:
      return Finding::Kind::speed;
    case Kit::recorder:
      return Finding::Kind::trace;
    default:
      break;
  }
  if (function == MeterFunction::volts_dc) return Finding::Kind::volts;
  return function == MeterFunction::amps_dc ? Finding::Kind::amps : Finding::Kind::ohms;
}

MeterDisplay trace_display(const RecorderInput& input, double value) {
  return input.round ? amps_display(value) : volts_display(value);
}

// Common practice: a lamp of 5 W is bright down to some 9 V, and one sees it glow from about 3 V.
std::string_view glow_words(double glow_V) {
  constexpr double bright_from_V = 9.0, glows_from_V = 3.0;
  if (glow_V >= bright_from_V) return "lamp_bright";
  return glow_V >= glows_from_V ? "lamp_dim" : "lamp_dark";
}

bool is_figure(const MeterDisplay& display) {
  return display.kind == MeterDisplay::Kind::value || display.kind == MeterDisplay::Kind::overload;
}

}  // namespace

MeterDisplay Session::shown_by(Kit kit) const {
  switch (kit) {
    case Kit::multimeter:
      return meter_.display();
    case Kit::clamp_meter:
      return clamp_.round() ? clamp_.display() : MeterDisplay{};
    case Kit::load_tester:
      return devices_.place_of(Device::load_tester) != nullptr ? devices_.load_tester().volts() : MeterDisplay{};
    case Kit::thermometer:
      return thermometer_.display();
    case Kit::tachometer:
      return tachometer_.display();
    case Kit::recorder:
      if (recorder_.capture()) return trace_display(recorder_.input(1), recorder_.capture()->peak(1));
      break;
    default:
      break;
  }
  return {};
}

std::optional<double> Session::shown_at_s(Kit kit) const {
  switch (kit) {
    case Kit::multimeter:
      return meter_.shown_at_s();
    case Kit::clamp_meter:
      return clamp_.shown_at_s();
    case Kit::load_tester:
      return devices_.load_tester().shown_at_s();
    case Kit::test_lamp:
      return devices_.lamp_glow_V().shown_at_s();
    case Kit::thermometer:
      return thermometer_.shown_at_s();
    case Kit::tachometer:
      return tachometer_.shown_at_s();
    case Kit::recorder:
      return recorder_.shown_at_s();
    default:
      return std::nullopt;
  }
}

bool Session::can_be_noted(Kit kit) const {
  const bool glows = kit == Kit::test_lamp && devices_.place_of(Device::test_lamp) != nullptr;
  const DisplayTrack& track = track_of(kit);
  const auto shown_at = shown_at_s(kit);
  return (glows || is_figure(shown_by(kit))) && shown_at && track.taken.steady && track.shown_at_s == shown_at;
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
  finding.around = around();
  finding.faults_there = faults_are_there();
  return finding;
}

Outcome Session::carry_out(const NoteReading& action) {
  if (!has_kit(action.from)) return refused(outcome::not_in_kit);
  const bool glows = action.from == Kit::test_lamp && devices_.lamp_glow_V().shown();
  if (!glows && !is_figure(shown_by(action.from))) return refused(outcome::nothing_on_display);
  if (!can_be_noted(action.from)) return refused(outcome::reading_unsteady);
  Finding finding = new_finding(kind_of(action.from, meter_.function()));
  const Taken& taken = track_of(action.from).taken;
  finding.state = taken.state;
  finding.around = taken.around;
  const MeterDisplay loop = amps_display(taken.loop_A);
  finding.loop_A = loop.kind == MeterDisplay::Kind::value ? loop.value : taken.loop_A;
  finding.shown = shown_by(action.from);
  fill_reading(finding, action.from);
  charge_reading(finding);
  findings_.push_back(std::move(finding));
  return {};
}

// Where the reading was taken, and what else the instrument shows.
void Session::fill_reading(Finding& finding, Kit from) const {
  const auto hangs_at = [&](Device device) {
    finding.red = devices_.place_of(device)->first;
    finding.black = devices_.place_of(device)->last;
  };
  switch (from) {
    case Kit::clamp_meter:
      finding.clamp = clamp_.round();
      break;
    case Kit::load_tester:
      finding.red = TestPoint::battery_positive_post;
      finding.black = TestPoint::negative_post;
      finding.also_shown = devices_.load_tester().amps();
      finding.held_s = devices_.load_tester().held_s();
      break;
    case Kit::test_lamp:
      hangs_at(Device::test_lamp);
      finding.observation = glow_words(*devices_.lamp_glow_V().shown());
      finding.observation_true = true;
      break;
    case Kit::thermometer:
      finding.red = thermometer_.at();
      finding.cranked_s = warmed_by_plain_cranking_s();
      break;
    case Kit::recorder:
      finding.red = recorder_.input(1).red;
      finding.black = recorder_.input(1).black;
      finding.clamp = recorder_.input(1).round;
      finding.also_shown = trace_display(recorder_.input(1), recorder_.capture()->lowest(1));
      if (const auto mean = recorder_.capture()->mean_of_last(1, Recorder::settled_window_s);
          mean && track_of(Kit::recorder).taken.settled) {
        finding.settled = trace_display(recorder_.input(1), *mean);
      }
      break;
    case Kit::multimeter:
      finding.hold = meter_.hold();
      finding.red = meter_.red();
      finding.black = meter_.black();
      break;
    default:
      break;
  }
}

void Session::charge_reading(const Finding& finding) {
  const auto same = [&](const Finding& earlier) { return same_test(earlier, finding); };
  const bool repeated = std::any_of(findings_.begin(), findings_.end(), same);
  const bool proof =
      finding.after_repair && std::any_of(findings_.begin(), findings_.end(), [&](const Finding& earlier) {
        return same(earlier) && earlier.repairs_before < finding.repairs_before;
      });
  double minutes = minutes_for(finding);
  if (repeated) minutes = std::min(minutes, job_minutes::repeated_reading);
  const auto behind = [](std::optional<TestPoint> point) { return point && is_behind_dash(*point); };
  if (behind(finding.red) || behind(finding.black)) {
    minutes += access_minutes(Access::behind_dash, job_minutes::behind_dash);
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
  finding.around = crank_taken_.around;
  finding.headlamps = crank_taken_.headlamps;
  finding.faults_there = crank_taken_.faults_there;
  finding.observation = action.id;
  finding.observation_true = observation->holds(*crank);
  log_.add("observation", action.id, 0.0, true);
  findings_.push_back(std::move(finding));
  return {};
}

Outcome Session::carry_out(const LookClosely& action) {
  const std::string_view look = look_at(action.component, awake(), scenario_.healthy,
                                        decoys_left(scenario_.decoys, repairs_done_), controls_.starter_off);
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
