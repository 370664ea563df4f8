#include "scoring/score_job.h"

#include <fmt/format.h>

#include <algorithm>

#include "scoring/review.h"

namespace voltfall {
namespace {

constexpr double cap_below_pass = 1.0;  // a required step left out keeps a job this far under the pass mark

// The first naming stands at full points when it was made before any repair; every other one at half.
bool is_first_naming(const JobFacts& facts) {
  return facts.namings.size() == 1 && facts.namings.front().repairs_before == 0;
}

std::string marks_in_words(const JobLog& log, MarkKind kind) {
  std::string words;
  for (const SafetyMark& mark : log.marks()) {
    if (mark.kind == kind) words += (words.empty() ? "" : ", ") + plain_words(mark.id);
  }
  return words;
}

Gate safe_gate(const JobLog& log) {
  if (!log.critical()) return {"no_critical_act", true, "No act that endangers life or vehicle."};
  return {"no_critical_act", false,
          fmt::format("A critical act closed the scored record: {}.", marks_in_words(log, MarkKind::critical))};
}

Gate supported_gate(const Support& support) {
  return {"supported", support.share >= full_support, support.reason};
}

ScoreLine diagnosis_line(const Support& support, const JobFacts& facts) {
  const double out_of = facts.scenario.weights.diagnosis;
  double points = out_of * std::min(1.0, support.share / full_support);
  std::string reason = support.reason;
  if (!facts.namings.empty() && !is_first_naming(facts)) {
    points *= 0.5;
    reason += fmt::format(" Naming {} of {}: half points.", facts.namings.size(), facts.namings.size());
  }
  return {"diagnosis", points, out_of, reason};
}

ScoreLine safety_line(const JobFacts& facts) {
  constexpr double per_omission = 0.5, per_slip = 0.3;  // of the points there are
  const double out_of = facts.scenario.weights.safety;
  const JobLog& log = facts.log;
  const int omissions = log.count(MarkKind::omission), slips = log.count(MarkKind::slip);
  if (log.critical()) return {"safety", 0.0, out_of, safe_gate(log).reason};
  if (omissions + slips == 0)
    return {"safety", out_of, out_of, "Every required step was in force at the moment of hazard."};
  std::string reason;
  if (omissions > 0) reason += fmt::format("Left out: {}. ", marks_in_words(log, MarkKind::omission));
  if (slips > 0) reason += fmt::format("Hard on the equipment: {}. ", marks_in_words(log, MarkKind::slip));
  reason += fmt::format("{:g} less {} x {:g} less {} x {:g}.", out_of, omissions, per_omission * out_of, slips,
                        per_slip * out_of);
  return {"safety", std::max(0.0, out_of * (1.0 - per_omission * omissions - per_slip * slips)), out_of, reason};
}

int tests_in(const decision::Plan& plan) {
  return static_cast<int>(std::count_if(plan.steps.begin(), plan.steps.end(), [](const decision::PlanStep& step) {
    return step.choice.kind == decision::Choice::Kind::test;
  }));
}

/// Minutes of work that no test accounts for: cranks for nothing, above all.
double idle_minutes(const std::vector<Step>& steps, const JobLog& log) {
  double idle = 0.0;
  for (const LogEntry& entry : log.entries()) idle += entry.counted && entry.what != "repair" ? entry.minutes : 0.0;
  for (const Step& step : steps) idle -= step.kind == Step::Kind::test ? step.minutes : 0.0;
  return std::max(0.0, idle);
}

ScoreLine economy_line(const std::vector<Step>& steps, const JobFacts& facts) {
  const double out_of = facts.scenario.weights.economy;
  const double par = std::max(facts.par.minutes, 1.0);
  double choices = 0.0;
  for (const Step& step : steps) choices += step.left_out ? 0.0 : step.regret_minutes;
  const double idle = idle_minutes(steps, facts.log);
  const double grace = std::max(3.0, 0.15 * par);
  const double regret = choices + idle > grace ? choices + idle : 0.0;
  return {
      "economy", out_of * std::max(0.0, 1.0 - regret / (2.0 * par)), out_of,
      fmt::format("The choices cost {:.1f} minutes more than the best ones could be expected to, and {:.1f} went on "
                  "work that asked nothing; {:.1f} are let pass. Par is {:.1f} minutes: {:g} x (1 - {:.1f}/(2 x "
                  "{:.1f})).",
                  choices, idle, grace, par, out_of, regret, par)};
}

ScoreLine method_line(const std::vector<Step>& steps, const JobFacts& facts) {
  constexpr double per_unable = 1.0, per_repeat = 1.0;
  const double out_of = facts.scenario.weights.method;
  int tests = 0, left_out = 0, unable = 0, repeats = 0;
  double rates = 0.0;
  std::string why;
  for (const Step& step : steps) {
    if (step.kind != Step::Kind::test) continue;
    ++tests;
    left_out += step.left_out ? 1 : 0;
    rates += step.left_out ? 0.0 : step.rate_share();
    repeats += step.repeated ? 1 : 0;
    if (step.able) continue;
    ++unable;
    why += fmt::format("{}finding {} was {}", why.empty() ? "" : ", ", step.finding, step.why_not);
  }
  if (tests == 0) return {"method", 0.0, out_of, "Nothing was noted before the repair."};
  // A battery check and a cheap confirmation are nobody's choice of method; they count as sound tests up to par's
  // number.
  const int least = tests_in(facts.par);
  const int weighed = tests - left_out;
  const double credited = rates + std::clamp(least - weighed, 0, left_out);
  const double share = credited / std::max(weighed, least);
  const double points = std::max(0.0, out_of * share - per_unable * unable - per_repeat * repeats);
  return {
      "method", points, out_of,
      fmt::format(
          "Tests: {}, beside battery checks and cheap confirmations: {}. The tests told on average {:.0f} % of what "
          "the best one at hand could have told in the time; the mean is over at least par's {}. Could not "
          "answer: {}{}. Repeated with nothing changed: {}. {:g} x {:.2f} - {} - {}.",
          weighed, left_out, weighed > 0 ? 100.0 * rates / weighed : 0.0, least, unable,
          why.empty() ? "" : " (" + why + ")", repeats, out_of, share, unable, repeats)};
}

void unpaid(ScoreLine& line) {
  line.points = 0.0;
  line.reason = "Pays only when every gate holds. " + line.reason;
}

}  // namespace

Score score_job(const JobFacts& facts) {
  const Support support = support_of(facts);
  const ScoreWeights& weights = facts.scenario.weights;
  const std::vector<Step> steps = steps_of(facts);
  Score score;
  score.gates = {cured_gate(facts), proved_gate(facts), safe_gate(facts.log), supported_gate(support)};
  const bool all_held = std::all_of(score.gates.begin(), score.gates.end(), [](const Gate& gate) { return gate.held; });
  const Gate& proved = score.gates[1];
  score.lines = {diagnosis_line(support, facts),
                 {"proof", proved.held ? weights.proof : 0.0, weights.proof, proved.reason},
                 safety_line(facts),
                 economy_line(steps, facts),
                 method_line(steps, facts)};
  if (!all_held) {
    unpaid(score.lines[3]);
    unpaid(score.lines[4]);
  }
  for (const ScoreLine& line : score.lines) score.total += line.points;
  const double cap = weights.pass_mark - cap_below_pass;
  if (facts.log.count(MarkKind::omission) > 0) score.total = std::min(score.total, cap);
  score.passed = all_held && score.total >= weights.pass_mark;
  return score;
}

}  // namespace voltfall
