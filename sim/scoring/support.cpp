#include <fmt/format.h>

#include <algorithm>

#include "job/looks.h"
#include "limits/limits.h"
#include "scoring/score_job.h"

// Whether the naming is right, and whether the findings picked carry it. Until beliefs are computed, support is 1 or 0.

namespace voltfall {
namespace {

constexpr std::string_view nothing_found = "nothing_found";

bool same_pairs(const Fault& one, const Fault& other) {
  return std::equal(one.proof.begin(), one.proof.end(), other.proof.begin(), other.proof.end(),
                    [](const ProvingPair& a, const ProvingPair& b) {
                      return a.first == b.first && a.second == b.second && a.limit == b.limit;
                    });
}

// Faults of one component that the same readings and signs prove can't be told apart with this kit: one group.
bool same_group(const Fault& one, const Fault& other) {
  return one.id == other.id || (one.component == other.component && same_pairs(one, other) && one.signs == other.signs);
}

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

const Fault* naming_of(const HiddenFault& hidden, const Naming& naming) {
  const Fault& fault = *fault_named(hidden.id);
  for (const std::string& id : naming.fault_ids) {
    const Fault* named = fault_named(id);
    if (named != nullptr && same_group(*named, fault)) return named;
  }
  return nullptr;
}

}  // namespace

Support support_of(const JobFacts& facts) {
  if (facts.namings.empty()) return {0.0, "Nothing was named."};
  const Naming& naming = facts.namings.back();
  const auto& hidden = facts.scenario.faults;
  const bool named_nothing = naming.fault_ids.front() == nothing_found;
  if (named_nothing && hidden.empty()) return support_for_nothing(naming, facts);
  if (naming.fault_ids.size() != hidden.size()) return wrong_naming(naming, facts);
  Support lowest{1.0, ""};
  for (const HiddenFault& fault : hidden) {
    const Fault* named = naming_of(fault, naming);
    if (named == nullptr) return wrong_naming(naming, facts);
    const Support support = support_for(*named, naming, facts);
    lowest.share = std::min(lowest.share, support.share);
    lowest.reason += (lowest.reason.empty() ? "" : " ") + support.reason;
  }
  return lowest;
}

}  // namespace voltfall
