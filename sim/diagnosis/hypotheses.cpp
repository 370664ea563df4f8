#include "diagnosis/hypotheses.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>

#include "rig/settable.h"

namespace voltfall {
namespace {

// Beside the faults; from memory, for no source gives them: sound vehicles sent in, two faults at once, all else.
constexpr double nothing_prior = 0.03, pairs_prior = 0.03, unknown_prior = 0.02;

/// One step from the usual severity towards the end that is further off (as a ratio): what a vehicle does changes most
/// there, and a severity that lies between would else be like none of the three.
double between(const Fault& fault) {
  constexpr double step = 0.25;
  const bool down = fault.usual / fault.lowest > fault.highest / fault.usual;
  return fault.usual * std::pow((down ? fault.lowest : fault.highest) / fault.usual, step);
}

std::vector<double> severities_of(const Fault& fault) {
  if (!fault.has_degrees()) return {fault.usual};
  constexpr double wide_ratio = 4.0;
  std::vector<double> severities{fault.lowest, fault.usual, fault.highest};
  const double wider = std::max(fault.usual / fault.lowest, fault.highest / fault.usual);
  if (wider > wide_ratio) severities.push_back(between(fault));
  std::sort(severities.begin(), severities.end());
  severities.erase(std::unique(severities.begin(), severities.end()), severities.end());
  return severities;
}

/// On an unusual vehicle a fault can push a value beyond what the model is good for: it is not looked for there.
bool within_model(const std::vector<HiddenFault>& faults, const RigParameters& healthy) {
  const RigParameters faulty = parameters_under({faults, 0}, healthy);
  const auto settables = all_settables();
  return contradiction_in(faulty).empty() &&
         std::all_of(settables.begin(), settables.end(), [&](const Settable& settable) {
           const double value = settable.value_in(faulty);
           return value >= settable.lowest && value <= settable.highest;
         });
}

double prior_of(FaultClass fault_class, const Scenario& scenario) {
  const auto own = scenario.priors.find(fault_class);
  return own == scenario.priors.end() ? usual_prior(fault_class) : own->second;
}

class Builder {
 public:
  explicit Builder(const Scenario& scenario) : scenario_(scenario) {}

  Hypotheses build() {
    add({}, {{}}, nothing_prior);
    add_single_faults();
    add_pairs();
    double sum = 0.0;
    for (const Candidate& candidate : made_.candidates) sum += candidate.prior;
    for (Candidate& candidate : made_.candidates) candidate.prior *= (1.0 - unknown_prior) / sum;
    made_.candidates.push_back({{}, unknown_prior});
    return std::move(made_);
  }

 private:
  void add(std::vector<std::string> ids, const std::vector<std::vector<HiddenFault>>& ways, double prior) {
    const int candidate = static_cast<int>(made_.candidates.size());
    bool any = false;
    for (const auto& faults : ways) {
      if (!within_model(faults, scenario_.typical)) continue;
      made_.all.push_back({faults, candidate});
      any = true;
    }
    if (any) made_.candidates.push_back({std::move(ids), prior});
  }

  void add_single_faults() {
    std::map<FaultClass, int> in_class;
    for (const Fault& fault : all_faults()) in_class[fault.fault_class] += fault.can_be_on(scenario_.typical) ? 1 : 0;
    for (const Fault& fault : all_faults()) {
      if (!fault.can_be_on(scenario_.typical)) continue;
      std::vector<std::vector<HiddenFault>> ways;
      for (const double severity : severities_of(fault)) ways.push_back({{std::string(fault.id), severity}});
      add({std::string(fault.id)}, ways, prior_of(fault.fault_class, scenario_) / in_class[fault.fault_class]);
    }
  }

  void add_pairs() {
    std::map<std::vector<std::string>, std::optional<double>> shares;  // empty: one of many alike
    const auto add = [&](std::vector<std::string> ids, std::optional<double> share) {
      std::sort(ids.begin(), ids.end());
      std::optional<double>& kept = shares[std::move(ids)];
      if (share) kept = share;
    };
    for (const FaultPair& pair : all_pairs()) add({std::string(pair.cause), std::string(pair.casualty)}, {});
    for (const DeclaredPair& pair : scenario_.pairs) add({pair.cause, pair.casualty}, pair.share);
    std::vector<std::string> hidden;
    for (const HiddenFault& fault : scenario_.faults) hidden.push_back(fault.id);
    if (hidden.size() > 1) add(std::move(hidden), {});
    const double usual_share = pairs_prior / static_cast<double>(shares.size());
    for (const auto& [ids, share] : shares) add_pair(ids, share.value_or(usual_share));
  }

  /// All of them at their lowest, and so on up.
  void add_pair(const std::vector<std::string>& ids, double prior) {
    std::vector<std::vector<HiddenFault>> ways(4);
    for (const std::string& id : ids) {
      const Fault& fault = *fault_named(id);
      if (!fault.can_be_on(scenario_.typical)) return;
      const std::vector<double> severities = severities_of(fault);
      for (std::size_t way = 0; way < ways.size(); ++way) {
        ways[way].push_back({id, severities[std::min(way, severities.size() - 1)]});
      }
    }
    add(ids, ways, prior);
  }

  const Scenario& scenario_;
  Hypotheses made_;
};

}  // namespace

double usual_prior(FaultClass fault_class) {
  switch (fault_class) {
    case FaultClass::battery:
      return 0.40;
    case FaultClass::joint:
    case FaultClass::ground:
      return 0.08;
    case FaultClass::cable:
      return 0.04;
    case FaultClass::relay:
      return 0.09;
    case FaultClass::control:
      return 0.13;
    case FaultClass::starter_electrical:
      return 0.08;
    case FaultClass::starter_mechanical:
    case FaultClass::engine:
      return 0.05;
  }
  return 0.0;
}

Hypotheses hypotheses_for(const Scenario& scenario) {
  return Builder(scenario).build();
}

RigParameters parameters_under(const Hypothesis& hypothesis, const RigParameters& healthy) {
  RigParameters parameters = healthy;
  for (const HiddenFault& fault : hypothesis.faults) {
    parameters = with_fault(parameters, *fault_named(fault.id), fault.severity);
  }
  return parameters;
}

}  // namespace voltfall
