#include "service_sheet/sheet_contents.h"

#include <fmt/format.h>

#include "desktop/rail/rail_text.h"
#include "electrical/conductor.h"
#include "faults/limit_keys.h"
#include "vehicles/vehicle_types.h"

namespace voltfall {
namespace {

std::string cable_text(const CableParameters& cable) {
  return fmt::format("{}, {:.1f} m", gauge_text(cable.AWG), cable.length_m);
}

std::vector<SheetLine> data_of(const Scenario& scenario) {
  const RigParameters& vehicle = scenario.typical;
  return {{"Battery", fmt::format("12 V, {:.0f} A cold cranking", vehicle.battery.rated_CCA_A)},
          {"Engine", fmt::format("{:.0f} cylinders", vehicle.engine.cylinders)},
          {"Positive cable", cable_text(vehicle.cables.positive)},
          {"Starter cable", cable_text(vehicle.cables.starter)},
          {"Negative cable", cable_text(vehicle.cables.negative)},
          {"Body strap", cable_text(vehicle.cables.body_strap)}};
}

void add_service_data(const VehicleType& type, const Wording& words, SheetContents& contents) {
  for (const JointTorque& joint : type.torques) {
    contents.torques.push_back({std::string(words.component(joint.component)), fmt::format("{:g} N\u00B7m", joint.Nm)});
  }
  for (const Capacity& capacity : type.capacities) {
    contents.data.push_back(
        {std::string(words.capacity(capacity.id)), fmt::format("{:g} {}", capacity.amount, capacity.unit)});
  }
}

}  // namespace

SheetContents sheet_contents(const Scenario& scenario, const Wording& words) {
  SheetContents contents;
  contents.vehicle = scenario.vehicle_name;
  contents.diagram = diagram_options(scenario.typical);
  for (const TestPoint point : all_test_points()) {
    contents.points.push_back({std::to_string(number_of(point)), std::string(words.point(point))});
  }
  for (const LimitKey& key : all_limit_keys()) {
    const auto found = scenario.limits.find(std::string(key.id));
    if (found == scenario.limits.end()) continue;
    contents.limits.push_back({std::string(words.limit(key.id)), limit_text(key, found->second)});
  }
  contents.data = data_of(scenario);
  if (const VehicleType* type = vehicle_type_named(scenario.vehicle_type)) add_service_data(*type, words, contents);
  for (const std::string_view caution : words.cautions()) contents.cautions.emplace_back(caution);
  return contents;
}

}  // namespace voltfall
