#pragma once

#include <array>
#include <vector>

#include "electrical/network.h"
#include "rig/controls.h"
#include "rig/parameters.h"
#include "rig/test_points.h"

namespace voltfall {

/// Every plain resistance of the vehicle. The order is that of the table in wiring.cpp.
enum class Resistor {
  positive_clamp,
  positive_cable,
  relay_battery_stud,
  relay_motor_stud,
  starter_cable,
  starter_terminal,
  mounting_face,
  block_lug,
  negative_cable,
  negative_clamp,
  fusible_link,
  ignition_feed,
  start_contact,
  neutral_switch,
  s_wire,
  s_push_on,
  relay_case_ground,
  run_contact,
  ignition_coil,
  i_contact,
  i_wire,
  dash_feed,
  lamp_switch,
  lamp_wire,
  lamp_ground,
  dash,
  body_strap_joint,
  body_strap_cable,
  body_strap_block_end,
  body_lead,
  parasitic,
  alternator_wire,
  winding_to_case,
  leak_alternator,
  leak_start_output,
  leak_neutral_output,
  leak_i_terminal,
  leak_coil_feed,
  leak_lamp_switch,
  positive_cable_to_ground,
  starter_cable_to_ground,
  terminal_to_case,
  s_wire_to_ground,
};
inline constexpr std::size_t resistor_count = static_cast<std::size_t>(Resistor::s_wire_to_ground) + 1;

/// Temperatures of the parts whose resistance follows them.
struct PartTemperatures {
  explicit PartTemperatures(double ambient_C) {
    resistor_C.fill(ambient_C), drive_C = field_C = armature_C = brush_C = ambient_C;
    relay_coil_C = relay_contact_C = grounding_contacts_C = battery_C = ambient_C;
  }
  std::array<double, resistor_count> resistor_C;
  double drive_C, field_C, armature_C, brush_C;
  double relay_coil_C, relay_contact_C, grounding_contacts_C, battery_C;
};

/// The vehicle's circuit as a network: which branch is which.
///
/// Live branches (worked out at every step) are the battery, the supply, the relay's contact and coil and the starter's
/// six; all else is plain resistance and changes only when a switch moves or a part warms.
struct Wiring {
  explicit Wiring(bool supply_across_starter);

  Network network;
  Network::Node drive_end, brush_bus;  ///< D and F of the starter: no probe reaches them
  Network::Branch battery, relay_contact, relay_coil, drive_coil, field_2, field_34, armature, hold_in,
      grounding_contacts;
  Network::Branch headlamps;    ///< a fixed branch, set anew as the filament's resistance moves on
  Network::Branch supply = -1;  ///< straight across the starter on the test stand, else -1
  Network::Branch first_attached;
  double alternator_source_A = 0.0;

  Network::Branch branch_of(Resistor resistor) const { return resistors[static_cast<std::size_t>(resistor)]; }

  /// Sets every plain resistance from parameters, switches and temperatures, and hangs on what people attach.
  void set_resistances(const RigParameters& parameters, const Controls& controls, bool relay_closed,
                       const PartTemperatures& temperatures);

  /// Puts the running alternator's regulated volts behind its own branch, until the resistances are set anew. Its drag
  /// on the engine is left out: below a fiftieth of what idling takes.
  void connect_alternator(double regulated_V);

  static Network::Node node_of(TestPoint point);

  std::array<Network::Branch, resistor_count> resistors;
};

/// The two points that a plain element joins; the field winding's insulation, `winding_to_case`, starts from the hidden
/// brush bus instead.
struct ResistorEnds {
  TestPoint from, to;
};
ResistorEnds ends_of(Resistor resistor);

/// Resistance of one plain element.
double resistor_ohm(Resistor resistor, const RigParameters& parameters, const Controls& controls, bool relay_closed,
                    double temperature_C);

}  // namespace voltfall
