#include <fmt/format.h>

#include <algorithm>

#include "scenario/scenario_sections.h"

namespace voltfall {
namespace {

/// The fault under that key, or nothing with the mistake noted.
const Fault* read_fault_of(Section& section, std::string_view key, const Scenario& scenario, Mistakes& mistakes) {
  std::vector<std::string_view> ids;
  for (const Fault& fault : all_faults()) ids.push_back(fault.id);
  section.require(key);
  const auto index = section.choice(key, ids);
  if (!index) return nullptr;
  const Fault& fault = all_faults()[*index];
  if (fault.can_be_on(scenario.healthy)) return &fault;
  mistakes.add(*section.at(key), fmt::format("{} can't be on this vehicle; allowed: faults of its gearbox", fault.id));
  return nullptr;
}

bool same_pair(const DeclaredPair& one, const DeclaredPair& other) {
  return std::minmax(one.cause, one.casualty) == std::minmax(other.cause, other.casualty);
}

void read_pair(const toml::table& table, Scenario& scenario, Mistakes& mistakes) {
  Section section(&table, "pair", mistakes);
  const Fault* cause = read_fault_of(section, "cause", scenario, mistakes);
  const Fault* casualty = read_fault_of(section, "casualty", scenario, mistakes);
  const std::optional<double> share = section.number("share");
  section.finish();
  if (cause == nullptr || casualty == nullptr) return;
  if (const std::string_view path = shared_path(*cause, *casualty); !path.empty()) {
    return mistakes.add(table, fmt::format("{} and {} both set {}; allowed: two faults that can be there together",
                                           cause->id, casualty->id, path));
  }
  DeclaredPair pair{std::string(cause->id), std::string(casualty->id), share};
  const bool twice = std::any_of(scenario.pairs.begin(), scenario.pairs.end(),
                                 [&](const DeclaredPair& earlier) { return same_pair(earlier, pair); });
  if (twice) mistakes.add(table, fmt::format("{} and {} stand twice; allowed: once", pair.cause, pair.casualty));
  scenario.pairs.push_back(std::move(pair));
}

}  // namespace

void read_pairs(const toml::node* node, Scenario& scenario, Mistakes& mistakes) {
  if (node == nullptr) return;
  for_each_table(*node, "pair", mistakes, [&](const toml::table& table) { read_pair(table, scenario, mistakes); });
}

}  // namespace voltfall
