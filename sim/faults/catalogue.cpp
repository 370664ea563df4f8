#include "faults/catalogue.h"

#include <algorithm>

// Every fault the program knows, as data. Ranges are trade practice for a 12 V car with a separate relay; each starts
// near where a driver would first complain. To add one: a row here, its words in assets/wording, and a repair.

namespace voltfall {
namespace {

using enum TestPoint;
using Faults = std::vector<Fault>;
constexpr auto set = EditKind::set;
constexpr auto add = EditKind::add;
constexpr auto scale = EditKind::scale;

// A break, as the harness's own insulation would leave it: microamperes, and a meter that shows OL.
constexpr double open_ohm = 1.0e7;

// One fault, two or three lines: the formatter would make twelve of them.
// clang-format off
Faults battery_faults() {
  constexpr auto kind = FaultClass::battery;
  const ProvingPair rested{battery_positive_post, negative_post, "battery_rest"};
  const ProvingPair loaded{battery_positive_post, negative_post, "battery_cranking"};
  return {
      {"battery_discharged", kind, "battery", "of full charge", 0.02, 0.5, 0.12,
       {{"battery.charge", set}}, {rested, loaded}, {}, "charge_battery"},
      {"battery_aged", kind, "battery", "of a new battery", 0.12, 0.5, 0.2,
       {{"battery.health", set}}, {loaded}, {}, "renew_battery"},
      {"battery_cell_shorted", kind, "battery", "", 1, 1, 1,
       {{"battery.shorted_cells", set, 1.0}}, {rested, loaded}, {}, "renew_battery"},
      {"battery_strap_cracked", kind, "battery", "ohm", 0.05, 5.0, 0.5,
       {{"battery.internal_ohm", set}}, {loaded}, {}, "renew_battery"},
      {"battery_too_small", kind, "battery", "of the specified rating", 0.35, 0.7, 0.45,
       {{"battery.rated_CCA_A", scale}, {"battery.capacity_Ah", scale}}, {loaded}, {}, "renew_battery"},
  };
}

Faults joint_faults() {
  constexpr auto kind = FaultClass::joint;
  return {
      {"positive_clamp_corroded", kind, "positive_clamp", "ohm", 0.005, 0.060, 0.050,
       {{"joints.positive_clamp.added_ohm", add}},
       {{battery_positive_post, positive_clamp, "post_to_clamp"}}, {}, "clean_positive_clamp"},
      {"relay_battery_stud_loose", kind, "relay_battery_stud", "ohm", 0.003, 0.050, 0.030,
       {{"joints.relay_battery_stud.added_ohm", add}},
       {{relay_battery_lug, relay_battery_stud, "joint"}}, {}, "remake_relay_battery_stud"},
      {"relay_motor_stud_loose", kind, "relay_motor_stud", "ohm", 0.003, 0.050, 0.030,
       {{"joints.relay_motor_stud.added_ohm", add}},
       {{relay_motor_stud, relay_motor_lug, "joint"}}, {}, "remake_relay_motor_stud"},
      {"starter_terminal_loose", kind, "starter_terminal", "ohm", 0.003, 0.050, 0.030,
       {{"joints.starter_terminal.added_ohm", add}},
       {{starter_lug, starter_terminal, "joint"}}, {}, "remake_starter_terminal"},
  };
}

Faults cable_faults() {
  constexpr auto kind = FaultClass::cable;
  return {
      {"positive_cable_rotted", kind, "positive_cable", "ohm", 0.005, 0.040, 0.030,
       {{"cables.positive.added_ohm", add}},
       {{positive_clamp, relay_battery_lug, "cable"}}, {}, "renew_positive_cable"},
      {"positive_cable_undersized", kind, "positive_cable", "AWG", 6, 12, 10,
       {{"cables.positive.AWG", set}}, {{positive_clamp, relay_battery_lug, "cable"}}, {}, "renew_positive_cable"},
      {"starter_cable_rotted", kind, "starter_cable", "ohm", 0.003, 0.040, 0.030,
       {{"cables.starter.added_ohm", add}}, {{relay_motor_lug, starter_lug, "cable"}}, {}, "renew_starter_cable"},
  };
}

Faults relay_faults() {
  constexpr auto kind = FaultClass::relay;
  const ProvingPair contact{relay_battery_stud, relay_motor_stud, "relay_contact"};
  return {
      {"relay_contacts_pitted", kind, "relay", "ohm", 0.003, 0.060, 0.035,
       {{"relay.contact_ohm", set}}, {contact}, {}, "renew_relay"},
      {"relay_contact_open", kind, "relay", "", 1, 1, 1,
       {{"relay.contact_ohm", set, open_ohm}}, {contact}, {}, "renew_relay"},
      {"relay_coil_open", kind, "relay", "", 1, 1, 1,
       {{"relay.coil_ohm", set, open_ohm}}, {{s_terminal, relay_case, "relay_coil"}}, {}, "renew_relay"},
      {"relay_contacts_welded", kind, "relay", "", 1, 1, 1,
       {{"relay.contact_welded", set, 1.0}},
       {{relay_motor_stud, negative_post, "released"}}, {"runs_on"}, "renew_relay"},
      {"relay_case_ground_lost", kind, "relay_bracket", "ohm", 1, 1000, 50,
       {{"control.relay_case_ground_ohm", set}}, {{relay_case, body, "coil_ground"}}, {}, "clean_relay_bracket"},
  };
}

Faults control_faults() {
  constexpr auto kind = FaultClass::control;
  const ProvingPair link{relay_battery_stud, fusible_link_out, "control_leg"};
  const ProvingPair neutral{ignition_start_output, neutral_switch_output, "control_leg"};
  return {
      {"fusible_link_weak", kind, "fusible_link", "ohm", 0.2, 8, 4,
       {{"control.fusible_link_ohm", set}}, {link}, {}, "renew_fusible_link"},
      {"fusible_link_open", kind, "fusible_link", "", 1, 1, 1,
       {{"control.fusible_link_ohm", set, open_ohm}}, {link}, {}, "renew_fusible_link"},
      {"bulkhead_plug_corroded", kind, "bulkhead_plug", "ohm", 0.3, 8, 4,
       {{"control.bulkhead_plug_ohm", set}},
       {{fusible_link_out, ignition_feed, "control_leg"}}, {}, "clean_bulkhead_plug"},
      {"ignition_start_contact_burnt", kind, "ignition_switch", "ohm", 0.5, 10, 5,
       {{"control.start_contact_ohm", set}},
       {{ignition_feed, ignition_start_output, "control_leg"}}, {}, "renew_ignition_switch"},
      {"neutral_switch_misadjusted", kind, "neutral_switch", "", 1, 1, 1,
       {{"control.neutral_switch_misadjusted", set, 1.0}}, {neutral}, {}, "adjust_neutral_switch"},
      {"neutral_switch_open", kind, "neutral_switch", "", 1, 1, 1,
       {{"control.neutral_switch_ohm", set, open_ohm}}, {neutral}, {}, "renew_neutral_switch"},
      {"neutral_switch_wet", kind, "neutral_switch", "ohm", 1, 50, 6,
       {{"control.neutral_switch_ohm", set}}, {neutral}, {}, "renew_neutral_switch"},
      {"s_push_on_loose", kind, "s_push_on", "ohm", 0.5, 10, 5,
       {{"control.s_push_on_ohm", set}}, {{s_wire_end, s_terminal, "control_leg"}}, {}, "renew_s_push_on"},
  };
}

Faults ground_faults() {
  constexpr auto kind = FaultClass::ground;
  return {
      {"mounting_face_painted", kind, "mounting_face", "ohm", 0.003, 0.060, 0.035,
       {{"joints.mounting_face.added_ohm", add}},
       {{starter_case, engine_block, "mounting_face"}}, {}, "clean_mounting_face"},
      {"block_lug_rusted", kind, "block_lug", "ohm", 0.005, 0.060, 0.040,
       {{"joints.block_lug.added_ohm", add}}, {{engine_block, block_lug, "block_lug"}}, {}, "clean_block_lug"},
      {"negative_cable_rotted", kind, "negative_cable", "ohm", 0.005, 0.050, 0.030,
       {{"cables.negative.added_ohm", add}}, {{block_lug, negative_clamp, "cable"}}, {}, "renew_negative_cable"},
      {"negative_clamp_corroded", kind, "negative_clamp", "ohm", 0.005, 0.060, 0.050,
       {{"joints.negative_clamp.added_ohm", add}},
       {{negative_clamp, negative_post, "post_to_clamp"}}, {}, "clean_negative_clamp"},
      {"body_strap_lost", kind, "body_strap", "", 1, 1, 1,
       {{"joints.body_strap.added_ohm", set, open_ohm}},
       {{body, engine_block, "strap"}, {body, strap_body_lug, "strap"}}, {}, "fit_body_strap"},
  };
}

// Inside the starter no pair of points reaches the part itself: it is the sound and the look of the crank, with volts
// at its terminal in limits, that speak.
Faults starter_electrical_faults() {
  constexpr auto kind = FaultClass::starter_electrical;
  const ProvingPair sagging{battery_positive_post, negative_post, "battery_cranking"};
  return {
      {"brushes_worn", kind, "starter", "ohm", 0.008, 0.040, 0.025,
       {{"starter.brush_added_ohm", set}}, {}, {"slow_crank", "one_clunk"}, "renew_brushes"},
      {"brushes_hung_up", kind, "starter", "", 1, 1, 1,
       {{"starter.brush_added_ohm", set, open_ohm}}, {}, {"one_click", "one_clunk"}, "renew_brushes"},
      {"field_joint_bad", kind, "starter", "ohm", 0.002, 0.020, 0.015,
       {{"starter.drive_coil_ohm", add}}, {}, {"whirr", "hum"}, "renew_field_set"},
      {"field_turns_shorted", kind, "starter", "of the turns left", 0.35, 0.9, 0.4,
       {{"starter.flux_fraction", scale}}, {}, {"whirr", "hum"}, "renew_field_set"},
      {"winding_grounded", kind, "starter", "ohm", 0.003, 0.1, 0.010,
       {{"starter.winding_to_case_ohm", set}}, {sagging}, {"slow_crank", "smoke", "hot_cable"}, "renew_field_set"},
      {"grounding_contacts_never_close", kind, "starter", "", 1, 1, 1,
       {{"starter.grounding_contacts_stuck", set, -1.0}}, {}, {"whirr"}, "renew_field_set"},
      {"grounding_contacts_welded", kind, "starter", "", 1, 1, 1,
       {{"starter.grounding_contacts_stuck", set, 1.0}},
       {sagging}, {"slow_crank", "one_clunk", "smoke"}, "renew_field_set"},
      {"hold_in_coil_open", kind, "starter", "", 1, 1, 1,
       {{"starter.hold_in_ohm", set, open_ohm}}, {}, {"shoe_drops_out"}, "renew_field_set"},
  };
}

Faults mechanical_faults() {
  constexpr auto kind = FaultClass::starter_mechanical;
  return {
      {"shoe_pivot_stiff", kind, "starter", "N", 300, 1500, 800,
       {{"shoe.hinge_friction_N", add}}, {}, {"hum", "one_clunk", "one_click"}, "free_shoe_pivot"},
      {"clutch_slips", kind, "starter", "N·m", 0.5, 20, 2,
       {{"drive.clutch_slip_Nm", set}}, {}, {"whirr"}, "renew_drive"},
      {"ring_teeth_missing", kind, "engine", "teeth", 2, 8, 4,
       {{"drive.missing_teeth", set}}, {}, {"whirr", "grind"}, "renew_ring_gear"},
      {"bushings_drag", kind, "starter", "N·m", 1.5, 6, 5,
       {{"starter.drag_added_Nm", add}}, {}, {"slow_crank"}, "renew_bushings"},
  };
}

Faults engine_faults() {
  constexpr auto kind = FaultClass::engine;
  return {
      {"engine_tight", kind, "engine", "N·m", 30, 200, 130,
       {{"engine.drag_added_Nm", add}}, {}, {"slow_crank"}, "free_engine"},
      {"accessory_seized", kind, "engine", "N·m", 30, 200, 130,
       {{"engine.accessory_drag_Nm", add}}, {}, {"slow_crank"}, "renew_accessory"},
      {"liquid_in_cylinder", kind, "engine", "cm³", 78, 150, 100,
       {{"engine.liquid_cm3", set}}, {}, {"thud_and_stop"}, "drain_cylinder"},
      {"oil_too_thick", kind, "engine", "times the effort", 1.4, 3.5, 2.2,
       {{"engine.oil_effort", scale}}, {}, {"slow_crank"}, "change_oil"},
      {"cylinder_weak", kind, "engine", "", 1, 1, 1,
       {{"engine.weak_cylinder", set, 1.0}}, {}, {"uneven_crank"}, "repair_cylinder"},
  };
}

// clang-format on

const Faults& faults() {
  static const Faults table = [] {
    Faults all;
    for (const Faults& part : {battery_faults(), joint_faults(), cable_faults(), relay_faults(), control_faults(),
                               ground_faults(), starter_electrical_faults(), mechanical_faults(), engine_faults()}) {
      all.insert(all.end(), part.begin(), part.end());
    }
    return all;
  }();
  return table;
}

}  // namespace

std::span<const Fault> all_faults() {
  return faults();
}

const Fault* fault_named(std::string_view id) {
  const auto& table = faults();
  const auto found = std::find_if(table.begin(), table.end(), [&](const Fault& fault) { return fault.id == id; });
  return found == table.end() ? nullptr : &*found;
}

}  // namespace voltfall
