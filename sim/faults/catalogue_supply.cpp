#include "faults/catalogue_rows.h"

namespace voltfall::catalogue {
namespace {

using enum TestPoint;

const ProvingPair rested{battery_positive_post, negative_post, "battery_rest"};
const ProvingPair loaded{battery_positive_post, negative_post, "battery_cranking"};

}  // namespace

// One fault, two or three lines: the formatter would make twelve of them.
// clang-format off
Faults battery_faults() {
  constexpr auto kind = FaultClass::battery;
  return {
      {"battery_discharged", kind, "battery", "of full charge", 0.02, 0.5, 0.12,
       {{"battery.charge", set}}, {rested, loaded}, {}, "charge_battery"},
      // trade.md 2: 0.1 to 3 A. Half an ampere empties 60 A·h in two or three nights; the car comes in nearly flat.
      {"parasitic_drain", kind, "cabin_circuits", "A", 0.1, 3.0, 1.5,
       {{"body.drain_A", set}, {"battery.charge", set, 0.10}}, {rested, loaded}, {}, "cure_drain"},
      {"battery_aged", kind, "battery", "of a new battery", 0.12, 0.5, 0.2,
       {{"battery.health", set}}, {loaded}, {}, "renew_battery"},
      {"battery_cell_shorted", kind, "battery", "", 1, 1, 1,
       {{"battery.shorted_cells", set, 1.0}}, {rested, loaded}, {}, "renew_battery"},
      {"battery_strap_cracked", kind, "battery", "ohm", 0.05, 5.0, 0.5,
       {{"battery.internal_ohm", set}}, {loaded}, {}, "renew_battery"},
      {"battery_too_small", kind, "battery", "of the specified rating", 0.35, 0.7, 0.45,
       {{"battery.rated_CCA_A", scale}, {"battery.capacity_Ah", scale}}, {loaded}, {}, "renew_battery"},
      // trade.md 6: half of the rating left. Plates that stand dry give nothing; what is still wet takes all the load.
      {"battery_low_acid", kind, "battery", "of the plates' height wetted", 0.35, 0.7, 0.45,
       {{"battery.acid_level", set}}, {loaded}, {}, "top_up_battery"},
      // trade.md 7: a flat battery (gravity below 1.10) that froze in the night; in the yard it is still ice at noon.
      {"battery_frozen", kind, "battery", "of the acid", 0.2, 1.0, 0.6,
       {{"battery.ice", set}, {"battery.charge", set, 0.05}}, {rested, loaded}, {}, "renew_battery"},
      // trade.md 9: running volts of 12 to 12.6. The battery comes in as the last days left it.
      {"charging_low", kind, "alternator", "V", 0.0, 12.6, 12.2,
       {{"body.alternator_V", set}, {"battery.charge", set, 0.12}}, {rested, loaded}, {}, "renew_alternator"},
  };
}

Faults joint_faults() {
  constexpr auto kind = FaultClass::joint;
  return {
      {"positive_clamp_corroded", kind, "positive_clamp", "ohm", 0.005, 0.060, 0.050,
       {{"joints.positive_clamp.added_ohm", add}},
       {{battery_positive_post, positive_clamp, "post_to_clamp"}}, {}, "clean_positive_clamp"},
      // trade.md 11: nothing to open, and it moves; these are the ohms it has while it is apart.
      {"positive_clamp_slack", kind, "positive_clamp", "ohm", 0.005, 5.0, 0.080,
       {{"joints.positive_clamp.slack_ohm", set}},
       {{battery_positive_post, positive_clamp, "post_to_clamp"}}, {}, "tighten_positive_clamp"},
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
      // trade.md 17: an unfused short. Here one that still leaves the battery some volts: less would burn at once.
      {"positive_cable_chafed", kind, "positive_cable", "ohm", 0.03, 0.5, 0.08,
       {{"cables.positive.to_ground_ohm", set}}, {rested, loaded}, {"smoke", "hot_cable"}, "renew_positive_cable"},
      {"starter_cable_rotted", kind, "starter_cable", "ohm", 0.003, 0.040, 0.030,
       {{"cables.starter.added_ohm", add}}, {{relay_motor_lug, starter_lug, "cable"}}, {}, "renew_starter_cable"},
      // trade.md 14: added by wire tables, per metre; twice the usual length of a thin wire is some 6 mohm.
      {"starter_cable_undersized", kind, "starter_cable", "AWG", 6, 12, 10,
       {{"cables.starter.AWG", set}}, {{relay_motor_lug, starter_lug, "cable"}}, {}, "renew_starter_cable"},
      {"starter_cable_chafed", kind, "starter_cable", "ohm", 0.02, 0.3, 0.05,
       {{"cables.starter.to_ground_ohm", set}}, {loaded}, {"slow_crank", "smoke", "hot_cable"}, "renew_starter_cable"},
  };
}

Faults ground_faults() {
  constexpr auto kind = FaultClass::ground;
  return {
      {"mounting_face_painted", kind, "mounting_face", "ohm", 0.003, 0.060, 0.035,
       {{"joints.mounting_face.added_ohm", add}},
       {{starter_case, engine_block, "mounting_face"}}, {}, "clean_mounting_face"},
      // trade.md 41 and 67: 3 to 40 mohm while the starter hangs loose in its hole.
      {"starter_bolts_loose", kind, "mounting_face", "ohm", 0.003, 0.040, 0.020,
       {{"joints.mounting_face.slack_ohm", set}},
       {{starter_case, engine_block, "mounting_face"}}, {}, "tighten_starter_bolts"},
      {"block_lug_rusted", kind, "block_lug", "ohm", 0.005, 0.060, 0.040,
       {{"joints.block_lug.added_ohm", add}}, {{engine_block, block_lug, "block_lug"}}, {}, "clean_block_lug"},
      {"negative_cable_rotted", kind, "negative_cable", "ohm", 0.005, 0.050, 0.030,
       {{"cables.negative.added_ohm", add}}, {{block_lug, negative_clamp, "cable"}}, {}, "renew_negative_cable"},
      {"negative_cable_undersized", kind, "negative_cable", "AWG", 6, 12, 10,
       {{"cables.negative.AWG", set}}, {{block_lug, negative_clamp, "cable"}}, {}, "renew_negative_cable"},
      // trade.md 43: after a swap the only cable goes to the body, and the starter comes home through the strap.
      {"negative_cable_to_body_only", kind, "negative_cable", "", 1, 1, 1,
       {{"cables.negative.added_ohm", set, open_ohm}, {"body.lead_fitted", set, 1.0}, {"body.lead_ohm", set, 0.0055},
        {"body.lead_ampacity_A", set, 300.0}},  // a whole battery cable, not the small lead
       {{engine_block, negative_post, "ground_side"}, {block_lug, negative_clamp, "cable"}}, {},
       "fit_block_cable"},
      {"negative_clamp_corroded", kind, "negative_clamp", "ohm", 0.005, 0.060, 0.050,
       {{"joints.negative_clamp.added_ohm", add}},
       {{negative_clamp, negative_post, "post_to_clamp"}}, {}, "clean_negative_clamp"},
      {"negative_clamp_slack", kind, "negative_clamp", "ohm", 0.005, 5.0, 0.080,
       {{"joints.negative_clamp.slack_ohm", set}},
       {{negative_clamp, negative_post, "post_to_clamp"}}, {}, "tighten_negative_clamp"},
      {"body_strap_lost", kind, "body_strap", "", 1, 1, 1,
       {{"joints.body_strap.added_ohm", set, open_ohm}},
       {{body, engine_block, "strap"}, {body, strap_body_lug, "strap"}}, {}, "fit_body_strap"},
  };
}
// clang-format on

}  // namespace voltfall::catalogue
