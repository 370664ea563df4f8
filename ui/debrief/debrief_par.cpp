#include <cmath>

#include "debrief/debrief_parts.h"
#include "wording/filled.h"
#include "wording/question_words.h"

namespace voltfall {
namespace {

std::string repairs_text(const std::vector<std::string>& ids, const Wording& words) {
  if (ids.empty()) return filled(words, "debrief.par_sound");
  std::vector<std::string> names;
  names.reserve(ids.size());
  for (const std::string& id : ids) names.emplace_back(words.repair(id));
  return filled(words, "debrief.par_repair", fmt::arg("repair", enumerated(names)));
}

std::string choice_text(const decision::PlanStep& step, const Diagnosis& diagnosis, const Wording& words) {
  const auto index = static_cast<std::size_t>(step.choice.index);
  if (step.choice.kind == decision::Choice::Kind::repair) return repairs_text(diagnosis.repairs()[index], words);
  const Question& question = diagnosis.questions()[index];
  return filled(words, "debrief.par_test", fmt::arg("test", question_in_words(question, words)),
                fmt::arg("answer", answer_words(question, step.outcome, words)));
}

}  // namespace

void add_par(const Session& session, const Wording& words, DebriefContents& contents) {
  const JobFacts facts = session.facts();
  const decision::Plan& plan = facts.par;
  double at_minute = 0.0;
  for (const decision::PlanStep& step : plan.steps) {
    DebriefStep shown{at_minute, step.minutes, 0.0, choice_text(step, facts.diagnosis, words), {}, false};
    if (step.choice.kind == decision::Choice::Kind::test) {
      shown.notes.push_back(
          filled(words, "debrief.par_share", fmt::arg("share", std::lround(100.0 * step.truth_share))));
    }
    contents.par.push_back(std::move(shown));
    at_minute += step.minutes;
  }
  contents.par_sum = filled(words, plan.cured ? "debrief.par_in_all" : "debrief.par_not_cured",
                            fmt::arg("minutes", fmt::format("{:.0f}", plan.minutes)));
}

}  // namespace voltfall
