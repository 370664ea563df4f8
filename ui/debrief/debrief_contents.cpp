#include "debrief/debrief_contents.h"

#include "debrief/debrief_parts.h"
#include "wording/filled.h"

namespace voltfall {
namespace {

std::string names_of(const std::vector<std::string>& ids, const Wording& words) {
  std::vector<std::string> names;
  names.reserve(ids.size());
  for (const std::string& id : ids) names.emplace_back(words.fault(id));
  return enumerated(names);
}

void add_what_it_was(const Session& session, const Wording& words, DebriefContents& contents) {
  auto& said = contents.what_it_was;
  for (const HiddenFault& hidden : session.scenario().faults) {
    said.push_back(filled(words, "debrief.hidden", fmt::arg("fault", words.fault(hidden.id)),
                          fmt::arg("found", words.found(hidden.id))));
  }
  if (said.empty()) said.emplace_back(words.text("debrief.hidden_nothing"));
  const auto& namings = session.namings();
  if (namings.empty()) said.emplace_back(words.text("debrief.named_nothing"));
  for (std::size_t i = 0; i < namings.size(); ++i) {
    if (i > 0 && i + 1 < namings.size())
      continue;  // the first counts full, the last counts half; what lies between, nothing
    said.push_back(filled(words, i == 0 ? "debrief.named" : "debrief.named_again",
                          fmt::arg("fault", names_of(namings[i].fault_ids, words))));
  }
}

void add_score(const Score& score, const Wording& words, DebriefContents& contents) {
  constexpr double good_share = 0.7;
  contents.verdict = verdict_text(score);
  for (const Gate& gate : score.gates) {
    contents.gates.push_back(
        {gate.held, std::string(words.gate(gate.id)), gate.held ? "held" : "not held", gate.reason});
  }
  for (const ScoreLine& line : score.lines) {
    contents.points.push_back({line.points >= good_share * line.out_of, std::string(words.score_part(line.part)),
                               fmt::format("{:.1f} of {:.0f}", line.points, line.out_of), line.reason});
  }
}

std::string_view path_of(MarkKind kind) {
  switch (kind) {
    case MarkKind::critical:
      return "debrief.safety_critical";
    case MarkKind::omission:
      return "debrief.safety_omission";
    case MarkKind::slip:
      return "debrief.safety_slip";
  }
  return "";
}

void add_safety(const Session& session, const Wording& words, DebriefContents& contents) {
  for (const SafetyMark& mark : session.log().marks()) {
    contents.safety.push_back(filled(words, path_of(mark.kind),
                                     fmt::arg("minute", fmt::format("{:.0f}", mark.at_minute)),
                                     fmt::arg("what", words.outcome(mark.id))));
  }
  if (contents.safety.empty()) contents.safety.emplace_back(words.text("debrief.safety_clean"));
}

FallComparison compared(const Session& session) {
  const Scenario& scenario = session.scenario();
  return {settled_fall(scenario.healthy, scenario.rest), settled_fall(scenario.faulty(), scenario.rest),
          settled_fall(session.rig().parameters(), scenario.rest)};
}

}  // namespace

std::string verdict_text(const Score& score) {
  return fmt::format("{}: {:.1f} of 100", score.passed ? "Passed" : "Not passed", score.total);
}

std::string enumerated(const std::vector<std::string>& items) {
  std::string all;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) all += i + 1 == items.size() ? " and " : ", ";
    all += items[i];
  }
  return all;
}

DebriefContents debrief_contents(const Session& session, const Wording& words) {
  const Scenario& scenario = session.scenario();
  DebriefContents contents;
  contents.title = scenario.title;
  contents.vehicle = scenario.vehicle_name;
  contents.currency = scenario.currency;
  contents.author = scenario.debrief;
  add_what_it_was(session, words, contents);
  add_score(*session.score(), words, contents);
  add_safety(session, words, contents);
  add_timeline(session, words, contents);
  add_par(session, words, contents);
  add_suspects(session, words, contents);
  add_check(session, words, contents);
  contents.falls = compared(session);
  return contents;
}

}  // namespace voltfall
