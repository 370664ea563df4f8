#include "rig/wiring.h"

#include "electrical/conductor.h"

namespace voltfall {
namespace {

using enum TestPoint;

// Power path, control path, body and loads, leaks. The starter's own insulation is put in apart: it ends at a hidden
// node.
constexpr std::array<ResistorEnds, resistor_count> ends{{
    {battery_positive_post, positive_clamp},
    {positive_clamp, relay_battery_lug},
    {relay_battery_lug, relay_battery_stud},
    {relay_motor_stud, relay_motor_lug},
    {relay_motor_lug, starter_lug},
    {starter_lug, starter_terminal},
    {starter_case, engine_block},
    {engine_block, block_lug},
    {block_lug, negative_clamp},
    {negative_clamp, negative_post},
    {relay_battery_stud, fusible_link_out},
    {fusible_link_out, ignition_feed},
    {ignition_feed, ignition_start_output},
    {ignition_start_output, neutral_switch_output},
    {neutral_switch_output, s_wire_end},
    {s_wire_end, s_terminal},
    {relay_case, body},
    {ignition_feed, ignition_coil_feed},
    {ignition_coil_feed, engine_block},
    {relay_battery_stud, i_terminal},
    {i_terminal, ignition_coil_feed},
    {fusible_link_out, dash_feed},
    {dash_feed, lamp_switch_output},
    {lamp_switch_output, headlamp_feed},
    {headlamp_ground, body},
    {dash_feed, body},
    {body, strap_body_lug},
    {strap_body_lug, strap_block_lug},
    {strap_block_lug, engine_block},
    {negative_clamp, body},
    {body, engine_block},
    {alternator_output, fusible_link_out},
    {starter_terminal, starter_case},  // from the brush bus, see Wiring
    {alternator_output, engine_block},
    {ignition_start_output, body},
    {neutral_switch_output, body},
    {i_terminal, body},
    {ignition_coil_feed, body},
    {lamp_switch_output, body},
    {relay_battery_lug, engine_block},
    {starter_lug, engine_block},
    {starter_terminal, starter_case},
    {s_wire_end, body},
}};

double joint_ohm(const JointParameters& joint, double temperature_C) {
  return joint.healthy_ohm * copper_factor(temperature_C) + joint.added_ohm + joint.slack_ohm;
}

double cable_ohm(const CableParameters& cable, double temperature_C) {
  return stranded_ohm_at_20C(cable.AWG, cable.length_m) * copper_factor(temperature_C) + cable.added_ohm;
}

double in_parallel(double one_ohm, double other_ohm) {
  return 1.0 / (1.0 / one_ohm + 1.0 / other_ohm);
}

bool safety_switch_closed(const ControlParameters& control, const Controls& controls) {
  if (control.neutral_switch_shorted > 0.5) return true;
  if (control.clutch_switch > 0.5) return controls.clutch_pedal_down && control.clutch_switch_misadjusted <= 0.5;
  if (control.neutral_switch_misadjusted > 0.5) return controls.gear == Gear::neutral;
  return controls.gear != Gear::drive;
}

// Of the neutral switch, or of the clutch pedal's in its place.
double safety_switch_ohm(const RigParameters& parameters, const Controls& controls) {
  return safety_switch_closed(parameters.control, controls) ? parameters.control.neutral_switch_ohm
                                                            : parameters.body.insulation_ohm;
}

double start_contact_ohm(const RigParameters& parameters, KeyPosition key) {
  const ControlParameters& control = parameters.control;
  const bool made = key == KeyPosition::start && control.start_rod_misadjusted <= 0.5;
  return in_parallel(made ? control.start_contact_ohm : parameters.body.insulation_ohm, control.start_leak_ohm);
}

}  // namespace

ResistorEnds ends_of(Resistor resistor) {
  return ends[static_cast<std::size_t>(resistor)];
}

double resistor_ohm(Resistor resistor, const RigParameters& parameters, const Controls& controls, bool relay_closed,
                    double temperature_C) {
  const ControlParameters& control = parameters.control;
  const BodyParameters& body_side = parameters.body;
  const double open_ohm = body_side.insulation_ohm;
  const bool coil_ground_switch = control.neutral_switch_in_coil_ground > 0.5;
  constexpr double short_wire_ohm = 0.02;
  switch (resistor) {
    case Resistor::positive_clamp:
      return joint_ohm(parameters.joints.positive_clamp, temperature_C);
    case Resistor::positive_cable:
      return cable_ohm(parameters.cables.positive, temperature_C);
    case Resistor::relay_battery_stud:
      return joint_ohm(parameters.joints.relay_battery_stud, temperature_C);
    case Resistor::relay_motor_stud:
      return joint_ohm(parameters.joints.relay_motor_stud, temperature_C);
    case Resistor::starter_cable:
      return cable_ohm(parameters.cables.starter, temperature_C);
    case Resistor::starter_terminal:
      return controls.starter_off ? open_ohm : joint_ohm(parameters.joints.starter_terminal, temperature_C);
    case Resistor::mounting_face:
      return controls.starter_off ? open_ohm : joint_ohm(parameters.joints.mounting_face, temperature_C);
    case Resistor::block_lug:
      return joint_ohm(parameters.joints.block_lug, temperature_C);
    case Resistor::negative_cable:
      return cable_ohm(parameters.cables.negative, temperature_C);
    case Resistor::negative_clamp:
      return controls.battery_connected ? joint_ohm(parameters.joints.negative_clamp, temperature_C) : open_ohm;
    case Resistor::fusible_link:
      return control.fusible_link_ohm * copper_factor(temperature_C);  // the hotter, the faster it goes
    case Resistor::ignition_feed:
      return control.bulkhead_plug_ohm;
    case Resistor::start_contact:
      return start_contact_ohm(parameters, controls.key);
    case Resistor::neutral_switch:
      return coil_ground_switch ? short_wire_ohm : safety_switch_ohm(parameters, controls);
    case Resistor::s_wire:
      return control.s_wire_ohm;
    case Resistor::s_push_on:
      return controls.s_wire_on ? control.s_push_on_ohm : open_ohm;
    case Resistor::relay_case_ground:
      return control.relay_case_ground_ohm + (coil_ground_switch ? safety_switch_ohm(parameters, controls) : 0.0);
    case Resistor::run_contact:
      return controls.key == KeyPosition::off ? open_ohm : control.run_contact_ohm;
    case Resistor::ignition_coil:
      return controls.ignition_live ? 3.0 : open_ohm;  // primary and ballast, from memory
    case Resistor::i_contact:
      return relay_closed ? short_wire_ohm : open_ohm;
    case Resistor::i_wire:
      return short_wire_ohm;
    case Resistor::dash_feed:
      return 0.01;
    case Resistor::lamp_switch:
      return controls.headlamps ? 0.01 : open_ohm;
    case Resistor::lamp_wire:
      return short_wire_ohm;
    case Resistor::lamp_ground:
      return 0.01;
    case Resistor::dash: {
      const double load_A = controls.key == KeyPosition::off ? body_side.drain_A : body_side.dash_A;
      return load_A > 12.6 / open_ohm ? 12.6 / load_A : open_ohm;
    }
    case Resistor::body_strap_joint:
      return joint_ohm(parameters.joints.body_strap, temperature_C);
    case Resistor::body_strap_cable:
      return cable_ohm(parameters.cables.body_strap, temperature_C);
    case Resistor::body_strap_block_end:
      return 2.0e-5;
    case Resistor::body_lead:
      return body_side.lead_fitted > 0.5 ? body_side.lead_ohm : open_ohm;
    case Resistor::parasitic:
      return body_side.parasitic_ohm;
    case Resistor::alternator_wire:
      return 0.005;
    case Resistor::winding_to_case:
      return parameters.starter.winding_to_case_ohm;
    case Resistor::positive_cable_to_ground:
      return parameters.cables.positive.to_ground_ohm;
    case Resistor::starter_cable_to_ground:
      return parameters.cables.starter.to_ground_ohm;
    case Resistor::terminal_to_case:
      return parameters.starter.terminal_to_case_ohm;
    case Resistor::s_wire_to_ground:
      return control.s_wire_to_ground_ohm;
    case Resistor::leak_alternator:
    case Resistor::leak_start_output:
    case Resistor::leak_neutral_output:
    case Resistor::leak_i_terminal:
    case Resistor::leak_coil_feed:
    case Resistor::leak_lamp_switch:
      break;
  }
  return open_ohm;
}

Network::Node Wiring::node_of(TestPoint point) {
  // Battery - is the reference; the other points follow in numbered order.
  if (point == negative_post) return Network::reference;
  const int index = static_cast<int>(point);
  return index < static_cast<int>(negative_post) ? index + 1 : index;
}

Wiring::Wiring(bool supply_across_starter) {
  for (std::size_t i = 1; i < test_point_count; ++i) network.add_node();
  drive_end = network.add_node();
  brush_bus = network.add_node();
  for (std::size_t i = 0; i < resistor_count; ++i) {
    const bool at_brushes = static_cast<Resistor>(i) == Resistor::winding_to_case;
    const Network::Node from = at_brushes ? brush_bus : node_of(ends[i].from);
    resistors[i] = network.add_fixed(from, node_of(ends[i].to), 1.0);
  }
  const Network::Node terminal = node_of(starter_terminal);
  const Network::Node frame = node_of(starter_case);
  // Live nodes are eliminated in the order they come in here: first those with few neighbours, which fill in little.
  field_2 = network.add_live(drive_end, brush_bus);
  relay_contact = network.add_live(node_of(relay_battery_stud), node_of(relay_motor_stud));
  relay_coil = network.add_live(node_of(s_terminal), node_of(relay_case));
  drive_coil = network.add_live(terminal, drive_end);
  field_34 = network.add_live(terminal, brush_bus);
  armature = network.add_live(brush_bus, frame);
  hold_in = network.add_live(terminal, frame);
  grounding_contacts = network.add_live(drive_end, frame);
  headlamps = network.add_fixed(node_of(headlamp_feed), node_of(headlamp_ground), 1.0);
  battery = network.add_live(node_of(negative_post), node_of(battery_positive_post));
  if (supply_across_starter) supply = network.add_live(frame, terminal);
  network.couple(drive_coil, hold_in);
  first_attached = static_cast<Network::Branch>(network.branch_count());
}

void Wiring::connect_alternator(double regulated_V) {
  constexpr double inner_ohm = 0.04;
  alternator_source_A = -regulated_V / inner_ohm;
  network.set(branch_of(Resistor::leak_alternator), 1.0 / inner_ohm, alternator_source_A);
}

void Wiring::set_resistances(const RigParameters& parameters, const Controls& controls, bool relay_closed,
                             const PartTemperatures& temperatures) {
  for (std::size_t i = 0; i < resistor_count; ++i) {
    const double ohm =
        resistor_ohm(static_cast<Resistor>(i), parameters, controls, relay_closed, temperatures.resistor_C[i]);
    network.set(resistors[i], 1.0 / ohm);
  }
  network.remove_from(first_attached);
  for (const AttachedBranch& hung : controls.attached) {
    const Network::Branch branch = network.add_fixed(node_of(hung.red), node_of(hung.black), 1.0 / hung.ohm);
    network.set(branch, 1.0 / hung.ohm, -hung.source_A);  // pushed out of red, through the circuit, into black
  }
}

}  // namespace voltfall
