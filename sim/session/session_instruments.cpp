#include <cmath>

#include "faults/catalogue.h"
#include "instruments/battery_testers.h"
#include "instruments/starter_bench.h"
#include "session/outcomes.h"
#include "session/session.h"

// Instruments that give a finding at once, those that are aimed or clipped on, the bench, and the learner's own list.

namespace voltfall {
namespace {

Outcome refused(std::string_view id) {
  return {false, std::string(id)};
}

}  // namespace

Outcome Session::note(Finding finding, std::string what, std::string detail, double minutes) {
  log_.add(std::move(what), std::move(detail), minutes, true);
  findings_.push_back(std::move(finding));
  return {};
}

Outcome Session::carry_out(const DipHydrometer& action) {
  if (!has_kit(Kit::hydrometer)) return refused(outcome::not_in_kit);
  if (action.cell < 1 || action.cell > battery_cells) return refused(outcome::no_such_cell);
  Outcome outcome = require_eye_protection();
  Finding finding = new_finding(Finding::Kind::gravity);
  finding.cell = action.cell;
  finding.shown =
      gravity_display(cell_gravity(rig_.parameters().battery, rig_.state().battery, action.cell, scenario_.rest));
  const double minutes = cells_dipped_++ == 0 ? job_minutes::first_cell : job_minutes::next_cell;
  note(std::move(finding), "reading", "hydrometer " + std::to_string(action.cell), minutes);
  return outcome;
}

Outcome Session::carry_out(const TestConductance& /*action*/) {
  constexpr double most_A = 5.0;  // more than any drain a job has, less than any lamp or starter
  if (!has_kit(Kit::conductance_tester)) return refused(outcome::not_in_kit);
  const bool still = controls_.key == KeyPosition::off && !under_load() && std::abs(rig_.readings().loop_A) < most_A;
  if (!still) return refused(outcome::battery_not_at_rest);
  Finding finding = new_finding(Finding::Kind::cold_amps);
  finding.red = TestPoint::battery_positive_post;
  finding.black = TestPoint::negative_post;
  finding.shown = conductance_display(inferred_CCA_A(rig_.parameters().battery, rig_.state().battery));
  return note(std::move(finding), "reading", "conductance", job_minutes::conductance_test);
}

Outcome Session::carry_out(const AimThermometer& action) {
  if (!has_kit(Kit::thermometer)) return refused(outcome::not_in_kit);
  thermometer_.aim(action.at);
  return {};
}

Outcome Session::carry_out(const PutRecorderChannel& action) {
  if (!has_kit(Kit::recorder)) return refused(outcome::not_in_kit);
  if (action.channel != 1 && action.channel != 2) return refused(outcome::no_such_channel);
  const RecorderInput input{action.red, action.black, action.round};
  const bool both = input.round && (input.red || input.black);
  if (both || input.red.has_value() != input.black.has_value() || (input.red && input.red == input.black)) {
    return refused(outcome::wrong_points);
  }
  recorder_.connect(action.channel, input);
  if (input.connected()) {
    log_.add("hang", "recorder_channel " + std::to_string(action.channel), job_minutes::recorder_channel, true);
  }
  return {};
}

Outcome Session::carry_out(const ArmRecorder& action) {
  if (!has_kit(Kit::recorder)) return refused(outcome::not_in_kit);
  if (!recorder_.input(1).connected()) return refused(outcome::channel_1_open);
  const bool fits = action.span_s >= Recorder::shortest_span_s && action.span_s <= Recorder::longest_span_s;
  if (!fits || !std::isfinite(action.level)) return refused(outcome::no_such_span);
  recorder_.arm(action.level, action.rising, action.span_s);
  return {};
}

Outcome Session::carry_out(const TestOnBench& action) {
  if (!controls_.starter_off) return refused(outcome::starter_is_on);
  const BenchResult result = bench_result(action.test, rig_.parameters());
  Finding finding = new_finding(Finding::Kind::bench);
  finding.component = "starter";
  finding.observation = id_of(action.test);
  finding.shown = result.shown;
  finding.also_shown = result.also_shown;
  const double minutes = bench_tests_++ == 0 ? job_minutes::first_bench_test : job_minutes::next_bench_test;
  return note(std::move(finding), "bench", std::string(id_of(action.test)), minutes);
}

Outcome Session::carry_out(const StrikeSuspect& action) {
  if (fault_named(action.fault_id) == nullptr) return refused(outcome::no_such_fault);
  const bool changed = action.struck ? struck_.insert(action.fault_id).second : struck_.erase(action.fault_id) == 1;
  if (!changed) return {};
  suspect_marks_.push_back({action.fault_id, action.struck, static_cast<int>(findings_.size()), log_.minutes()});
  return {};
}

}  // namespace voltfall
