#include "faults/visible_signs.h"

#include <array>

namespace voltfall {
namespace {

constexpr bool on_bench = true;

// Common practice: what a clamp, lug, face, cable or winding with that trouble looks like. What is not here has nothing
// to see: pitted contacts inside a relay, rot under an insulation that is still smooth, a burnt switch.
constexpr std::array signs{
    VisibleSign{"battery", "battery.ice", 0.1, "bulged_case"},
    VisibleSign{"battery", "battery.acid_level", 0.1, "plates_dry"},
    VisibleSign{"battery", "battery.rated_CCA_A", 40.0, "small_label"},
    VisibleSign{"positive_clamp", "joints.positive_clamp.added_ohm", 0.002, "crust"},
    VisibleSign{"positive_clamp", "joints.positive_clamp.slack_ohm", 0.002, "turns_by_hand"},
    VisibleSign{"negative_clamp", "joints.negative_clamp.added_ohm", 0.002, "crust"},
    VisibleSign{"negative_clamp", "joints.negative_clamp.slack_ohm", 0.002, "turns_by_hand"},
    VisibleSign{"relay", "relay.coil_ohm", 4.0, "other_part_number"},
    VisibleSign{"relay_battery_stud", "joints.relay_battery_stud.added_ohm", 0.002, "dark_threads"},
    VisibleSign{"relay_motor_stud", "joints.relay_motor_stud.added_ohm", 0.002, "dark_threads"},
    VisibleSign{"starter_terminal", "starter.terminal_to_case_ohm", 1.0, "cracked_insulator"},
    VisibleSign{"starter_terminal", "joints.starter_terminal.added_ohm", 0.002, "dark_threads"},
    VisibleSign{"mounting_face", "joints.mounting_face.added_ohm", 0.002, "paint"},
    VisibleSign{"mounting_face", "joints.mounting_face.slack_ohm", 0.002, "turns_by_hand"},
    VisibleSign{"block_lug", "joints.block_lug.added_ohm", 0.002, "rust"},
    VisibleSign{"body_strap", "joints.body_strap.added_ohm", 1000.0, "strap_missing"},
    VisibleSign{"body_strap", "joints.body_strap.added_ohm", 0.002, "rust"},
    VisibleSign{"positive_cable", "cables.positive.to_ground_ohm", 1.0, "chafed_through"},
    VisibleSign{"positive_cable", "cables.positive.added_ohm", 0.002, "swollen_insulation"},
    VisibleSign{"positive_cable", "cables.positive.AWG", 1.0, "thin_cable"},
    VisibleSign{"starter_cable", "cables.starter.to_ground_ohm", 1.0, "chafed_through"},
    VisibleSign{"starter_cable", "cables.starter.added_ohm", 0.002, "swollen_insulation"},
    VisibleSign{"starter_cable", "cables.starter.AWG", 1.0, "thin_cable"},
    VisibleSign{"negative_cable", "cables.negative.added_ohm", 1000.0, "ends_at_the_body"},
    VisibleSign{"negative_cable", "cables.negative.added_ohm", 0.002, "swollen_insulation"},
    VisibleSign{"negative_cable", "cables.negative.AWG", 1.0, "thin_cable"},
    VisibleSign{"relay_bracket", "control.relay_case_ground_ohm", 0.5, "rust"},
    VisibleSign{"s_push_on", "control.s_wire_to_ground_ohm", 1.0, "chafed_through"},
    VisibleSign{"s_push_on", "control.s_push_on_ohm", 0.3, "loose_push_on"},
    VisibleSign{"bulkhead_plug", "control.bulkhead_plug_ohm", 0.2, "green_pins"},
    VisibleSign{"bulkhead_plug", "control.start_leak_ohm", 1.0, "green_pins"},
    VisibleSign{"clutch_switch", "control.clutch_switch_misadjusted", 0.5, "pedal_misses_switch"},
    VisibleSign{"clutch_switch", "control.neutral_switch_shorted", 0.5, "bypass_wire"},
    VisibleSign{"neutral_switch", "control.neutral_switch_shorted", 0.5, "bypass_wire"},
    VisibleSign{"starter", "starter.dead_spot_ohm", 0.005, "burnt_bar", on_bench},
    VisibleSign{"starter", "starter.commutator_film_ohm", 0.003, "dark_commutator", on_bench},
    VisibleSign{"starter", "starter.brush_added_ohm", 0.003, "short_brushes", on_bench},
    VisibleSign{"starter", "starter.brush_drop_V", 0.5, "soft_brush_springs", on_bench},
    VisibleSign{"starter", "drive.pinion_missing_teeth", 0.5, "chipped_tooth", on_bench},
    VisibleSign{"starter", "shoe.spring_preload_N", 30.0, "spring_broken", on_bench},
    VisibleSign{"starter", "shoe.hinge_friction_N", 100.0, "stiff_shoe", on_bench},
    VisibleSign{"starter", "shoe.damping_Ns_per_m", 50.0, "hard_grease", on_bench},
    VisibleSign{"starter", "starter.grounding_contacts_ohm", 0.005, "burnt_grounding_contacts", on_bench},
    VisibleSign{"starter", "starter.grounding_contacts_stuck", 0.5, "burnt_grounding_contacts", on_bench},
    VisibleSign{"starter", "starter.drag_added_Nm", 0.5, "rub_marks", on_bench},
    VisibleSign{"engine", "drive.missing_teeth", 0.5, "ring_teeth_gone", on_bench},
};

}  // namespace

std::span<const VisibleSign> all_visible_signs() {
  return signs;
}

}  // namespace voltfall
