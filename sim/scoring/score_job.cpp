#include "scoring/score_job.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace voltfall {
namespace {

constexpr double pass_mark = 70.0, cap_with_omission = 69.0;
constexpr double full_support = 0.80;

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
  double points = 40.0 * std::min(1.0, support.share / full_support);
  std::string reason = support.reason;
  if (!facts.namings.empty() && !is_first_naming(facts)) {
    points *= 0.5;
    reason += fmt::format(" Naming {} of {}: half points.", facts.namings.size(), facts.namings.size());
  }
  return {"diagnosis", points, 40.0, reason};
}

ScoreLine safety_line(const JobLog& log) {
  constexpr double per_omission = 5.0, per_slip = 3.0;
  const int omissions = log.count(MarkKind::omission), slips = log.count(MarkKind::slip);
  if (log.critical()) return {"safety", 0.0, 10.0, safe_gate(log).reason};
  if (omissions + slips == 0)
    return {"safety", 10.0, 10.0, "Every required step was in force at the moment of hazard."};
  std::string reason;
  if (omissions > 0) reason += fmt::format("Left out: {}. ", marks_in_words(log, MarkKind::omission));
  if (slips > 0) reason += fmt::format("Hard on the equipment: {}. ", marks_in_words(log, MarkKind::slip));
  reason += fmt::format("10 less {} x 5 less {} x 3.", omissions, slips);
  return {"safety", std::max(0.0, 10.0 - per_omission * omissions - per_slip * slips), 10.0, reason};
}

ScoreLine economy_line(const JobFacts& facts) {
  const double par = std::max(facts.scenario.par_minutes, 1.0);
  const double labour_per_minute = facts.scenario.labour_per_hour > 0.0 ? facts.scenario.labour_per_hour / 60.0 : 1.0;
  const double wasted_minutes = facts.log.wasted_money() / labour_per_minute;
  const double grace = std::max(3.0, 0.15 * par);
  const double beyond = facts.log.counted_minutes() - par;
  const double excess = (beyond > grace ? beyond : 0.0) + wasted_minutes;
  const double points = 20.0 * std::max(0.0, 1.0 - excess / (2.0 * par));
  return {"economy", points, 20.0,
          fmt::format(
              "{:.1f} minutes of tests and repairs against a par of {:.1f} (nothing off within {:.1f}), {:.2f} {} "
              "on parts that cured nothing ({:.1f} minutes' labour): excess {:.1f}; 20 x (1 - {:.1f}/(2 x {:.1f})).",
              facts.log.counted_minutes(), par, grace, facts.log.wasted_money(), facts.scenario.currency,
              wasted_minutes, excess, excess, par)};
}

bool is_repeat(const Finding& finding, const std::vector<Finding>& findings) {
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& earlier) {
    if (earlier.number >= finding.number || earlier.kind != finding.kind || earlier.state != finding.state)
      return false;
    if (earlier.headlamps != finding.headlamps || earlier.hold != finding.hold) return false;
    if (earlier.repairs_before != finding.repairs_before || earlier.clamp != finding.clamp) return false;
    return finding.clamp || earlier.is_between(*finding.red, *finding.black);
  });
}

// Tests are the readings noted before the last naming: what comes later is proof.
ScoreLine method_line(const JobFacts& facts) {
  int tests = 0, able = 0, repeats = 0;
  std::string unable;
  for (const Finding& finding : facts.findings) {
    if (facts.namings.empty() || finding.number > facts.namings.back().findings_then || !finding.is_reading()) continue;
    ++tests;
    if (is_repeat(finding, facts.findings)) ++repeats;
    const TestWorth worth = worth_of(finding, facts.scenario);
    able += worth.able ? 1 : 0;
    if (!worth.able)
      unable += fmt::format("{}finding {} was {}", unable.empty() ? "" : ", ", finding.number, worth.why);
  }
  if (tests == 0) return {"method", 0.0, 15.0, "No reading was noted before the naming."};
  const double points = std::max(0.0, 15.0 * able / tests - repeats);
  return {"method", points, 15.0,
          fmt::format("{} of {} readings could answer their question{}{}; {} unchanged repeats: 15 x {}/{} - {}.", able,
                      tests, unable.empty() ? "" : ": ", unable, repeats, able, tests, repeats)};
}

void unpaid(ScoreLine& line) {
  line.points = 0.0;
  line.reason = "Pays only when every gate holds. " + line.reason;
}

}  // namespace

Score score_job(const JobFacts& facts) {
  const Support support = support_of(facts);
  Score score;
  score.gates = {cured_gate(facts), proved_gate(facts), safe_gate(facts.log), supported_gate(support)};
  const bool all_held = std::all_of(score.gates.begin(), score.gates.end(), [](const Gate& gate) { return gate.held; });
  const Gate& proved = score.gates[1];
  score.lines = {diagnosis_line(support, facts),
                 {"proof", proved.held ? 15.0 : 0.0, 15.0, proved.reason},
                 safety_line(facts.log),
                 economy_line(facts),
                 method_line(facts)};
  if (!all_held) {
    unpaid(score.lines[3]);
    unpaid(score.lines[4]);
  }
  for (const ScoreLine& line : score.lines) score.total += line.points;
  if (facts.log.count(MarkKind::omission) > 0) score.total = std::min(score.total, cap_with_omission);
  score.passed = all_held && score.total >= pass_mark;
  return score;
}

}  // namespace voltfall
