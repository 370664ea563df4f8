#include <algorithm>
#include <array>

#include "faults/catalogue.h"

namespace voltfall {
namespace {

// Minutes and prices: trade practice (a clamp 15 to 18 min, a cable 25 to 45, a relay 15 to 20, an ignition switch 40
// to 75, a starter 40 to 90; parts in the lower half of their usual class). A starter that comes off the engine takes
// its cable lug off its stud, and a new cable or relay comes with new contact faces at both ends; that is why those
// repairs restore the joints beside them. No exchange starter ever cleaned the face it is bolted to,
// though its bolts are tight again. Minutes and prices that the trade's tables do not list are from memory.
const std::vector<Repair>& repairs() {
  static const std::vector<Repair> table{
      {"charge_battery", "battery", 90, 0, {"battery.charge"}, false},
      {"top_up_battery", "battery", 20, 1, {"battery.acid_level"}, false},
      {"renew_battery", "battery", 20, 140, {"battery."}, true},
      {"cure_drain", "cabin_circuits", 60, 6, {"body.drain_A", "battery.charge"}, false},
      {"renew_alternator", "alternator", 75, 95, {"body.alternator_V", "battery.charge"}, true},
      {"tighten_positive_clamp", "positive_clamp", 5, 0, {"joints.positive_clamp.slack_ohm"}, true},
      {"clean_positive_clamp", "positive_clamp", 15, 4, {"joints.positive_clamp."}, true},
      {"renew_positive_cable",
       "positive_cable",
       35,
       38,
       {"cables.positive.", "joints.positive_clamp.", "joints.relay_battery_stud."},
       true},
      {"remake_relay_battery_stud", "relay_battery_stud", 15, 3, {"joints.relay_battery_stud."}, true},
      {"renew_relay", "relay", 18, 32, {"relay.", "joints.relay_battery_stud.", "joints.relay_motor_stud."}, true},
      {"remake_relay_motor_stud", "relay_motor_stud", 15, 3, {"joints.relay_motor_stud."}, true},
      {"renew_starter_cable",
       "starter_cable",
       35,
       30,
       {"cables.starter.", "joints.relay_motor_stud.", "joints.starter_terminal."},
       true},
      {"remake_starter_terminal", "starter_terminal", 25, 3, {"joints.starter_terminal."}, true},
      {"renew_starter",
       "starter",
       60,
       135,
       {"starter.", "shoe.", "drive.clutch_", "drive.tooth_", "drive.teeth_", "drive.pinion_missing_teeth",
        "joints.starter_terminal.", "joints.mounting_face.slack_ohm"},
       true},
      {"renew_brushes", "starter", 90, 24, {"starter.brush_", "starter.commutator_film_ohm"}, true},
      {"clean_commutator", "starter", 75, 3, {"starter.commutator_film_ohm"}, true},
      {"renew_armature",
       "starter",
       100,
       55,
       {"starter.dead_spot_ohm", "starter.friction_Nm_s", "starter.commutator_film_ohm"},
       true},
      {"renew_terminal_insulator", "starter_terminal", 75, 8, {"starter.terminal_to_case_ohm"}, true},
      {"renew_field_set",
       "starter",
       120,
       60,
       {"starter.drive_coil_ohm", "starter.field_coil_ohm", "starter.hold_in_ohm", "starter.grounding_contacts_",
        "starter.flux_fraction", "starter.winding_to_case_ohm"},
       true},
      {"renew_bushings", "starter", 90, 18, {"starter.drag_added_Nm"}, true},
      {"free_shoe_pivot", "starter", 75, 4, {"shoe.hinge_friction_N", "shoe.damping_Ns_per_m"}, true},
      {"renew_shoe_spring", "starter", 75, 5, {"shoe.spring_"}, true},
      {"renew_drive",
       "starter",
       80,
       36,
       {"drive.clutch_", "drive.tooth_", "drive.teeth_", "drive.pinion_missing_teeth"},
       true},
      {"tighten_starter_bolts", "mounting_face", 20, 0, {"joints.mounting_face.slack_ohm"}, true},
      {"clean_mounting_face", "mounting_face", 50, 4, {"joints.mounting_face."}, true},
      {"clean_block_lug", "block_lug", 20, 3, {"joints.block_lug."}, true},
      {"renew_negative_cable",
       "negative_cable",
       35,
       34,
       {"cables.negative.", "joints.negative_clamp.", "joints.block_lug."},
       true},
      {"fit_block_cable",
       "negative_cable",
       35,
       34,
       {"cables.negative.", "body.lead_", "joints.negative_clamp.", "joints.block_lug."},
       true},
      {"tighten_negative_clamp", "negative_clamp", 5, 0, {"joints.negative_clamp.slack_ohm"}, false},
      {"clean_negative_clamp", "negative_clamp", 15, 4, {"joints.negative_clamp."}, true},
      {"fit_body_strap", "body_strap", 12, 10, {"joints.body_strap.", "cables.body_strap."}, false},
      {"renew_fusible_link", "fusible_link", 25, 9, {"control.fusible_link_ohm"}, true},
      {"clean_bulkhead_plug", "bulkhead_plug", 25, 5, {"control.bulkhead_plug_ohm"}, true},
      {"separate_bulkhead_pins", "bulkhead_plug", 45, 6, {"control.start_leak_ohm", "control.bulkhead_plug_ohm"}, true},
      {"renew_ignition_switch",
       "ignition_switch",
       55,
       48,
       {"control.start_contact_", "control.start_rod_misadjusted", "control.run_contact_ohm"},
       true},
      {"adjust_ignition_switch", "ignition_switch", 20, 0, {"control.start_rod_misadjusted"}, false},
      {"adjust_neutral_switch", "neutral_switch", 20, 0, {"control.neutral_switch_misadjusted"}, false},
      {"renew_neutral_switch",
       "neutral_switch",
       45,
       45,
       {"control.neutral_switch_ohm", "control.neutral_switch_misadjusted", "control.neutral_switch_shorted"},
       false},
      {"restore_neutral_switch", "neutral_switch", 15, 0, {"control.neutral_switch_shorted"}, false},
      {"adjust_clutch_switch", "clutch_switch", 15, 0, {"control.clutch_switch_misadjusted"}, false},
      {"renew_clutch_switch",
       "clutch_switch",
       25,
       22,
       {"control.neutral_switch_ohm", "control.clutch_switch_misadjusted", "control.neutral_switch_shorted"},
       false},
      {"restore_clutch_switch", "clutch_switch", 15, 0, {"control.neutral_switch_shorted"}, false},
      {"renew_s_wire", "s_wire", 25, 4, {"control.s_wire_ohm", "control.s_wire_to_ground_ohm"}, true},
      {"renew_s_push_on", "s_push_on", 10, 1, {"control.s_push_on_ohm"}, false},
      {"clean_relay_bracket", "relay_bracket", 10, 2, {"control.relay_case_ground_ohm"}, false},
      {"free_engine", "engine", 180, 60, {"engine.drag_added_Nm"}, false},
      {"change_oil", "engine", 25, 28, {"engine.oil_effort", "engine.oil_grade_W"}, false},
      {"renew_accessory", "engine", 60, 90, {"engine.accessory_drag_Nm"}, false},
      {"renew_ring_gear", "engine", 300, 120, {"drive.missing_teeth", "drive.ring_slip_Nm"}, true},
      {"drain_cylinder", "engine", 90, 12, {"engine.liquid_cm3"}, false},
      {"repair_cylinder", "engine", 480, 220, {"engine.weak_cylinder"}, false},
      {"renew_head_gasket", "engine", 360, 90, {"engine.weak_cylinder"}, false},
      {"set_ignition_timing", "engine", 30, 0, {"engine.spark_advance_deg"}, false},
  };
  return table;
}

constexpr std::array<std::string_view, 25> components{
    "battery",        "positive_clamp",   "positive_cable", "relay_battery_stud", "relay",          "relay_motor_stud",
    "starter_cable",  "starter_terminal", "starter",        "mounting_face",      "block_lug",      "negative_cable",
    "negative_clamp", "fusible_link",     "bulkhead_plug",  "ignition_switch",    "neutral_switch", "clutch_switch",
    "s_wire",         "s_push_on",        "relay_bracket",  "body_strap",         "engine",         "alternator",
    "cabin_circuits"};

}  // namespace

std::span<const Repair> all_repairs() {
  return repairs();
}

const Repair* repair_named(std::string_view id) {
  const auto& table = repairs();
  const auto found = std::find_if(table.begin(), table.end(), [&](const Repair& repair) { return repair.id == id; });
  return found == table.end() ? nullptr : &*found;
}

std::span<const std::string_view> all_components() {
  return components;
}

}  // namespace voltfall
