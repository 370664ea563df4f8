#include "faults/catalogue_rows.h"

// Inside the starter no pair of points reaches the part itself: it is the sound and the look of the crank, with volts
// at its terminal in limits, that speak; and the bench.

namespace voltfall::catalogue {

using enum TestPoint;

// One fault, two or three lines: the formatter would make twelve of them.
// clang-format off
Faults starter_electrical_faults() {
  constexpr auto kind = FaultClass::starter_electrical;
  const ProvingPair sagging{battery_positive_post, negative_post, "battery_cranking"};
  return {
      {"brushes_worn", kind, "starter", "ohm", 0.008, 0.040, 0.025,
       {{"starter.brush_added_ohm", set}}, {}, {"slow_crank", "one_clunk"}, "renew_brushes"},
      {"brushes_hung_up", kind, "starter", "", 1, 1, 1,
       {{"starter.brush_added_ohm", set, open_ohm}}, {}, {"one_click", "one_clunk"}, "renew_brushes"},
      // trade.md 45: below 40 oz. The drop under a brush grows as its spring slackens (common practice).
      {"brush_springs_weak", kind, "starter", "times the brush drop", 2.2, 4.5, 3.8,
       {{"starter.brush_drop_V", scale}}, {}, {"slow_crank"}, "renew_brushes"},
      {"commutator_dirty", kind, "starter", "ohm", 0.008, 0.020, 0.016,  // trade.md 46: 5 to 20 mohm
       {{"starter.commutator_film_ohm", set}}, {}, {"slow_crank", "one_clunk"}, "clean_commutator"},
      // trade.md 47: dead in one spot, turns if nudged. What still flows round a burnt bar is from memory.
      {"armature_dead_spot", kind, "starter", "ohm", 0.05, 0.4, 0.2,
       {{"starter.dead_spot_ohm", set}}, {}, {"slow_crank", "one_clunk"}, "renew_armature"},
      // trade.md 48: low speed and high current. The shorted coil brakes as it turns in the field: drag that grows with
      // speed; its size is from memory.
      {"armature_shorted", kind, "starter", "N·m·s/rad", 0.006, 0.025, 0.016,
       {{"starter.friction_Nm_s", add}}, {}, {"slow_crank"}, "renew_armature"},
      {"field_joint_bad", kind, "starter", "ohm", 0.002, 0.020, 0.015,
       {{"starter.drive_coil_ohm", add}}, {}, {"whirr", "hum"}, "renew_field_set"},
      {"field_turns_shorted", kind, "starter", "of the turns left", 0.35, 0.9, 0.4,
       {{"starter.flux_fraction", scale}}, {}, {"whirr", "hum"}, "renew_field_set"},
      {"winding_grounded", kind, "starter", "ohm", 0.003, 0.1, 0.010,
       {{"starter.winding_to_case_ohm", set}}, {sagging}, {"slow_crank", "smoke", "hot_cable"}, "renew_field_set"},
      {"grounding_contacts_never_close", kind, "starter", "", 1, 1, 1,
       {{"starter.grounding_contacts_stuck", set, -1.0}}, {}, {"whirr"}, "renew_field_set"},
      // trade.md 52: burnt until the drive coil no longer has the current to pull the shoe; where that begins is D.
      {"grounding_contacts_burnt", kind, "starter", "ohm", 0.015, 0.5, 0.060,
       {{"starter.grounding_contacts_ohm", set}}, {}, {"whirr", "hum"}, "renew_field_set"},
      {"grounding_contacts_welded", kind, "starter", "", 1, 1, 1,
       {{"starter.grounding_contacts_stuck", set, 1.0}},
       {sagging}, {"slow_crank", "one_clunk", "smoke"}, "renew_field_set"},
      {"hold_in_coil_open", kind, "starter", "", 1, 1, 1,
       {{"starter.hold_in_ohm", set, open_ohm}}, {}, {"shoe_drops_out"}, "renew_field_set"},
      // trade.md 55: from nothing to a short, over a crack that has carboned.
      {"terminal_insulator_cracked", kind, "starter_terminal", "ohm", 0.02, 0.3, 0.05,
       {{"starter.terminal_to_case_ohm", set}}, {sagging}, {"slow_crank", "smoke", "hot_cable"},
       "renew_terminal_insulator"},
  };
}

Faults starter_mechanical_faults() {
  constexpr auto kind = FaultClass::starter_mechanical;
  return {
      {"shoe_pivot_stiff", kind, "starter", "N", 300, 1500, 800,
       {{"shoe.hinge_friction_N", add}}, {}, {"hum", "one_clunk", "one_click"}, "free_shoe_pivot"},
      // trade.md 63: late mesh in frost. Grease that has gone hard; its drag is from memory.
      {"shoe_grease_hard", kind, "starter", "N·s/m", 10000, 80000, 40000,
       {{"shoe.damping_Ns_per_m", add}}, {}, {"late_clunk", "grind"}, "free_shoe_pivot"},
      // trade.md 59: nothing takes the pinion back out of the ring.
      {"shoe_spring_broken", kind, "starter", "", 1, 1, 1,
       {{"shoe.spring_preload_N", set, 0.0}, {"shoe.spring_N_per_m", set, 0.0}}, {}, {"stays_in_mesh"},
       "renew_shoe_spring"},
      {"clutch_slips", kind, "starter", "N·m", 0.5, 20, 2,
       {{"drive.clutch_slip_Nm", set}}, {}, {"whirr"}, "renew_drive"},
      {"clutch_seized", kind, "starter", "", 1, 1, 1,  // trade.md 61: no overrun
       {{"drive.clutch_seized", set, 1.0}}, {}, {"howl"}, "renew_drive"},
      {"pinion_chipped", kind, "starter", "teeth", 1, 3, 2,  // trade.md 64
       {{"drive.pinion_missing_teeth", set}}, {}, {"grind"}, "renew_drive"},
      {"ring_teeth_missing", kind, "engine", "teeth", 2, 8, 4,
       {{"drive.missing_teeth", set}}, {}, {"whirr", "grind"}, "renew_ring_gear"},
      // trade.md 69: the ring turns and the wheel stands; what it still holds is from memory.
      {"ring_loose", kind, "engine", "N·m", 2, 40, 15,
       {{"drive.ring_slip_Nm", set}}, {}, {"whirr"}, "renew_ring_gear"},
      {"bushings_drag", kind, "starter", "N·m", 1.5, 6, 5,
       {{"starter.drag_added_Nm", add}}, {}, {"slow_crank"}, "renew_bushings"},
  };
}

Faults engine_faults() {
  constexpr auto kind = FaultClass::engine;
  return {
      {"engine_tight", kind, "engine", "N·m", 30, 200, 130,
       {{"engine.drag_added_Nm", add}}, {}, {"slow_crank"}, "free_engine"},
      {"engine_seized", kind, "engine", "N·m", 500, 950, 700,  // trade.md 71: to locked
       {{"engine.drag_added_Nm", add}}, {}, {"one_clunk", "thud_and_stop"}, "free_engine"},
      {"accessory_seized", kind, "engine", "N·m", 30, 200, 130,
       {{"engine.accessory_drag_Nm", add}}, {}, {"slow_crank"}, "renew_accessory"},
      // More than the largest combustion chamber of the three types holds, 86 cm³: with less the engine gets over it.
      {"liquid_in_cylinder", kind, "engine", "cm³", 88, 150, 100,
       {{"engine.liquid_cm3", set}}, {}, {"thud_and_stop", "kicks_back"}, "drain_cylinder"},
      {"oil_too_thick", kind, "engine", "times the effort", 1.4, 3.5, 2.6,
       {{"engine.oil_effort", scale}}, {}, {"slow_crank"}, "change_oil"},
      {"cylinder_weak", kind, "engine", "", 1, 1, 1,
       {{"engine.weak_cylinder", set, 1.0}}, {}, {"uneven_crank"}, "repair_cylinder"},
      // Common practice: a head gasket blown between neighbours takes two.
      {"two_cylinders_weak", kind, "engine", "", 1, 1, 1,
       {{"engine.weak_cylinder", set, 2.0}}, {}, {"uneven_crank"}, "renew_head_gasket"},
      // trade.md 74: jerks, stops and kicks with the ignition live; even with it off.
      {"ignition_timing_advanced", kind, "engine", "° before top centre", 48, 60, 55,
       {{"engine.spark_advance_deg", set}}, {}, {"kicks_back", "fires_without_starting"}, "set_ignition_timing"},
  };
}
// clang-format on

}  // namespace voltfall::catalogue
