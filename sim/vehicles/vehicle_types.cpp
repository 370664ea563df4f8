#include "vehicles/vehicle_types.h"

#include <algorithm>

// Three vehicles of the ferry depot at Osmer Landing, so that nothing is wired to one of them. Displacements, ratios,
// lengths and gauges are those of their class of vehicle, from memory; friction was chosen so that a healthy warm crank
// draws what trade.md 0.2 gives for the class. Torques by bolt size (M6 to M10 in lead, copper and iron), from memory.

namespace voltfall {
namespace {

std::vector<JointTorque> usual_torques() {
  return {{"positive_clamp", 7.0},    {"negative_clamp", 7.0}, {"relay_battery_stud", 9.0}, {"relay_motor_stud", 9.0},
          {"starter_terminal", 10.0}, {"mounting_face", 45.0}, {"block_lug", 25.0},         {"body_strap", 12.0}};
}

VehicleType pickup_v8() {
  return {.id = "pickup_v8",
          .name = "Wendle Carter pickup (V8, automatic)",
          .healthy = {},
          .limits = {{"cranking_current", 160.0, 210.0}, {"cranking_speed", 140.0, 250.0}},
          .torques = usual_torques(),
          .capacities = {{"engine_oil", 4.7, "l"}, {"coolant", 14.0, "l"}}};
}

// A six with a manual gearbox. Its relay's coil comes home through the clutch pedal's switch, on a terminal of its own.
VehicleType van_six() {
  RigParameters van;
  van.battery.rated_CCA_A = 600.0;
  van.battery.capacity_Ah = 60.0;
  van.cables.positive = {.AWG = 1.0, .length_m = 1.6};
  van.cables.starter = {.AWG = 1.0, .length_m = 1.9};
  van.cables.negative = {.AWG = 1.0, .length_m = 1.4};
  van.engine.cylinders = 6.0;
  van.engine.bore_m = 0.0953;
  van.engine.stroke_m = 0.0864;
  van.engine.rod_m = 0.150;
  van.engine.compression_ratio = 8.2;
  van.engine.inertia_kg_m2 = 0.26;  // the flywheel of a manual gearbox is heavier than an automatic's plate
  van.engine.friction_Nm = 13.0;
  van.engine.friction_Nm_s = 0.55;
  van.control.clutch_switch = 1.0;
  van.control.neutral_switch_in_coil_ground = 1.0;
  van.control.s_wire_ohm = 0.020;
  van.body.drain_A = 0.03;
  van.body.lead_fitted = 1.0;
  return {.id = "van_six",
          .name = "Wendle Linesman long van (six, manual)",
          .healthy = van,
          .limits = {{"cranking_current", 150.0, 180.0}, {"cranking_speed", 140.0, 260.0}},
          .torques = usual_torques(),
          .capacities = {{"engine_oil", 5.2, "l"}, {"coolant", 10.5, "l"}, {"gearbox_oil", 1.9, "l"}}};
}

// A 2.0 litre four with a manual gearbox: small battery, short thin cables, a smaller ring gear. Its clutch pedal's
// switch stands where an automatic has its neutral switch.
VehicleType compact_four() {
  RigParameters compact;
  compact.battery.rated_CCA_A = 480.0;
  compact.battery.capacity_Ah = 45.0;
  compact.cables.positive = {.AWG = 4.0, .length_m = 0.45};
  compact.cables.starter = {.AWG = 4.0, .length_m = 0.70};
  compact.cables.negative = {.AWG = 4.0, .length_m = 0.50};
  compact.drive.ring_teeth = 138.0;
  compact.engine.cylinders = 4.0;
  compact.engine.bore_m = 0.0860;
  compact.engine.stroke_m = 0.0860;
  compact.engine.rod_m = 0.132;
  compact.engine.compression_ratio = 9.2;
  compact.engine.inertia_kg_m2 = 0.13;
  compact.engine.friction_Nm = 16.0;
  compact.engine.friction_Nm_s = 0.20;
  compact.control.clutch_switch = 1.0;
  compact.body.headlamp_W = 110.0;
  return {.id = "compact_four",
          .name = "Tarn Pippin compact (four, manual)",
          .healthy = compact,
          .limits = {{"cranking_current", 135.0, 185.0}, {"cranking_speed", 180.0, 320.0}},
          .torques = usual_torques(),
          .capacities = {{"engine_oil", 3.6, "l"}, {"coolant", 6.2, "l"}, {"gearbox_oil", 1.6, "l"}}};
}

const std::vector<VehicleType>& types() {
  static const std::vector<VehicleType> table{pickup_v8(), van_six(), compact_four()};
  return table;
}

}  // namespace

std::span<const VehicleType> all_vehicle_types() {
  return types();
}

const VehicleType* vehicle_type_named(std::string_view id) {
  const auto found =
      std::find_if(types().begin(), types().end(), [&](const VehicleType& type) { return type.id == id; });
  return found == types().end() ? nullptr : &*found;
}

}  // namespace voltfall
