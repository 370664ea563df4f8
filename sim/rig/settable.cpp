#include "rig/settable.h"

#include <fmt/format.h>

#include <array>
#include <vector>

#include "text/nearest.h"

namespace voltfall {
namespace {

#define VOLTFALL_AT(member) ([](RigParameters& p) -> double& { return p.member; })

// Ranges are what the model is tested over; the meaning says what the top end stands for where it is a failure.
constexpr std::array<Settable, 117> table{{
    {"ambient_C", "°C", -40, 60, "air, oil, cables and battery before the key is turned", VOLTFALL_AT(ambient_C)},
    {"battery.charge", "", 0, 1, "state of charge when the key is first turned", VOLTFALL_AT(battery.charge)},
    {"battery.rated_CCA_A", "A", 200, 1200, "cold cranking rating, SAE J537", VOLTFALL_AT(battery.rated_CCA_A)},
    {"battery.capacity_Ah", "A·h", 20, 200, "capacity of the new battery at the 20 h rate",
     VOLTFALL_AT(battery.capacity_Ah)},
    {"battery.health", "", 0.1, 1, "1 is new; resistance goes as 1/health, capacity as health",
     VOLTFALL_AT(battery.health)},
    {"battery.shorted_cells", "", 0, 3, "cells of six that give no volts", VOLTFALL_AT(battery.shorted_cells)},
    {"battery.internal_ohm", "ohm", 0, 100, "cracked strap between cells", VOLTFALL_AT(battery.internal_ohm)},
    {"battery.surface_charge_V", "V", 0, 1.2, "above the rested volts, fresh off a charger",
     VOLTFALL_AT(battery.surface_charge_V)},
    {"joints.positive_clamp.healthy_ohm", "ohm", 1e-05, 0.001, "clean metal: battery + post to its clamp",
     VOLTFALL_AT(joints.positive_clamp.healthy_ohm)},
    {"joints.positive_clamp.added_ohm", "ohm", 0, 10000000.0, "in series with clean metal: battery + post to its clamp",
     VOLTFALL_AT(joints.positive_clamp.added_ohm)},
    {"joints.relay_battery_stud.healthy_ohm", "ohm", 1e-05, 0.001, "clean metal: cable lug to relay battery stud",
     VOLTFALL_AT(joints.relay_battery_stud.healthy_ohm)},
    {"joints.relay_battery_stud.added_ohm", "ohm", 0, 10000000.0,
     "in series with clean metal: cable lug to relay battery stud", VOLTFALL_AT(joints.relay_battery_stud.added_ohm)},
    {"joints.relay_motor_stud.healthy_ohm", "ohm", 1e-05, 0.001, "clean metal: relay motor stud to cable lug",
     VOLTFALL_AT(joints.relay_motor_stud.healthy_ohm)},
    {"joints.relay_motor_stud.added_ohm", "ohm", 0, 10000000.0,
     "in series with clean metal: relay motor stud to cable lug", VOLTFALL_AT(joints.relay_motor_stud.added_ohm)},
    {"joints.starter_terminal.healthy_ohm", "ohm", 1e-05, 0.001, "clean metal: cable lug to starter terminal stud",
     VOLTFALL_AT(joints.starter_terminal.healthy_ohm)},
    {"joints.starter_terminal.added_ohm", "ohm", 0, 10000000.0,
     "in series with clean metal: cable lug to starter terminal stud", VOLTFALL_AT(joints.starter_terminal.added_ohm)},
    {"joints.mounting_face.healthy_ohm", "ohm", 1e-05, 0.001, "clean metal: starter case to engine block",
     VOLTFALL_AT(joints.mounting_face.healthy_ohm)},
    {"joints.mounting_face.added_ohm", "ohm", 0, 10000000.0, "in series with clean metal: starter case to engine block",
     VOLTFALL_AT(joints.mounting_face.added_ohm)},
    {"joints.block_lug.healthy_ohm", "ohm", 1e-05, 0.001, "clean metal: engine block to negative cable lug",
     VOLTFALL_AT(joints.block_lug.healthy_ohm)},
    {"joints.block_lug.added_ohm", "ohm", 0, 10000000.0,
     "in series with clean metal: engine block to negative cable lug", VOLTFALL_AT(joints.block_lug.added_ohm)},
    {"joints.negative_clamp.healthy_ohm", "ohm", 1e-05, 0.001, "clean metal: negative clamp to battery - post",
     VOLTFALL_AT(joints.negative_clamp.healthy_ohm)},
    {"joints.negative_clamp.added_ohm", "ohm", 0, 10000000.0,
     "in series with clean metal: negative clamp to battery - post", VOLTFALL_AT(joints.negative_clamp.added_ohm)},
    {"joints.body_strap.healthy_ohm", "ohm", 1e-05, 0.001, "clean metal: body to its strap lug; 1e7 is a lost strap",
     VOLTFALL_AT(joints.body_strap.healthy_ohm)},
    {"joints.body_strap.added_ohm", "ohm", 0, 10000000.0,
     "in series with clean metal: body to its strap lug; 1e7 is a lost strap",
     VOLTFALL_AT(joints.body_strap.added_ohm)},
    {"cables.positive.AWG", "AWG", -3, 14, "battery + clamp to relay; 1/0 is 0, 2/0 is -1",
     VOLTFALL_AT(cables.positive.AWG)},
    {"cables.positive.length_m", "m", 0.05, 10, "battery + clamp to relay", VOLTFALL_AT(cables.positive.length_m)},
    {"cables.positive.added_ohm", "ohm", 0, 10000000.0, "broken or rotted strands: battery + clamp to relay",
     VOLTFALL_AT(cables.positive.added_ohm)},
    {"cables.starter.AWG", "AWG", -3, 14, "relay to starter; 1/0 is 0, 2/0 is -1", VOLTFALL_AT(cables.starter.AWG)},
    {"cables.starter.length_m", "m", 0.05, 10, "relay to starter", VOLTFALL_AT(cables.starter.length_m)},
    {"cables.starter.added_ohm", "ohm", 0, 10000000.0, "broken or rotted strands: relay to starter",
     VOLTFALL_AT(cables.starter.added_ohm)},
    {"cables.negative.AWG", "AWG", -3, 14, "engine block to negative clamp; 1/0 is 0, 2/0 is -1",
     VOLTFALL_AT(cables.negative.AWG)},
    {"cables.negative.length_m", "m", 0.05, 10, "engine block to negative clamp",
     VOLTFALL_AT(cables.negative.length_m)},
    {"cables.negative.added_ohm", "ohm", 0, 10000000.0, "broken or rotted strands: engine block to negative clamp",
     VOLTFALL_AT(cables.negative.added_ohm)},
    {"cables.body_strap.AWG", "AWG", -3, 14, "body to engine block; 1/0 is 0, 2/0 is -1",
     VOLTFALL_AT(cables.body_strap.AWG)},
    {"cables.body_strap.length_m", "m", 0.05, 10, "body to engine block", VOLTFALL_AT(cables.body_strap.length_m)},
    {"cables.body_strap.added_ohm", "ohm", 0, 10000000.0, "broken or rotted strands: body to engine block",
     VOLTFALL_AT(cables.body_strap.added_ohm)},
    {"relay.contact_ohm", "ohm", 5e-05, 10000000.0, "closed contact", VOLTFALL_AT(relay.contact_ohm)},
    {"relay.constriction_ohm", "ohm", 2e-05, 0.002, "narrow spots where metal touches metal, cold",
     VOLTFALL_AT(relay.constriction_ohm)},
    {"relay.contact_welded", "", 0, 1, "1: the disc can't leave the studs", VOLTFALL_AT(relay.contact_welded)},
    {"relay.coil_ohm", "ohm", 0.3, 10000000.0, "coil at 20 °C; 1e7 is open", VOLTFALL_AT(relay.coil_ohm)},
    {"relay.plunger_travel_m", "m", 0.0015, 0.005, "plunger stroke", VOLTFALL_AT(relay.plunger_travel_m)},
    {"relay.contact_touch_m", "m", 0.0005, 0.004,
     "plunger travel at which the disc meets the studs; must be less than the stroke",
     VOLTFALL_AT(relay.contact_touch_m)},
    {"relay.return_spring_N", "N", 1, 30, "return spring preload", VOLTFALL_AT(relay.return_spring_N)},
    {"relay.return_spring_N_per_m", "N/m", 0, 5000, "return spring rate", VOLTFALL_AT(relay.return_spring_N_per_m)},
    {"relay.plunger_friction_N", "N", 0, 30, "sticking plunger", VOLTFALL_AT(relay.plunger_friction_N)},
    {"starter.drive_coil_ohm", "ohm", 0.002, 10000000.0, "coil on the movable pole, 20 °C",
     VOLTFALL_AT(starter.drive_coil_ohm)},
    {"starter.field_coil_ohm", "ohm", 0.001, 1, "each of the other three heavy coils, 20 °C",
     VOLTFALL_AT(starter.field_coil_ohm)},
    {"starter.armature_ohm", "ohm", 0.0005, 1, "armature winding, 20 °C", VOLTFALL_AT(starter.armature_ohm)},
    {"starter.hold_in_ohm", "ohm", 0.5, 10000000.0, "hold-in coil, 20 °C; 1e7 is open",
     VOLTFALL_AT(starter.hold_in_ohm)},
    {"starter.grounding_contacts_ohm", "ohm", 0.0005, 1, "closed grounding contacts",
     VOLTFALL_AT(starter.grounding_contacts_ohm)},
    {"starter.grounding_contacts_stuck", "", -1, 1, "-1 never close, 0 work, 1 welded",
     VOLTFALL_AT(starter.grounding_contacts_stuck)},
    {"starter.coil_turns", "", 4, 40, "turns of each heavy coil", VOLTFALL_AT(starter.coil_turns)},
    {"starter.hold_in_turns", "", 50, 600, "turns of the hold-in coil", VOLTFALL_AT(starter.hold_in_turns)},
    {"starter.brush_drop_V", "V", 0.2, 4, "total brush drop at full current", VOLTFALL_AT(starter.brush_drop_V)},
    {"starter.brush_knee_A", "A", 1, 100, "current at which the brush drop saturates",
     VOLTFALL_AT(starter.brush_knee_A)},
    {"starter.brush_added_ohm", "ohm", 0, 10000000.0, "worn brushes, weak springs, oily commutator; 1e7 is open",
     VOLTFALL_AT(starter.brush_added_ohm)},
    {"starter.winding_to_case_ohm", "ohm", 0.002, 100000000.0, "field winding insulation",
     VOLTFALL_AT(starter.winding_to_case_ohm)},
    {"starter.flux_fraction", "", 0.2, 1, "share of the field turns that still work",
     VOLTFALL_AT(starter.flux_fraction)},
    {"starter.machine_constant_Nm_per_A_T", "N·m/(A·T)", 0.005, 0.1, "torque per ampere and tesla",
     VOLTFALL_AT(starter.machine_constant_Nm_per_A_T)},
    {"starter.armature_inertia_kg_m2", "kg·m²", 0.0001, 0.01, "armature", VOLTFALL_AT(starter.armature_inertia_kg_m2)},
    {"starter.friction_Nm", "N·m", 0, 5, "bearings and brushes", VOLTFALL_AT(starter.friction_Nm)},
    {"starter.friction_Nm_s", "N·m·s/rad", 0, 0.01, "windage", VOLTFALL_AT(starter.friction_Nm_s)},
    {"starter.drag_added_Nm", "N·m", 0, 20, "worn bushings, dragging armature", VOLTFALL_AT(starter.drag_added_Nm)},
    {"shoe.travel_m", "m", 0.006, 0.015, "movable pole shoe stroke", VOLTFALL_AT(shoe.travel_m)},
    {"shoe.mass_kg", "kg", 0.1, 1, "shoe and lever, at the shoe", VOLTFALL_AT(shoe.mass_kg)},
    {"shoe.spring_preload_N", "N", 0, 300, "return spring preload", VOLTFALL_AT(shoe.spring_preload_N)},
    {"shoe.spring_N_per_m", "N/m", 0, 20000, "return spring rate", VOLTFALL_AT(shoe.spring_N_per_m)},
    {"shoe.hinge_friction_N", "N", 0, 2000, "dry friction at the pivot; high is seized",
     VOLTFALL_AT(shoe.hinge_friction_N)},
    {"shoe.contacts_open_at", "", 0.5, 0.99, "share of travel at which the grounding contacts open",
     VOLTFALL_AT(shoe.contacts_open_at)},
    {"drive.pinion_teeth", "", 7, 16, "pinion", VOLTFALL_AT(drive.pinion_teeth)},
    {"drive.ring_teeth", "", 90, 220, "ring gear", VOLTFALL_AT(drive.ring_teeth)},
    {"drive.lever_ratio", "", 1.3, 3, "pinion travel over shoe travel", VOLTFALL_AT(drive.lever_ratio)},
    {"drive.teeth_meet_at", "", 0.2, 0.55, "share of shoe travel at which pinion and ring faces meet",
     VOLTFALL_AT(drive.teeth_meet_at)},
    {"drive.tooth_friction", "", 0.02, 0.6, "steel on steel, greased to dry", VOLTFALL_AT(drive.tooth_friction)},
    {"drive.missing_teeth", "", 0, 12, "of the ring, side by side", VOLTFALL_AT(drive.missing_teeth)},
    {"drive.missing_at_deg", "°", 0, 360, "crank angle at which the middle of that gap faces the pinion",
     VOLTFALL_AT(drive.missing_at_deg)},
    {"drive.clutch_slip_Nm", "N·m", 0, 300, "one-way clutch holds this much at the pinion",
     VOLTFALL_AT(drive.clutch_slip_Nm)},
    {"engine.cylinders", "", 4, 8, "4, 6 or 8; others are taken as the nearest below", VOLTFALL_AT(engine.cylinders)},
    {"engine.bore_m", "m", 0.06, 0.13, "bore", VOLTFALL_AT(engine.bore_m)},
    {"engine.stroke_m", "m", 0.05, 0.13, "stroke", VOLTFALL_AT(engine.stroke_m)},
    {"engine.rod_m", "m", 0.09, 0.25, "connecting rod, centre to centre", VOLTFALL_AT(engine.rod_m)},
    {"engine.compression_ratio", "", 6, 14, "geometric", VOLTFALL_AT(engine.compression_ratio)},
    {"engine.intake_closes_deg", "°", 20, 90, "after bottom centre", VOLTFALL_AT(engine.intake_closes_deg)},
    {"engine.compression_index", "", 1.1, 1.4, "compression of the trapped air, before what it loses to the walls",
     VOLTFALL_AT(engine.compression_index)},
    {"engine.wall_time_s", "s", 0.05, 10, "trapped air giving its heat to the walls", VOLTFALL_AT(engine.wall_time_s)},
    {"engine.leak_time_s", "s", 0.05, 20, "trapped charge leaking past the rings", VOLTFALL_AT(engine.leak_time_s)},
    {"engine.weak_cylinder", "", 0, 1, "1: cylinder 1 holds no pressure", VOLTFALL_AT(engine.weak_cylinder)},
    {"engine.plugs_out", "", 0, 1, "1: all spark plugs out", VOLTFALL_AT(engine.plugs_out)},
    {"engine.inertia_kg_m2", "kg·m²", 0.05, 1, "crankshaft and flywheel", VOLTFALL_AT(engine.inertia_kg_m2)},
    {"engine.friction_Nm", "N·m", 1, 300, "dry part at 27 °C", VOLTFALL_AT(engine.friction_Nm)},
    {"engine.friction_Nm_s", "N·m·s/rad", 0, 10, "viscous part at 27 °C", VOLTFALL_AT(engine.friction_Nm_s)},
    {"engine.drag_added_Nm", "N·m", 0, 1000, "seized accessory, tight bearings", VOLTFALL_AT(engine.drag_added_Nm)},
    {"engine.accessory_drag_Nm", "N·m", 0, 1000, "a seized pump or compressor on the belt, at the crank",
     VOLTFALL_AT(engine.accessory_drag_Nm)},
    {"engine.oil_grade_W", "", 0, 25, "SAE J300 winter grade", VOLTFALL_AT(engine.oil_grade_W)},
    {"engine.liquid_cm3", "cm³", 0, 200, "water, fuel or coolant in cylinder 1", VOLTFALL_AT(engine.liquid_cm3)},
    {"engine.spark_advance_deg", "°", 0, 60, "before top centre, while cranking; 0 is no spark at the plugs",
     VOLTFALL_AT(engine.spark_advance_deg)},
    {"engine.oil_effort", "", 0.5, 4, "multiplies friction; over 1 for too thick an oil",
     VOLTFALL_AT(engine.oil_effort)},
    {"control.fusible_link_ohm", "ohm", 0.0005, 10000000.0, "fusible link; 1e7 is blown",
     VOLTFALL_AT(control.fusible_link_ohm)},
    {"control.bulkhead_plug_ohm", "ohm", 0.0005, 10000000.0, "plug between engine bay and cabin",
     VOLTFALL_AT(control.bulkhead_plug_ohm)},
    {"control.start_contact_ohm", "ohm", 0.0005, 10000000.0, "ignition switch, start contact",
     VOLTFALL_AT(control.start_contact_ohm)},
    {"control.run_contact_ohm", "ohm", 0.0005, 10000000.0, "ignition switch, run contact",
     VOLTFALL_AT(control.run_contact_ohm)},
    {"control.neutral_switch_ohm", "ohm", 0.0005, 10000000.0, "neutral switch, closed",
     VOLTFALL_AT(control.neutral_switch_ohm)},
    {"control.neutral_switch_in_coil_ground", "", 0, 1, "1: the relay coil returns through the neutral switch",
     VOLTFALL_AT(control.neutral_switch_in_coil_ground)},
    {"control.neutral_switch_misadjusted", "", 0, 1, "1: open in park, closed in neutral",
     VOLTFALL_AT(control.neutral_switch_misadjusted)},
    {"control.s_wire_ohm", "ohm", 0.0005, 10000000.0, "wire from neutral switch to relay",
     VOLTFALL_AT(control.s_wire_ohm)},
    {"control.s_push_on_ohm", "ohm", 0.0005, 10000000.0, "push-on terminal at the relay's S blade",
     VOLTFALL_AT(control.s_push_on_ohm)},
    {"control.relay_case_ground_ohm", "ohm", 0.0005, 10000000.0, "relay case to body",
     VOLTFALL_AT(control.relay_case_ground_ohm)},
    {"body.lead_fitted", "", 0, 1, "1: a small lead joins battery - to the body", VOLTFALL_AT(body.lead_fitted)},
    {"body.lead_ohm", "ohm", 0.001, 10000000.0, "that lead", VOLTFALL_AT(body.lead_ohm)},
    {"body.lead_ampacity_A", "A", 5, 300, "current at which the lead comes to 100 K above the air",
     VOLTFALL_AT(body.lead_ampacity_A)},
    {"body.parasitic_ohm", "ohm", 0.5, 10000000.0, "control cables and hinges between block and body",
     VOLTFALL_AT(body.parasitic_ohm)},
    {"body.parasitic_ampacity_A", "A", 1, 100, "current at which they come to 100 K above the air",
     VOLTFALL_AT(body.parasitic_ampacity_A)},
    {"body.headlamp_W", "W", 0, 300, "both headlamps at 12.8 V", VOLTFALL_AT(body.headlamp_W)},
    {"body.dash_A", "A", 0, 10, "dash and dome lamp with the key on, at 12.6 V", VOLTFALL_AT(body.dash_A)},
    {"body.drain_A", "A", 0, 5, "with the key off, at 12.6 V", VOLTFALL_AT(body.drain_A)},
    {"body.alternator_V", "V", 0, 16, "regulated, with the engine running; 0 does not charge",
     VOLTFALL_AT(body.alternator_V)},
    {"body.insulation_ohm", "ohm", 10000.0, 100000000.0, "open switches and harness insulation",
     VOLTFALL_AT(body.insulation_ohm)},
}};

#undef VOLTFALL_AT

}  // namespace

double Settable::value_in(const RigParameters& parameters) const {
  RigParameters copy = parameters;
  return in(copy);
}

std::span<const Settable> all_settables() {
  return table;
}

const Settable* settable_at(std::string_view path) {
  for (const Settable& settable : table) {
    if (settable.path == path) return &settable;
  }
  return nullptr;
}

std::string_view nearest_settable(std::string_view wrong) {
  std::vector<std::string_view> paths;
  paths.reserve(table.size());
  for (const Settable& settable : table) paths.push_back(settable.path);
  return nearest_name(wrong, paths);
}

std::string contradiction_in(const RigParameters& parameters) {
  const RelayParameters& relay = parameters.relay;
  if (relay.contact_touch_m < relay.plunger_travel_m) return {};
  return fmt::format("relay.contact_touch_m is {} m; allowed: less than relay.plunger_travel_m, {} m",
                     relay.contact_touch_m, relay.plunger_travel_m);
}

}  // namespace voltfall
