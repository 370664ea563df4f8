#include "faults/catalogue_rows.h"

namespace voltfall::catalogue {

using enum TestPoint;

// One fault, two or three lines: the formatter would make twelve of them.
// clang-format off
Faults relay_faults() {
  constexpr auto kind = FaultClass::relay;
  const ProvingPair contact{relay_battery_stud, relay_motor_stud, "relay_contact"};
  const ProvingPair coil{s_terminal, relay_case, "relay_coil"};
  const ProvingPair released{relay_motor_stud, negative_post, "released"};
  return {
      {"relay_contacts_pitted", kind, "relay", "ohm", 0.003, 0.060, 0.035,
       {{"relay.contact_ohm", set}}, {contact}, {}, "renew_relay"},
      {"relay_contact_open", kind, "relay", "", 1, 1, 1,
       {{"relay.contact_ohm", set, open_ohm}}, {contact}, {}, "renew_relay"},
      {"relay_coil_open", kind, "relay", "", 1, 1, 1,
       {{"relay.coil_ohm", set, open_ohm}}, {coil}, {}, "renew_relay"},
      // trade.md 19: 0.5 to 2 ohm left of some four, and as large a share of the turns.
      {"relay_coil_shorted", kind, "relay", "of the turns left", 0.12, 0.5, 0.25,
       {{"relay.coil_ohm", scale}, {"relay.coil_turns", scale}}, {coil}, {}, "renew_relay"},
      {"relay_contacts_welded", kind, "relay", "", 1, 1, 1,
       {{"relay.contact_welded", set, 1.0}}, {released}, {"runs_on"}, "renew_relay"},
      // trade.md 23 gives delays of 0.2 to 5 s. Gummed, it lets go 0.35 to 1 s late: the springs have little to spare over
      // its friction, the coil has plenty.
      {"relay_plunger_sticks", kind, "relay", "N·s/m", 2000, 6000, 4000,
       {{"relay.plunger_damping_Ns_per_m", set}, {"relay.plunger_friction_N", set, 16.0}},
       {released}, {"runs_on"}, "renew_relay"},
      // trade.md 26 and 0.2: more than 8 ohm; the coil of a relay for another purpose, too weak for this one's spring.
      {"relay_wrong_type", kind, "relay", "ohm", 10, 25, 14,
       {{"relay.coil_ohm", set}}, {coil}, {}, "renew_relay"},
      {"relay_case_ground_lost", kind, "relay_bracket", "ohm", 1, 1000, 50,
       {{"control.relay_case_ground_ohm", set}}, {{relay_case, body, "coil_ground"}}, {}, "clean_relay_bracket"},
  };
}

Faults control_faults() {
  constexpr auto kind = FaultClass::control;
  constexpr auto automatic = Gearbox::automatic, manual = Gearbox::manual;
  const ProvingPair link{relay_battery_stud, fusible_link_out, "control_leg"};
  const ProvingPair start{ignition_feed, ignition_start_output, "control_leg"};
  const ProvingPair neutral{ignition_start_output, neutral_switch_output, "control_leg"};
  const ProvingPair coil_ground{relay_case, body, "coil_ground"};  // where the coil comes home through the switch
  const ProvingPair live{s_terminal, negative_post, "released"};
  return {
      {"fusible_link_weak", kind, "fusible_link", "ohm", 0.2, 8, 4,
       {{"control.fusible_link_ohm", set}}, {link}, {}, "renew_fusible_link"},
      {"fusible_link_open", kind, "fusible_link", "", 1, 1, 1,
       {{"control.fusible_link_ohm", set, open_ohm}}, {link}, {}, "renew_fusible_link"},
      {"bulkhead_plug_corroded", kind, "bulkhead_plug", "ohm", 0.3, 8, 4,
       {{"control.bulkhead_plug_ohm", set}},
       {{fusible_link_out, ignition_feed, "control_leg"}}, {}, "clean_bulkhead_plug"},
      // trade.md 37: 1 to 20 ohm. At 2.5 it cranks by itself; from there on it only holds a relay that has pulled in.
      {"bulkhead_leak_to_start", kind, "bulkhead_plug", "ohm", 1, 11, 6,
       {{"control.start_leak_ohm", set}}, {live}, {"runs_on"}, "separate_bulkhead_pins"},
      {"ignition_start_contact_burnt", kind, "ignition_switch", "ohm", 0.5, 10, 5,
       {{"control.start_contact_ohm", set}}, {start}, {}, "renew_ignition_switch"},
      {"ignition_switch_misadjusted", kind, "ignition_switch", "", 1, 1, 1,  // trade.md 30
       {{"control.start_rod_misadjusted", set, 1.0}}, {start}, {}, "adjust_ignition_switch"},
      {"ignition_switch_sticks", kind, "ignition_switch", "", 1, 1, 1,  // trade.md 31
       {{"control.start_contact_sticks", set, 1.0}}, {live}, {"runs_on"}, "renew_ignition_switch"},
      {"neutral_switch_misadjusted", kind, "neutral_switch", "", 1, 1, 1,
       {{"control.neutral_switch_misadjusted", set, 1.0}}, {neutral, coil_ground}, {}, "adjust_neutral_switch",
       automatic},
      {"neutral_switch_open", kind, "neutral_switch", "", 1, 1, 1,
       {{"control.neutral_switch_ohm", set, open_ohm}}, {neutral, coil_ground}, {}, "renew_neutral_switch", automatic},
      {"neutral_switch_wet", kind, "neutral_switch", "ohm", 1, 50, 6,
       {{"control.neutral_switch_ohm", set}}, {neutral, coil_ground}, {}, "renew_neutral_switch", automatic},
      {"neutral_switch_bypassed", kind, "neutral_switch", "", 1, 1, 1,  // trade.md 34
       {{"control.neutral_switch_shorted", set, 1.0}}, {}, {"cranks_in_gear"}, "restore_neutral_switch", automatic},
      {"clutch_switch_open", kind, "clutch_switch", "", 1, 1, 1,  // trade.md 35
       {{"control.neutral_switch_ohm", set, open_ohm}}, {neutral, coil_ground}, {}, "renew_clutch_switch", manual},
      {"clutch_switch_misadjusted", kind, "clutch_switch", "", 1, 1, 1,  // trade.md 35
       {{"control.clutch_switch_misadjusted", set, 1.0}}, {neutral, coil_ground}, {}, "adjust_clutch_switch", manual},
      {"clutch_switch_bypassed", kind, "clutch_switch", "", 1, 1, 1,  // trade.md 34, as common with a clutch pedal
       {{"control.neutral_switch_shorted", set, 1.0}}, {}, {"cranks_in_gear"}, "restore_clutch_switch", manual},
      {"s_wire_broken", kind, "s_wire", "", 1, 1, 1,  // common practice: broken where it is bent
       {{"control.s_wire_ohm", set, open_ohm}}, {{neutral_switch_output, s_wire_end, "control_leg"}}, {}, "renew_s_wire"},
      // trade.md 38: below an ohm; the link goes at START only.
      {"s_wire_shorted", kind, "s_wire", "ohm", 0.01, 0.8, 0.02,
       {{"control.s_wire_to_ground_ohm", set}}, {{battery_positive_post, s_terminal, "control_side"}, link},
       {}, "renew_s_wire"},
      {"s_push_on_loose", kind, "s_push_on", "ohm", 0.5, 10, 5,
       {{"control.s_push_on_ohm", set}}, {{s_wire_end, s_terminal, "control_leg"}}, {}, "renew_s_push_on"},
  };
}
// clang-format on

}  // namespace voltfall::catalogue
