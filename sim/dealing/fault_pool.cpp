#include "dealing/fault_pool.h"

#include <algorithm>
#include <map>
#include <random>

#include "diagnosis/question.h"
#include "hearing/crank_watch.h"

namespace voltfall {
namespace {

constexpr std::array<std::string_view, 3> lamp_words{"lamps_bright", "lamps_dim", "lamps_out"};

/// The word a person would use first of those that hold; empty when none does.
template <typename Words, typename Holds>
std::string_view first_word(const Words& words, const Holds& holds) {
  const auto found = std::find_if(words.begin(), words.end(), holds);
  return found == words.end() ? std::string_view{} : *found;
}

std::string_view sound_of(const std::vector<std::string>& heard) {
  return first_word(sound_words(),
                    [&](std::string_view word) { return std::find(heard.begin(), heard.end(), word) != heard.end(); });
}

std::string_view lamps_of(const std::vector<std::string>& heard) {
  return first_word(lamp_words,
                    [&](std::string_view word) { return std::find(heard.begin(), heard.end(), word) != heard.end(); });
}

bool allowed(const Scenario& scenario, const std::string& id) {
  const auto& own = scenario.deal_faults;
  return own.empty() || std::find(own.begin(), own.end(), id) != own.end();
}

bool alike(const std::vector<std::string>& key_alone, const std::vector<std::string>& with_lamps,
           const Scenario& original, const VetReport& report) {
  if (sound_of(key_alone) != sound_of(report.key_alone.faulty)) return false;
  return !original.symptoms.empty() || lamps_of(with_lamps) == lamps_of(report.with_lamps.faulty);
}

/// One severity alone matches: a little to either side of it may as well.
void widen(PoolFault& one) {
  constexpr double aside = 0.15;
  const Fault& fault = *fault_named(one.id);
  if (!fault.has_degrees() || one.lowest < one.highest) return;
  one = {one.id, std::max(fault.lowest, one.lowest * (1.0 - aside)),
         std::min(fault.highest, one.highest * (1.0 + aside))};
}

}  // namespace

std::vector<PoolFault> fault_pool(const Scenario& scenario, const SignatureTable& table, const VetReport& report,
                                  std::uint64_t seed) {
  std::map<std::string, PoolFault> by_id;
  const auto add = [&](const HiddenFault& fault) {
    const auto [at, is_new] = by_id.emplace(fault.id, PoolFault{fault.id, fault.severity, fault.severity});
    at->second.lowest = std::min(at->second.lowest, fault.severity);
    at->second.highest = std::max(at->second.highest, fault.severity);
  };
  for (std::size_t i = 0; i < table.hypotheses.all.size(); ++i) {
    const auto& faults = table.hypotheses.all[i].faults;
    if (faults.size() != 1 || !allowed(scenario, faults.front().id)) continue;
    const Signature& shows = table.signatures[i];
    const bool fits = alike(observations_in(shows.at(Condition::cranking)),
                            observations_in(shows.at(Condition::cranking_lamps)), scenario, report);
    if (fits) add(faults.front());
  }
  if (scenario.faults.size() == 1 && allowed(scenario, scenario.faults.front().id)) add(scenario.faults.front());
  std::vector<PoolFault> pool;
  pool.reserve(by_id.size());
  for (auto& [id, fault] : by_id) pool.push_back(std::move(fault));
  for (PoolFault& fault : pool) widen(fault);
  std::mt19937_64 bits(seed);
  for (std::size_t i = pool.size(); i > 1; --i) std::swap(pool[i - 1], pool[bits() % i]);
  return pool;
}

bool tells_same_tale(const VetReport& variant, const Scenario& original, const VetReport& original_report) {
  return alike(variant.key_alone.faulty, variant.with_lamps.faulty, original, original_report);
}

}  // namespace voltfall
