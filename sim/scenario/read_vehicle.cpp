#include <fmt/format.h>

#include <algorithm>

#include "faults/catalogue.h"
#include "rig/settable.h"
#include "scenario/scenario_sections.h"
#include "vehicles/vehicle_types.h"

namespace voltfall {
namespace {

using Paths = std::vector<std::string_view>;

Paths settable_paths() {
  Paths paths;
  for (const Settable& settable : all_settables()) paths.push_back(settable.path);
  return paths;
}

/// The first path of the group; empty when `path` is no group.
std::string_view first_of_group(const std::string& path, const Paths& paths) {
  const auto inside = [&](std::string_view candidate) { return candidate.starts_with(path + "."); };
  const auto found = std::find_if(paths.begin(), paths.end(), inside);
  return found == paths.end() ? std::string_view{} : *found;
}

void read_value(const toml::key& key, const toml::node& node, const std::string& path, RigParameters& healthy,
                Mistakes& mistakes) {
  const Paths paths = settable_paths();
  const Settable* settable = settable_at(path);
  const std::string_view inside = first_of_group(path, paths);
  if (!inside.empty()) {
    mistakes.add(node, fmt::format("{} is {}; allowed: a value inside it, such as {}", path, kind_of(node), inside));
    return;
  }
  if (settable == nullptr) {
    mistakes.add(key.source().begin, not_a_name(path, "a value of the vehicle", paths));
    return;
  }
  const Range range{settable->lowest, settable->highest, settable->unit};
  if (const auto value = number_in(node, path, range, mistakes)) settable->in(healthy) = *value;
}

/// Walks `battery.charge = 1` and `[vehicle.battery]` alike; the depth of the file is bounded by the paths there are.
void read_values(const toml::table& table, const std::string& above, RigParameters& healthy, Mistakes& mistakes) {
  for (const auto& [key, node] : table) {
    const std::string path = above.empty() ? std::string(key.str()) : fmt::format("{}.{}", above, key.str());
    if (path == "name" || path == "type") continue;
    const toml::table* inner = node.as_table();
    if (inner != nullptr && !first_of_group(path, settable_paths()).empty()) {
      read_values(*inner, path, healthy, mistakes);
    } else {
      read_value(key, node, path, healthy, mistakes);
    }
  }
}

std::vector<std::string_view> fault_ids() {
  std::vector<std::string_view> ids;
  for (const Fault& fault : all_faults()) ids.push_back(fault.id);
  return ids;
}

/// Nothing when the file's severity can't be used, with the mistake noted.
std::optional<double> read_severity(const toml::node* given, const Fault& fault, Mistakes& mistakes) {
  if (given == nullptr) return fault.usual;
  const Range range{fault.lowest, fault.highest, fault.unit};
  if (fault.has_degrees()) return number_in(*given, fmt::format("severity of {}", fault.id), range, mistakes);
  mistakes.add(*given, fmt::format("severity stands by {}, which has no degrees; allowed: none", fault.id));
  return std::nullopt;
}

/// When the fault is there; `always` unless the file says otherwise.
When read_when(Section& section) {
  const auto index = section.choice("when", all_when_ids());
  return index ? static_cast<When>(*index) : When::always;
}

void refuse_wrong_gearbox(const toml::node& where, const Fault& fault, const Scenario& scenario, Mistakes& mistakes) {
  if (fault.can_be_on(scenario.healthy)) return;
  const std::string_view needed = *fault.gearbox == Gearbox::manual ? "a manual" : "an automatic";
  mistakes.add(where, fmt::format("{} stands on a vehicle without {} gearbox; allowed: a vehicle type that has one",
                                  fault.id, needed));
}

/// A battery does not fill and empty with its surroundings.
void refuse_coming_charge(const toml::node& where, const Fault& fault, When when, Mistakes& mistakes) {
  const bool charge = std::any_of(fault.edits.begin(), fault.edits.end(),
                                  [](const ParameterEdit& edit) { return edit.path == "battery.charge"; });
  if (when == When::always || !charge) return;
  mistakes.add(where, fmt::format("{} changes the battery's charge and can't come and go; allowed: when = \"always\"",
                                  fault.id));
}

void refuse_overlap(const toml::node& where, const Fault& fault, const Scenario& scenario, Mistakes& mistakes) {
  for (const HiddenFault& earlier : scenario.faults) {
    const std::string_view path = shared_path(fault, *fault_named(earlier.id));
    if (path.empty()) continue;
    mistakes.add(where,
                 fmt::format("{} and {} both set {}; allowed: one fault for each value", earlier.id, fault.id, path));
  }
}

/// On an unusual vehicle a fault can push a value beyond what the model is good for.
void refuse_extremes(const toml::node& where, const HiddenFault& hidden, const Fault& fault, const Scenario& scenario,
                     Mistakes& mistakes) {
  const RigParameters faulty = with_fault(scenario.healthy, fault, hidden.severity);
  for (const ParameterEdit& edit : fault.edits) {
    const Settable* settable = settable_at(edit.path);
    const double value = settable->value_in(faulty);
    if (value >= settable->lowest && value <= settable->highest) continue;
    mistakes.add(where, fmt::format("with {} this vehicle's {} {}", fault.id, edit.path,
                                    out_of_range(value, settable->lowest, settable->highest, settable->unit)));
  }
}

void read_fault(const toml::table& table, Scenario& scenario, Mistakes& mistakes) {
  Section section(&table, "fault", mistakes);
  const std::string id = section.needed_text("id");
  const toml::node* given = section.at("severity");
  const When when = read_when(section);
  section.finish();
  if (id.empty()) return;
  const Fault* fault = fault_named(id);
  if (fault == nullptr) {
    mistakes.add(*table.get("id"), not_a_name(id, "a fault", fault_ids()));
    return;
  }
  const std::optional<double> severity = read_severity(given, *fault, mistakes);
  const HiddenFault hidden{id, severity.value_or(fault->usual), when};
  refuse_wrong_gearbox(table, *fault, scenario, mistakes);
  refuse_coming_charge(table, *fault, when, mistakes);
  refuse_overlap(table, *fault, scenario, mistakes);
  if (severity) refuse_extremes(table, hidden, *fault, scenario, mistakes);
  scenario.faults.push_back(hidden);
}

}  // namespace

void read_vehicle(const toml::table* table, Scenario& scenario, Mistakes& mistakes) {
  Section section(table, "vehicle", mistakes);
  std::vector<std::string_view> types;
  for (const VehicleType& type : all_vehicle_types()) types.push_back(type.id);
  const VehicleType& type = all_vehicle_types()[section.choice("type", types).value_or(0)];
  scenario.vehicle_type = type.id;
  scenario.typical = type.healthy;
  scenario.vehicle_name = section.needed_text("name");
  if (table != nullptr) read_values(*table, "", scenario.typical, mistakes);
  scenario.healthy = scenario.typical;
}

void read_faults(const toml::node* node, Scenario& scenario, Mistakes& mistakes) {
  if (node == nullptr) return;  // a healthy vehicle
  for_each_table(*node, "fault", mistakes, [&](const toml::table& table) { read_fault(table, scenario, mistakes); });
}

}  // namespace voltfall
