#include <fmt/format.h>

#include <algorithm>

#include "scoring/score.h"
#include "vetting/vet_parts.h"

namespace voltfall::vetting {
namespace {

constexpr double frozen_from = 0.1, solid_from_cm3 = 30.0;

/// Every question that would show this fault endangers somebody.
void judge_ways(const Subject& subject, const HiddenFault& hidden, VetReport& report) {
  const Fault& fault = *fault_named(hidden.id);
  std::string_view why;
  bool any = false, safe = false;
  const auto look_at = [&](const Question& question, int answer) {
    if (!shows_itself(fault, question, answer)) return;
    const std::string_view danger = danger_in(question, subject.faulty);
    any = true;
    if (danger.empty())
      safe = true;
    else
      why = danger;
  };
  for (const VetReading& reading : report.readings) look_at(reading.question, reading.answer);
  for (const VetSign& sign : report.signs) look_at(sign.question, sign.answer);
  if (!any || safe) return;
  add_remark(
      report, true, "danger_needed",
      fmt::format("every way to show {} endangers somebody: {}; allow a kit that shows it safely", hidden.id, why));
}

VetStep step_of(const decision::PlanStep& step, const Diagnosis& diagnosis) {
  VetStep shown;
  shown.answer = step.outcome;
  shown.minutes = step.minutes;
  shown.truth_share = step.truth_share;
  const auto index = static_cast<std::size_t>(step.choice.index);
  if (step.choice.kind == decision::Choice::Kind::test) {
    shown.question = diagnosis.questions()[index];
  } else {
    shown.repairs = diagnosis.repairs()[index];
  }
  return shown;
}

// The debrief shows this order to everybody.
void judge_par(const Subject& subject, VetReport& report) {
  double most = 0.0;
  std::string_view danger;
  for (const VetStep& step : report.par) {
    if (!step.question) continue;
    most = std::max(most, step.truth_share);
    if (danger.empty()) danger = danger_in(*step.question, subject.faulty);
  }
  if (!danger.empty()) {
    add_remark(report, false, "danger_in_par", fmt::format("the cheapest order has a step in which {}", danger));
  }
  if (subject.scenario.faults.empty() || most >= full_support) return;
  add_remark(report, true, "support_out_of_reach",
             fmt::format("after every test that tells anything {:.0f} % are left for what is hidden, and a naming asks "
                         "for {:.0f} %: allow a kit that tells more",
                         100.0 * most, 100.0 * full_support));
}

}  // namespace

std::string_view danger_in(const Question& question, const RigParameters& faulty) {
  // The first crank, which brings the complaint, nobody can be blamed for: it is heard. The next is a danger.
  const bool cranks_again = is_cranking(question.condition) && question.condition != Condition::plugs_out &&
                            question.kind != Finding::Kind::heard_or_seen;
  if (faulty.battery.ice >= frozen_from && question.kind == Finding::Kind::load_volts) {
    return "a frozen battery is put under load";
  }
  if (cranks_again && faulty.engine.liquid_cm3 >= solid_from_cm3)
    return "an engine with liquid above a piston is cranked again";
  const bool rolls = question.about == "cranks_in_gear" && gearbox_of(faulty) == Gearbox::manual;
  return rolls ? "a manual vehicle is cranked in gear and drives off" : std::string_view{};
}

void judge_plan(const Subject& subject, VetReport& report) {
  const decision::Plan plan = subject.diagnosis.par();
  report.par_minutes = plan.minutes;
  for (const decision::PlanStep& step : plan.steps) report.par.push_back(step_of(step, subject.diagnosis));
  if (!plan.cured) {
    add_remark(report, true, "not_cured", "no order of tests and repairs cures it: what is hidden has no repair here");
  }
  judge_par(subject, report);
  for (const HiddenFault& hidden : subject.scenario.faults) judge_ways(subject, hidden, report);
}

}  // namespace voltfall::vetting
