#include "scenario/scenario_sections.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "faults/catalogue.h"
#include "hearing/crank_watch.h"
#include "rig/resting_place.h"
#include "vehicles/scatter.h"
#include "vehicles/vehicle_types.h"

namespace voltfall {
namespace {

/// `highest_V`, `lowest_ohm`; the bare word where the figure has no unit.
std::string field_name(std::string_view end, const LimitKey& key) {
  const std::string_view unit = key.unit == "N·m" ? "Nm" : key.unit;
  return unit.empty() ? std::string(end) : fmt::format("{}_{}", end, unit);
}

/// What the file says of one limit, over the usual figures.
void read_limit(const toml::node& node, const LimitKey& key, Limit& limit, Mistakes& mistakes) {
  const std::string name = fmt::format("limits.{}", key.id);
  const toml::table* table = node.as_table();
  if (table == nullptr) {
    mistakes.add(node, fmt::format("{} is {}; allowed: {{ {}, from_A, to_A }}", name, kind_of(node),
                                   field_name(key.highest > 0.0 ? "highest" : "lowest", key)));
    return;
  }
  Section section(table, name, mistakes);
  // Kept here because a section remembers the names it was asked for by reference.
  const std::string lowest = field_name("lowest", key), highest = field_name("highest", key);
  const Range figures{key.unit == "V" || key.unit == "ohm" || key.unit.empty() ? 0.001 : 1.0, 1.0e5, key.unit};
  if (key.lowest > 0.0) limit.lowest = section.number(lowest, figures).value_or(limit.lowest);
  if (key.highest > 0.0) limit.highest = section.number(highest, figures).value_or(limit.highest);
  limit.from_A = section.number("from_A", range_of("limits", "from_A")).value_or(limit.from_A);
  limit.to_A = section.number("to_A", range_of("limits", "to_A")).value_or(limit.to_A);
  section.finish();
  if (limit.highest > 0.0 && limit.lowest >= limit.highest) {
    mistakes.add(*table, fmt::format("{} holds from {:g} to {:g} {}; allowed: the lowest below the highest", name,
                                     limit.lowest, limit.highest, key.unit));
  }
  if (limit.from_A < limit.to_A) return;
  mistakes.add(*table,
               fmt::format("{} holds from {:g} to {:g} A; allowed: from_A below to_A", name, limit.from_A, limit.to_A));
}

}  // namespace

void read_job(const toml::table* table, Scenario& scenario, Mistakes& mistakes) {
  Section section(table, "job", mistakes);
  scenario.title = section.needed_text("title");
  scenario.sheet = section.whole("sheet").value_or(0);
  scenario.setting = section.needed_text("setting");
  scenario.complaint = section.needed_text("complaint");
  std::vector<std::string_view> observations;
  for (const Observation& observation : all_observations()) observations.push_back(observation.id);
  for (const std::size_t index : section.choices("symptoms", observations)) {
    scenario.symptoms.emplace_back(observations[index]);
  }
  const std::array levels{id_of(Level::guided), id_of(Level::plain), id_of(Level::test)};
  scenario.level = static_cast<Level>(section.choice("level", levels).value_or(static_cast<std::size_t>(Level::plain)));
  section.finish();
}

void read_rest(const toml::table* table, Scenario& scenario, Mistakes& mistakes) {
  Section section(table, "rest", mistakes);
  RestingPlace& rest = scenario.typical_rest;
  if (const auto seed = section.whole("seed")) {
    rest = resting_place(scenario.typical, static_cast<std::uint64_t>(*seed));
  }
  if (const auto angle_deg = section.number("crank_angle_deg")) {
    rest = {*angle_deg, tooth_phase_at(scenario.typical.drive, *angle_deg)};
  }
  rest.tooth_phase = section.number("tooth_phase").value_or(rest.tooth_phase);
  section.finish();
  scenario.rest = rest;
}

void read_scatter(const toml::table* table, Scenario& scenario, Mistakes& mistakes) {
  if (table == nullptr) return;
  Section section(table, "scatter", mistakes);
  section.require("seed");
  if (const auto seed = section.whole("seed")) {
    scenario.healthy = scattered(scenario.typical, static_cast<std::uint64_t>(*seed));
    scenario.rest = resting_place(scenario.healthy, static_cast<std::uint64_t>(*seed));
  }
  section.finish();
}

void read_deal(const toml::table* table, Scenario& scenario, Mistakes& mistakes) {
  if (table == nullptr) return;
  std::vector<std::string_view> ids;
  for (const Fault& fault : all_faults()) {
    if (fault.can_be_on(scenario.typical)) ids.push_back(fault.id);
  }
  Section section(table, "deal", mistakes);
  section.require("faults");
  for (const std::size_t index : section.choices("faults", ids)) scenario.deal_faults.emplace_back(ids[index]);
  section.finish();
}

void read_kit(const toml::table* table, Scenario& scenario, Mistakes& mistakes) {
  Section section(table, "kit", mistakes);
  section.require("instruments");
  std::vector<std::string_view> ids;
  for (const Kit kit : all_kit()) ids.push_back(id_of(kit));
  for (const std::size_t index : section.choices("instruments", ids)) scenario.kit.push_back(all_kit()[index]);
  section.finish();
}

void read_limits(const toml::table* table, Scenario& scenario, Mistakes& mistakes) {
  std::vector<std::string_view> ids;
  for (const LimitKey& key : all_limit_keys()) ids.push_back(key.id);
  scenario.limits = limits_of(vehicle_type_named(scenario.vehicle_type));
  if (table == nullptr) return;
  for (const auto& [key, node] : *table) {
    const LimitKey* known = limit_key_named(key.str());
    if (known != nullptr) {
      read_limit(node, *known, scenario.limits[std::string(known->id)], mistakes);
    } else {
      mistakes.add(key.source().begin, not_a_name(key.str(), "a limit", ids));
    }
  }
}

void read_prices(const toml::table* table, Scenario& scenario, Mistakes& mistakes) {
  Section section(table, "prices", mistakes);
  scenario.currency = section.text("currency").value_or(scenario.currency);
  scenario.labour_per_hour = section.number("labour_per_hour").value_or(0.0);
  for (const Repair& repair : all_repairs()) {
    if (const auto price = section.number(repair.id, range_of("prices", "REPAIR")))
      scenario.part_prices[std::string(repair.id)] = *price;
  }
  section.finish();
}

void read_priors(const toml::table* table, Scenario& scenario, Mistakes& mistakes) {
  Section section(table, "priors", mistakes);
  for (const FaultClass fault_class : all_fault_classes()) {
    if (const auto share = section.number(id_of(fault_class), range_of("priors", "CLASS")))
      scenario.priors[fault_class] = *share;
  }
  section.finish();
}

void read_scoring(const toml::table* table, Scenario& scenario, Mistakes& mistakes) {
  constexpr double all_points = 100.0, rounding = 1.0e-6;
  Section section(table, "scoring", mistakes);
  ScoreWeights& weights = scenario.weights;
  const auto read = [&](std::string_view part, double& points) { points = section.number(part).value_or(points); };
  read("diagnosis", weights.diagnosis);
  read("proof", weights.proof);
  read("safety", weights.safety);
  read("economy", weights.economy);
  read("method", weights.method);
  read("pass_mark", weights.pass_mark);
  section.finish();
  if (std::abs(weights.sum() - all_points) < rounding) return;
  mistakes.add(*table, fmt::format("the five parts of [scoring] make {:g} points; allowed: 100 in all", weights.sum()));
}

void read_debrief(const toml::table* table, Scenario& scenario, Mistakes& mistakes) {
  Section section(table, "debrief", mistakes);
  scenario.debrief = section.needed_text("text");
  section.finish();
}

}  // namespace voltfall
