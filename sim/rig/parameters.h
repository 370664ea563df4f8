#pragma once

#include "electrical/battery.h"
#include "mechanical/drive_train.h"
#include "mechanical/engine.h"
#include "mechanical/pole_shoe.h"

namespace voltfall {

/// A bolted or clamped joint: three resistances in series.
struct JointParameters {
  double healthy_ohm = 1.5e-5;
  double added_ohm = 0.0;  ///< crust, paint, rust, burnt threads: goes when the faces are cleaned
  double slack_ohm = 0.0;  ///< a clamp or bolt that is not tight: goes when it is tightened
};

/// A stranded copper cable. AWG 1/0 is 0, 2/0 is -1, 3/0 is -2, 4/0 is -3.
struct CableParameters {
  double AWG = 2.0;
  double length_m = 1.0;
  double added_ohm = 0.0;        ///< broken strands or rot under the insulation
  double to_ground_ohm = 2.0e7;  ///< insulation against body and block; chafed through it is next to nothing
};

struct JointSet {
  JointParameters positive_clamp, relay_battery_stud, relay_motor_stud, starter_terminal, mounting_face, block_lug,
      negative_clamp, body_strap;
};

struct CableSet {
  CableParameters positive{2.0, 1.1, 0.0};
  CableParameters starter{2.0, 1.3, 0.0};
  CableParameters negative{2.0, 1.0, 0.0};
  CableParameters body_strap{8.0, 0.3, 0.0};
};

/// The separate starter relay on the inner fender: coil, plunger, contact disc.
struct RelayParameters {
  double contact_ohm = 4.0e-4;       ///< closed contact: studs, disc and the film between them
  double constriction_ohm = 1.0e-4;  ///< and the narrow spots where metal touches metal, cold
  double contact_welded = 0.0;       ///< 1: the disc can't leave the studs
  double coil_ohm = 4.0;             ///< at 20 °C
  double plunger_mass_kg = 0.230;
  double disc_mass_kg = 0.025;
  double plunger_travel_m = 3.0e-3;
  double contact_touch_m = 2.2e-3;  ///< plunger travel at which the disc meets the studs
  double return_spring_N = 14.0;    ///< preload at rest
  double return_spring_N_per_m = 1200.0;
  double contact_spring_N = 3.5;  ///< preload, felt once the disc has met the studs
  double contact_spring_N_per_m = 4000.0;
  double plunger_friction_N = 0.8;
  double plunger_damping_Ns_per_m = 1.0;
  double coil_turns = 500.0;
  double pole_area_m2 = 5.7e-4;
  double seated_gap_m = 1.3e-3;  ///< iron and non-magnetic shim, as air
};

/// The four-pole wound-field starter with a movable pole shoe; design document section 2 names its nodes T, D, F and G.
struct StarterParameters {
  double drive_coil_ohm = 0.0105;         ///< T-D, on the movable pole, 20 °C
  double field_coil_ohm = 0.0043;         ///< each of coils 2, 3 and 4, 20 °C
  double armature_ohm = 0.0028;           ///< F-G, 20 °C
  double hold_in_ohm = 2.7;               ///< T-G, 20 °C
  double grounding_contacts_ohm = 0.002;  ///< D-G, closed
  double grounding_contacts_stuck = 0.0;  ///< -1 never close, 0 work, +1 welded
  double coil_turns = 12.0;               ///< each of the four heavy coils
  double hold_in_turns = 160.0;
  double coil_leakage_H = 2.0e-5;  ///< each heavy coil
  double armature_leakage_H = 3.0e-5;
  double hold_in_leakage_H = 5.0e-3;
  double brush_drop_V = 1.2;            ///< total, both polarities, at full current
  double brush_knee_A = 15.0;           ///< drop = brush_drop_V * tanh(current / brush_knee_A)
  double brush_added_ohm = 0.0;         ///< worn brushes, and what heat has done to solder and springs
  double commutator_film_ohm = 0.0;     ///< dirt and oil on the commutator
  double dead_spot_ohm = 0.0;           ///< added where the brushes stand on burnt bars of an open armature coil
  double winding_to_case_ohm = 1.0e7;   ///< insulation of the field winding against the case
  double terminal_to_case_ohm = 2.0e7;  ///< insulation of the terminal stud against the case
  double pole_area_m2 = 1.2e-3;
  double seated_gap_m = 4.0e-4;
  double iron_gap_m = 5.0e-4;  ///< the iron's reluctance as a length of air, unsaturated
  double saturation_T = 1.7;
  double eddy_time_constant_s = 0.012;  ///< of a seated pole's flux in solid iron
  double flux_fraction = 1.0;           ///< share of field turns that still work (shorted turns lower it)
  double machine_constant_Nm_per_A_T =
      0.0207;  ///< torque per ampere of armature current and tesla of mean pole flux density
  double armature_inertia_kg_m2 = 1.1e-3;
  double friction_Nm = 0.56;
  double friction_Nm_s = 2.4e-4;
  double drag_added_Nm = 0.0;  ///< worn bushings, dragging armature
};

/// Control side: fusible link to relay coil and back to body.
struct ControlParameters {
  double fusible_link_ohm = 0.002;
  double bulkhead_plug_ohm = 0.005;
  double start_contact_ohm = 0.010;
  double start_leak_ohm = 2.0e7;       ///< across the start contact, from the battery feed to its output
  double start_rod_misadjusted = 0.0;  ///< 1: the rod does not push the switch as far as its start contact
  double start_contact_sticks = 0.0;   ///< 1: once made, the start contact stays so until the key is off
  double run_contact_ohm = 0.010;
  double neutral_switch_ohm = 0.010;
  double neutral_switch_in_coil_ground = 0.0;  ///< 1: the coil returns through the switch on a terminal of its own
  double neutral_switch_misadjusted = 0.0;     ///< 1: open in park, closed in neutral
  double neutral_switch_shorted = 0.0;         ///< 1: closed whatever gear and pedal do
  double clutch_switch = 0.0;  ///< 1: in its place stands a switch that only the clutch pedal works, closed when down
  double clutch_switch_misadjusted = 0.0;  ///< 1: the pedal no longer reaches it
  double s_wire_ohm = 0.015;
  double s_wire_to_ground_ohm = 2.0e7;  ///< its insulation against the body; chafed through it is next to nothing
  double s_push_on_ohm = 0.005;
  double relay_case_ground_ohm = 0.005;
};

struct BodyParameters {
  double lead_fitted = 0.0;  ///< 1: a small lead joins battery - to the body
  double lead_ohm = 0.006;
  double lead_ampacity_A = 40.0;  ///< current at which it comes to 100 K above the air
  double parasitic_ohm = 2.0;     ///< control cables, hinges and hangers between block and body
  double parasitic_ampacity_A = 12.0;
  double headlamp_W = 120.0;      ///< both lamps, at 12.8 V
  double dash_A = 1.2;            ///< dome lamp and dash with the key on, at 12.6 V
  double drain_A = 0.02;          ///< key off, at 12.6 V
  double alternator_V = 14.2;     ///< regulated, once the engine runs; 0 when it does not charge
  double insulation_ohm = 2.0e7;  ///< open switches and harness insulation; damp lowers it
};

/// Everything that is fixed for a run. A fault, a repair and a scenario's vehicle are all edits of this.
struct RigParameters {
  double ambient_C = 22.0;
  BatteryParameters battery;
  JointSet joints;
  CableSet cables;
  RelayParameters relay;
  StarterParameters starter;
  ShoeParameters shoe;
  DriveParameters drive;
  EngineParameters engine;
  ControlParameters control;
  BodyParameters body;
};

enum class Gearbox { automatic, manual };

/// An automatic cranks in park or neutral, a manual with the clutch pedal down: the safety switch tells which it is.
inline Gearbox gearbox_of(const RigParameters& parameters) {
  return parameters.control.clutch_switch > 0.5 ? Gearbox::manual : Gearbox::automatic;
}

/// What stands on the pinion's end. On the test stand there is no ring gear.
enum class Load { engine, free, locked, torque };

struct LoadParameters {
  Load kind = Load::engine;
  double torque_Nm = 0.0;  ///< at the pinion, for Load::torque
  double supply_V =
      0.0;  ///< above 0: a stiff supply in place of the battery (on the stand: straight across the starter)
};

/// Where the engine was left. Both come from the last stop and decide how the teeth meet.
struct RestingPlace {
  double crank_angle_deg = 45.0;  ///< of the 720° cycle; 0 is cylinder 1's firing top centre
  double tooth_phase = 0.25;      ///< 0 to 1 of a pitch: 0 tooth against tooth, 0.5 tooth against space
};

}  // namespace voltfall
