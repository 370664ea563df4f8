#pragma once

namespace voltfall {

struct DriveParameters {
  double pinion_teeth = 10.0;
  double ring_teeth = 164.0;
  double lever_ratio = 1.6;      ///< pinion travel over shoe travel
  double teeth_meet_at = 0.35;   ///< of shoe travel: the pinion's face reaches the ring's
  double pinion_mass_kg = 0.30;  ///< moves along the shaft with the lever
  double pinion_inertia_kg_m2 = 6.0e-5;
  double circular_pitch_m = 7.98e-3;  ///< 10 diametral pitch
  double backlash_m = 5.0e-4;
  double tooth_friction = 0.15;
  double missing_teeth = 0.0;         ///< of the ring, side by side
  double missing_at_deg = 45.0;       ///< of crank angle, 0 to 360: the middle of that gap faces the pinion
  double pinion_missing_teeth = 0.0;  ///< of the pinion, side by side
  double ring_slip_Nm = 5000.0;       ///< at the crank: the ring turns on its wheel beyond this
  double clutch_slip_Nm = 90.0;       ///< at the pinion
  double clutch_seized = 0.0;         ///< 1: the one-way clutch drives both ways
  double clutch_stiffness_Nm_per_rad = 900.0;
  double clutch_drag_Nm = 0.05;  ///< overrunning
};

/// The torque at the pinion at which clutch or ring lets go, whichever is weaker.
double slip_at_pinion_Nm(const DriveParameters& drive);

double pinion_radius_m(const DriveParameters& drive);
double ring_radius_m(const DriveParameters& drive);

/// Where the pinion stands on the ring, in teeth from the middle of the gap that missing teeth leave; grows as the
/// crank turns on.
double teeth_from_gap(const DriveParameters& drive, double crank_rad);
/// The ring has no tooth at this place.
bool ring_tooth_missing(const DriveParameters& drive, double teeth_from_gap);
/// No pair of teeth is in mesh: with some one and a half pairs in mesh at a time, a gap of n teeth, in ring or pinion,
/// leaves the other without a partner for n - 1/2 pitches.
bool gap_at_pinion(const DriveParameters& drive, double crank_rad, double pinion_rad);

/// Armature, one-way clutch, pinion and (meshed) ring gear: three wheels in a row.
struct DriveTrainState {
  double armature_rad_per_s = 0.0;
  double pinion_rad_per_s = 0.0;
  double clutch_twist_rad = 0.0;  ///< wound up, driving; 0 when overrunning
  double tooth_offset_m = 0.0;    ///< pinion tooth from the middle of the ring's space, along the pitch line
  double pinion_rad = 0.0;    ///< how the pinion stands, 0 to 2 pi; 0 has the gap of missing teeth, if any, at the ring
  double armature_rad = 0.0;  ///< how the armature stands, 0 to 2 pi; 0 has dead bars, if any, under the brushes
};

/// What the wheels carry besides the clutch and the teeth. Friction is a slope times speed, worked out by the caller
/// for the present speed.
struct DriveTrainLoads {
  double armature_inertia_kg_m2;
  double armature_friction_Nm_s;
  double pinion_friction_Nm_s;   ///< the test stand's brake sits here
  bool pinion_held;              ///< locked on the test stand
  bool ring_meshed;              ///< teeth by the gear-lash law; false: the pinion's speed is someone else's or free
  bool pinion_in_contact_world;  ///< the teeth are in the contact world, which moves the pinion
  double crank_rad_per_s;
  double crank_inertia_kg_m2;
  double crank_friction_Nm_s;
  double crank_torque_Nm;  ///< gas and the like, driving positive
};

/// The three wheels' equations of motion for one step by the implicit midpoint rule, with the motor's torque still
/// open:
///     J (w1 - w0) / dt = torques at the middle of the step
/// so that the circuit can be solved with the armature's mean speed  armature_mean = at_rest + per_Nm x motor torque.
struct DriveTrainStep {
  double at_rest_rad_per_s;
  double per_Nm;
  // for the way back down the row
  double pinion_base, pinion_share, crank_base, crank_share;
  double clutch_spring_Nm, clutch_Nm_s;  ///< clutch torque = spring + slope x (armature mean - pinion mean)
  double tooth_spring_N, tooth_N_s;      ///< flank force = spring + slope x (closing speed)
  bool clutch_drives, clutch_slips, teeth_touch;
};

DriveTrainStep begin_drive_train_step(const DriveParameters& drive, const DriveTrainState& state,
                                      const DriveTrainLoads& loads, double motor_Nm_guess, double dt_s);

/// The clutch's twist at the end of a step in which its two sides turned at these mean speeds, and the heat it made.
struct ClutchMove {
  double twist_rad, heat_J;
};
ClutchMove wind_clutch(const DriveParameters& drive, double twist_before_rad, const DriveTrainStep& step,
                       double clutch_Nm, double slip_rad_per_s, double dt_s);

struct DriveTrainMove {
  DriveTrainState after;
  double crank_rad_per_s;
  double armature_mean_rad_per_s, pinion_mean_rad_per_s, crank_mean_rad_per_s;
  double clutch_Nm;  ///< into the pinion
  double tooth_N;    ///< on the ring, driving positive
  double clutch_heat_J, tooth_heat_J, load_work_J, armature_friction_J, crank_friction_J;
};

DriveTrainMove finish_drive_train_step(const DriveParameters& drive, const DriveTrainState& state,
                                       const DriveTrainLoads& loads, const DriveTrainStep& step, double motor_Nm,
                                       double dt_s);

/// Energy held in the wound-up clutch and the pressed flanks, J.
double drive_train_spring_J(const DriveParameters& drive, const DriveTrainState& state, bool ring_meshed);

}  // namespace voltfall
