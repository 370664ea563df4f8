#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "job/looks.h"
#include "limits/limits.h"
#include "scoring/score_job.h"

// Whether the naming is right, and whether the findings carry it.

namespace voltfall {
namespace {

constexpr std::string_view nothing_found = "nothing_found";

std::vector<const Finding*> picked(const Naming& naming, const std::vector<Finding>& findings) {
  std::vector<const Finding*> chosen;
  for (const int number : naming.evidence) chosen.push_back(&findings[static_cast<std::size_t>(number - 1)]);
  return chosen;
}

bool fails(const Fault& fault, const Finding& finding, const Scenario& scenario) {
  return std::any_of(fault.proof.begin(), fault.proof.end(),
                     [&](const ProvingPair& pair) { return judged_by(pair, finding, scenario) == Judged::outside; });
}

bool is_its_sign(const Fault& fault, const Finding& finding) {
  if (finding.kind == Finding::Kind::looked) {
    return finding.component == fault.component && look_proves(finding.observation);
  }
  const auto& signs = fault.signs;
  return finding.kind == Finding::Kind::heard_or_seen && finding.observation_true &&
         std::find(signs.begin(), signs.end(), finding.observation) != signs.end();
}

std::string limit_text(const Fault& fault, const Finding& finding, const Scenario& scenario) {
  for (const ProvingPair& pair : fault.proof) {
    if (judged_by(pair, finding, scenario) == Judged::outside) {
      return " (" + limit_in_words(limit_in_force(pair.limit, scenario)) + ")";
    }
  }
  return {};
}

std::string named_words(const Naming& naming) {
  std::string words;
  for (const std::string& id : naming.fault_ids) words += (words.empty() ? "" : " and ") + plain_words(id);
  return words;
}

std::string hidden_words(const Scenario& scenario) {
  std::string words;
  for (const HiddenFault& hidden : scenario.faults) words += (words.empty() ? "" : " and ") + plain_words(hidden.id);
  return words.empty() ? "nothing" : words;
}

Support wrong_naming(const Naming& naming, const JobFacts& facts) {
  std::string reason =
      fmt::format("You named {}; what was wrong was {}.", named_words(naming), hidden_words(facts.scenario));
  for (const Finding& finding : facts.findings) {
    for (const HiddenFault& hidden : facts.scenario.faults) {
      const Fault& fault = *fault_named(hidden.id);
      if (!fails(fault, finding, facts.scenario)) continue;
      reason += fmt::format(" Your own finding {} pointed there: {}{}.", finding.number, in_words(finding),
                            limit_text(fault, finding, facts.scenario));
      return {0.0, reason};
    }
  }
  return {0.0, reason + " No reading you noted was of that part under load."};
}

Support support_for_nothing(const Naming& naming, const JobFacts& facts) {
  const auto chosen = picked(naming, facts.findings);
  const auto sound = std::find_if(chosen.begin(), chosen.end(), [&](const Finding* finding) {
    const auto keys = all_limit_keys();
    return std::any_of(keys.begin(), keys.end(), [&](const LimitKey& key) {
      return key.id == "battery_cranking" &&
             judged_by({TestPoint::battery_positive_post, TestPoint::negative_post, key.id}, *finding,
                       facts.scenario) == Judged::inside;
    });
  });
  if (sound == chosen.end()) {
    return {0.0, "Nothing wrong was found, but the evidence holds no battery reading inside its limit while cranking."};
  }
  return {1.0, fmt::format("Nothing is wrong, and finding {} shows it under load: {}.", (*sound)->number,
                           in_words(**sound))};
}

Support support_for(const Fault& named, const Naming& naming, const JobFacts& facts) {
  for (const Finding* finding : picked(naming, facts.findings)) {
    if (fails(named, *finding, facts.scenario)) {
      return {1.0, fmt::format("Finding {} is the failing of the {} itself: {}{}.", finding->number,
                               plain_words(named.component), in_words(*finding),
                               limit_text(named, *finding, facts.scenario))};
    }
    if (is_its_sign(named, *finding)) {
      return {1.0, fmt::format("Finding {} is the failing of the {} itself: {}.", finding->number,
                               plain_words(named.component), in_words(*finding))};
    }
  }
  return {0.0, fmt::format("{} was named, but none of the {} findings picked shows the {} itself failing.",
                           plain_words(named.id), naming.evidence.size(), plain_words(named.component))};
}

/// Share of the truth's group, from these findings alone. Where nothing is wrong, of all that would leave the crank as
/// sound as it is: a fault that brings no complaint may always be there.
double share_from(const std::vector<Finding>& findings, const JobFacts& facts) {
  const Diagnosis& diagnosis = facts.diagnosis;
  const decision::Belief belief = diagnosis.belief_after(diagnosis.seen_in(findings, facts.scenario));
  const bool nothing = facts.scenario.faults.empty();
  return decision::share_of(
      nothing ? diagnosis.cranking_soundly() : decision::group_of(diagnosis.problem(), diagnosis.truth()), belief);
}

/// The named thing is what is wrong, or can't be told from it with this kit.
bool is_named_right(const Naming& naming, const Diagnosis& diagnosis) {
  const bool nothing = naming.fault_ids.front() == nothing_found;
  const int named = nothing ? 0 : diagnosis.candidate_of(naming.fault_ids);
  const auto group = decision::group_of(diagnosis.problem(), diagnosis.truth());
  const auto candidates = decision::candidates_in(diagnosis.problem(), group);
  return std::find(candidates.begin(), candidates.end(), named) != candidates.end();
}

std::vector<Finding> evidence_among(const std::vector<Finding>& findings, const JobFacts& facts) {
  std::vector<Finding> evidence;
  std::copy_if(findings.begin(), findings.end(), std::back_inserter(evidence),
               [&](const Finding& finding) { return counts_as_evidence(finding, facts); });
  return evidence;
}

/// A failing of each named thing has to be among the findings picked.
Support shown_by_picks(const Naming& naming, const JobFacts& facts) {
  if (naming.fault_ids.front() == nothing_found) return support_for_nothing(naming, facts);
  Support lowest{1.0, ""};
  for (const std::string& id : naming.fault_ids) {
    const Support support = support_for(*fault_named(id), naming, facts);
    lowest.share = std::min(lowest.share, support.share);
    lowest.reason += (lowest.reason.empty() ? "" : " ") + support.reason;
  }
  return lowest;
}

}  // namespace

bool counts_as_evidence(const Finding& finding, const JobFacts& facts) {
  const auto& hidden = facts.scenario.faults;
  const bool mended_before = std::any_of(
      facts.repairs_done.begin(), facts.repairs_done.begin() + finding.repairs_before, [&](const std::string& repair) {
        return std::any_of(hidden.begin(), hidden.end(), [&](const HiddenFault& fault) {
          return mends(*repair_named(repair), *fault_named(fault.id));
        });
      });
  return finding.faults_there && !mended_before;
}

Support support_of(const JobFacts& facts) {
  if (facts.namings.empty()) return {0.0, "Nothing was named."};
  const Naming& naming = facts.namings.back();
  if (!is_named_right(naming, facts.diagnosis)) return wrong_naming(naming, facts);
  Support support = shown_by_picks(naming, facts);
  std::vector<Finding> picks;
  for (const Finding* finding : picked(naming, facts.findings)) picks.push_back(*finding);
  const std::vector<Finding> all(facts.findings.begin(), facts.findings.begin() + naming.findings_then);
  const double from_picks = share_from(evidence_among(picks, facts), facts);
  const double from_all = share_from(evidence_among(all, facts), facts);
  support.share *= std::min(from_picks, from_all);
  support.reason += fmt::format(
      " The findings picked give it a probability of {:.2f}, all {} findings {:.2f}; the lower counts, and {:.2f} is "
      "asked.",
      from_picks, all.size(), from_all, full_support);
  return support;
}

}  // namespace voltfall
