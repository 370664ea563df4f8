#pragma once

// The inside of a Rig. Only rig.cpp, rig_pace.cpp, rig_motion.cpp and rig_books.cpp include this.

#include <vector>

#include "mechanical/pinion_mesh.h"
#include "rig/circuit.h"
#include "rig/heat.h"
#include "rig/rig.h"
#include "rig/state.h"
#include "rig/wiring.h"

namespace voltfall {

inline constexpr double heat_span_s = 0.1;  ///< resistances follow temperature in steps of this
inline constexpr int most_pieces = 64;      ///< that a step is cut into when things go fast
inline constexpr double stride_s = 0.005;   ///< of what creeps while all else is at rest
// Below these speeds dry friction is taken as a slope against speed: half a turn a minute of the crank.
inline constexpr double still_crank_rad_per_s = 0.05;
inline constexpr double still_motor_rad_per_s = 1.0;
inline constexpr double seated_share = 0.97, unseated_share = 0.94;  ///< of the shoe's travel

struct Rig::Parts {
  Parts(const RigParameters& fixed, const RestingPlace& rest, const LoadParameters& on_pinion, double step_s,
        Books energy_books);

  // rig.cpp: the step as a recipe, switches and contacts
  void step(const Controls& now_asked);
  void advance();
  double advance_circuit(const DriveTrainStep& open);  ///< gives back the motor's torque, N·m
  void rest(double wait_s);
  void refit(const RigParameters& fitted, bool battery_charged);
  void go_on_from(const RigState& from);
  void solve_at_rest();
  void set_resistances();
  void follow_controls(const Controls& asked);
  EngineParameters engine_now() const;
  double resting_draw_A() const;
  void take_circuit(const CircuitResult& result);
  void warm_filament();
  void set_lamp();

  // rig_pace.cpp: in how many pieces a step is taken, and how many idle ones in one stride
  void step_in_pieces();
  void note_motion();
  bool idles() const;
  void idle_a_step();
  void coast();
  void end_stride();
  int pieces_now() const;
  double leakage_loss_J() const;
  bool coil_settles() const;

  // rig_motion.cpp: wheels, shoe, teeth, crank and plunger
  DriveTrainLoads drive_train_loads() const;
  void move_wheels(const DriveTrainLoads& loads, const DriveTrainStep& open, double motor_Nm);
  void move_shoe_freely();
  void move_teeth(const DriveTrainLoads& loads, const DriveTrainStep& open, const DriveTrainMove& wheels,
                  double twist_before_rad);
  void choose_meshing();
  void enter_contact_world();
  void turn_crank(double moved_rad);
  bool teeth_mill() const;
  void pass_gap();
  double intervals_gone() const;
  bool spark_on() const;
  void notice_firing(bool fired);
  void throw_relay();

  // rig_contacts.cpp: what makes and breaks, burns and welds
  void move_contacts();
  void shut_or_part(ContactState& contact, bool touching, double current_A, ContactWear& wear);
  bool grounding_weld_holds();
  bool put_out_arcs();
  void carry_contacts();
  void burn_contacts(bool relay_arcs, bool grounding_arcs, double relay_J, double grounding_J);

  // rig_books.cpp: heat, energy and readings
  void warm_parts();
  struct CircuitHeat;
  CircuitHeat heat_parts(bool relay_arcs, bool grounding_arcs);
  void book_circuit(const CircuitHeat& made, bool relay_arcs, bool grounding_arcs);
  void book_stores();
  double stored_kinetic_J() const;
  double stored_spring_J() const;
  void read();
  void read_motion();

  void tell(RigEventKind kind) { events.push_back({now_s(), kind}); }
  double now_s() const { return static_cast<double>(state.steps) * dt_s + within_step_s; }
  double battery_posts_V() const { return wiring.network.volts(Wiring::node_of(TestPoint::battery_positive_post)); }
  bool on_stand() const { return load.kind != Load::engine; }
  double pinion_travel_m() const { return state.shoe.travel_m * parameters.drive.lever_ratio; }
  double meet_m() const {
    return parameters.drive.teeth_meet_at * parameters.shoe.travel_m * parameters.drive.lever_ratio;
  }
  double moving_mass_kg() const;
  double dry_engine_Nm() const {
    return engine_effort * engine.friction_Nm + engine.drag_added_Nm + engine.accessory_drag_Nm;
  }

  RigParameters parameters;
  LoadParameters load;
  double dt_s;                 ///< the step as seen from outside
  double h_s;                  ///< the piece of it being taken
  double within_step_s = 0.0;  ///< pieces already taken
  double last_contact_change_s = -1.0, last_switch_s = -1.0, relay_parted_s = -1.0;
  double last_turned_s = -1.0, last_slid_s = -1.0;
  int circuit_behind = 0, motion_behind = 0;  ///< steps gone by while idle and not yet worked out
  Wiring wiring;
  CylinderVolume cylinder;
  PinionMesh mesh;
  RigState state;
  BatteryFigures battery;
  Controls asked;           ///< what people do
  Controls controls;        ///< and what the switches make of it
  EngineParameters engine;  ///< without what has been taken off it
  PartHeat heat;
  Books books;
  EnergyLedger ledger;
  Readings readings;
  std::vector<RigEvent> events;
  double shaft_Nm = 0.0;
  double filament_in_network_V = 0.0;
  double last_interval = 0.0;  ///< between two firing top centres, where the crank was last seen
  bool over_gap = false;       ///< seated where ring teeth are missing
  bool engine_lit = false, engine_runs = false, alternator_charges = false;
  bool crank_turning = false, pinion_abutted = false, shoe_home = false, shoe_away = false;
  double engine_effort;  ///< friction over that of warm oil of the right grade
  long steps_per_heat_span, steps_per_stride;
  bool wiring_stale = true;
  bool refitted = true;   ///< the switches' own faults may be others
  bool switched = false;  ///< somebody moved a switch or a lead just now
};

/// What the circuit has turned to heat in one piece of a step.
struct Rig::Parts::CircuitHeat {
  double resistors_J, drive_J, field_J, armature_J, relay_coil_J, brush_J, relay_contact_J, grounding_contacts_J;
};

}  // namespace voltfall
