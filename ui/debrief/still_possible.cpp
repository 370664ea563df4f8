#include "debrief/still_possible.h"

#include <algorithm>
#include <cmath>

#include "wording/filled.h"

namespace voltfall {
namespace {

/// Share of what was named, and of what this kit can't tell from it; 0 for what no vehicle here can have.
double share_of(int candidate, const std::vector<Finding>& findings, const Diagnosis& diagnosis,
                const Scenario& scenario) {
  if (candidate < 0) return 0.0;
  return diagnosis.share_of_group(candidate, diagnosis.belief_after(diagnosis.seen_in(findings, scenario)));
}

/// A finding made while an intermittent fault was away tells of another vehicle.
std::vector<Finding> telling(std::vector<Finding> findings) {
  std::erase_if(findings, [](const Finding& finding) { return !finding.faults_there; });
  return findings;
}

std::vector<Finding> picked(const Naming& naming, const std::vector<Finding>& findings) {
  std::vector<Finding> chosen;
  for (const int number : naming.evidence) chosen.push_back(findings[static_cast<std::size_t>(number - 1)]);
  return chosen;
}

std::string candidate_text(const std::vector<std::string>& fault_ids, const Wording& words) {
  if (fault_ids.empty()) return std::string(words.text("debrief.nothing_wrong"));
  std::string names;
  for (const std::string& id : fault_ids) names += (names.empty() ? "" : " + ") + std::string(words.fault(id));
  return names;
}

/// The first other candidate that explains everything, and how many there are besides.
std::string others_text(int named, const std::vector<Finding>& findings, const Diagnosis& diagnosis,
                        const Scenario& scenario, const Wording& words) {
  std::vector<int> others = decision::consistent_candidates(diagnosis.problem(), diagnosis.seen_in(findings, scenario));
  std::erase(others, named);
  if (others.empty()) return "";
  const auto& candidates = diagnosis.hypotheses().candidates;
  // One fault before two at once.
  const auto simple = std::find_if(others.begin(), others.end(), [&](int candidate) {
    return candidates[static_cast<std::size_t>(candidate)].fault_ids.size() == 1;
  });
  const int shown = simple == others.end() ? others.front() : *simple;
  std::string first = candidate_text(candidates[static_cast<std::size_t>(shown)].fault_ids, words);
  if (others.size() == 1) return first;
  return filled(words, "debrief.others_more", fmt::arg("first", first), fmt::arg("count", others.size() - 1));
}

}  // namespace

std::string still_possible(const Scenario& scenario, const std::vector<Finding>& findings, const Naming& naming,
                           std::shared_ptr<const SignatureTable> table, const Wording& words) {
  const Diagnosis diagnosis(scenario, std::move(table), questions_besides(findings, scenario));
  const bool nothing = naming.fault_ids.front() == "nothing_found";
  const int named = nothing ? 0 : diagnosis.candidate_of(naming.fault_ids);
  const std::vector<Finding> all = telling(findings);
  const double share = std::min(share_of(named, telling(picked(naming, findings)), diagnosis, scenario),
                                share_of(named, all, diagnosis, scenario));
  if (share >= full_support) return "";
  const std::string others = others_text(named, all, diagnosis, scenario, words);
  return filled(words, others.empty() ? "debrief.still_unlikely" : "debrief.still_possible", fmt::arg("others", others),
                fmt::arg("share", std::lround(std::floor(100.0 * share))));
}

}  // namespace voltfall
