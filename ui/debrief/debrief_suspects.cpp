#include <algorithm>
#include <set>

#include "debrief/debrief_parts.h"
#include "faults/catalogue.h"
#include "wording/filled.h"

namespace voltfall {
namespace {

using Ids = std::set<std::string>;

/// What the first so many findings leave possible, as far as they tell of the vehicle that came in.
class Possible {
 public:
  explicit Possible(const Session& session) : session_(session), facts_(session.facts()) {}

  std::vector<int> candidates_after(int findings) const {
    std::vector<Finding> evidence;
    for (const Finding& finding : session_.findings()) {
      if (finding.number <= findings && counts_as_evidence(finding, facts_)) evidence.push_back(finding);
    }
    const Diagnosis& diagnosis = facts_.diagnosis;
    return decision::consistent_candidates(diagnosis.problem(), diagnosis.seen_in(evidence, session_.scenario()));
  }

  const std::vector<std::string>& faults_of(int candidate) const {
    return facts_.diagnosis.hypotheses().candidates[static_cast<std::size_t>(candidate)].fault_ids;
  }

  /// Every fault that is possible, alone or beside another.
  Ids faults_after(int findings) const {
    Ids ids;
    for (const int candidate : candidates_after(findings))
      ids.insert(faults_of(candidate).begin(), faults_of(candidate).end());
    return ids;
  }

 private:
  const Session& session_;
  JobFacts facts_;
};

std::string candidate_text(const std::vector<std::string>& fault_ids, const Wording& words) {
  if (fault_ids.empty()) return std::string(words.text("debrief.nothing_wrong"));
  std::vector<std::string> names;
  names.reserve(fault_ids.size());
  for (const std::string& id : fault_ids) names.emplace_back(words.fault(id));
  return enumerated(names);
}

std::string too_soon_text(const SuspectMark& mark, const Wording& words) {
  return filled(words, mark.findings_then > 0 ? "debrief.too_soon_item" : "debrief.too_soon_at_start",
                fmt::arg("fault", words.fault(mark.fault_id)), fmt::arg("finding", mark.findings_then));
}

/// Each fault once, by its first strike that nothing had excluded it for.
std::vector<std::string> struck_too_soon(const Session& session, const Possible& possible, const Wording& words) {
  std::vector<std::string> said;
  Ids seen;
  for (const SuspectMark& mark : session.suspect_marks()) {
    if (!mark.struck || seen.contains(mark.fault_id)) continue;
    if (!possible.faults_after(mark.findings_then).contains(mark.fault_id)) continue;
    seen.insert(mark.fault_id);
    said.push_back(too_soon_text(mark, words));
  }
  return said;
}

DebriefList list_of(std::string_view path, std::vector<std::string> names, const Wording& words) {
  // Somebody who strikes nothing keeps the whole catalogue: nobody reads eighty names.
  constexpr std::size_t most_named = 12;
  if (names.size() > most_named) {
    const std::size_t more = names.size() - most_named;
    names.resize(most_named);
    names.push_back(filled(words, "debrief.and_more", fmt::arg("count", more)));
  }
  if (names.empty()) names.emplace_back(words.text("debrief.nobody"));
  return {std::string(words.text(path)), std::move(names)};
}

}  // namespace

void add_suspects(const Session& session, const Wording& words, DebriefContents& contents) {
  const Possible possible(session);
  const int all_findings = static_cast<int>(session.findings().size());
  const std::vector<int> left = possible.candidates_after(all_findings);
  const Ids possible_now = possible.faults_after(all_findings);
  const auto& struck = session.struck_suspects();

  std::vector<std::string> consistent, left_out, kept;
  for (const int candidate : left) consistent.push_back(candidate_text(possible.faults_of(candidate), words));
  int on_this_vehicle = 0;
  for (const Fault& fault : all_faults()) {
    if (!fault.can_be_on(session.scenario().healthy)) continue;
    ++on_this_vehicle;
    const std::string id(fault.id);
    const bool could_be = possible_now.contains(id);
    if (could_be && struck.contains(id)) left_out.emplace_back(words.fault(id));
    if (!could_be && !struck.contains(id)) kept.emplace_back(words.fault(id));
  }
  contents.suspects_sum =
      session.suspect_marks().empty() ? std::string(words.text("debrief.suspects_none_struck")) + " " : "";
  contents.suspects_sum += filled(words, "debrief.suspects_counts", fmt::arg("struck", struck.size()),
                                  fmt::arg("all", on_this_vehicle), fmt::arg("possible", left.size()));
  contents.suspects = {list_of("debrief.suspects_possible", std::move(consistent), words),
                       list_of("debrief.suspects_left_out", std::move(left_out), words),
                       list_of("debrief.suspects_too_soon", struck_too_soon(session, possible, words), words),
                       list_of("debrief.suspects_kept", std::move(kept), words)};
}

}  // namespace voltfall
