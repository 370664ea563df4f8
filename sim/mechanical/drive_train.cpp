#include "mechanical/drive_train.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace voltfall {
namespace {

constexpr double flank_N_per_m = 2.0e7;
constexpr double flank_N_s_per_m = 4.0e3;     // dead-beat for the pinion alone, lost in the crank's inertia
constexpr double clutch_Nm_s_per_rad = 0.12;  // rollers and shaft: about a third of critical for the pinion
constexpr double held_Nm_s = 1.0e6;           // a held pinion turns no measurable amount

// How far the flanks are pressed into each other, signed: positive when the pinion drives.
double flank_press_m(const DriveParameters& drive, double tooth_offset_m) {
  const double half_lash_m = 0.5 * drive.backlash_m;
  if (tooth_offset_m > half_lash_m) return tooth_offset_m - half_lash_m;
  if (tooth_offset_m < -half_lash_m) return tooth_offset_m + half_lash_m;
  return 0.0;
}

}  // namespace

double slip_at_pinion_Nm(const DriveParameters& drive) {
  return std::min(drive.clutch_slip_Nm, drive.ring_slip_Nm * drive.pinion_teeth / drive.ring_teeth);
}

double pinion_radius_m(const DriveParameters& drive) {
  return drive.circular_pitch_m * drive.pinion_teeth / (2.0 * std::numbers::pi);
}

double ring_radius_m(const DriveParameters& drive) {
  return drive.circular_pitch_m * drive.ring_teeth / (2.0 * std::numbers::pi);
}

double teeth_from_gap(const DriveParameters& drive, double crank_rad) {
  const double turns = crank_rad / (2.0 * std::numbers::pi) - drive.missing_at_deg / 360.0;
  return (turns - std::round(turns)) * drive.ring_teeth;
}

bool ring_tooth_missing(const DriveParameters& drive, double teeth_from_gap) {
  const double count = std::floor(drive.missing_teeth);
  return count > 0.0 && std::abs(teeth_from_gap) < 0.5 * count;
}

bool gap_at_pinion(const DriveParameters& drive, double crank_rad, double pinion_rad) {
  const auto over = [](double missing, double teeth_from_middle) {
    const double count = std::floor(missing);
    return count > 0.0 && std::abs(teeth_from_middle) < 0.5 * (count - 0.5);
  };
  const double pinion_turns = pinion_rad / (2.0 * std::numbers::pi);
  return over(drive.missing_teeth, teeth_from_gap(drive, crank_rad)) ||
         over(drive.pinion_missing_teeth, (pinion_turns - std::round(pinion_turns)) * drive.pinion_teeth);
}

DriveTrainStep begin_drive_train_step(const DriveParameters& drive, const DriveTrainState& state,
                                      const DriveTrainLoads& loads, double motor_Nm_guess, double dt_s) {
  DriveTrainStep step{};
  const double half_dt_s = 0.5 * dt_s;

  // Clutch: the spring's torque at the middle of the step, driving only (unless seized); beyond its limit it slips at
  // the limit.
  const bool seized = drive.clutch_seized > 0.5;
  const double slip_Nm = slip_at_pinion_Nm(drive);
  const double slip_rad_per_s = state.armature_rad_per_s - state.pinion_rad_per_s;
  const double closing = slip_rad_per_s + half_dt_s * motor_Nm_guess / loads.armature_inertia_kg_m2;
  step.clutch_drives = seized || state.clutch_twist_rad > 0.0 || closing > 0.0;
  if (step.clutch_drives) {
    step.clutch_spring_Nm = drive.clutch_stiffness_Nm_per_rad * state.clutch_twist_rad;
    step.clutch_Nm_s = drive.clutch_stiffness_Nm_per_rad * half_dt_s + clutch_Nm_s_per_rad;
    const double wound_Nm = step.clutch_spring_Nm + step.clutch_Nm_s * slip_rad_per_s;
    step.clutch_slips = wound_Nm > slip_Nm || (seized && -wound_Nm > slip_Nm);
    if (step.clutch_slips) {
      step.clutch_spring_Nm = std::copysign(slip_Nm, wound_Nm);
      step.clutch_Nm_s = 0.0;
    } else if (!seized && step.clutch_spring_Nm + step.clutch_Nm_s * closing < 0.0) {
      step.clutch_drives = false;
    }
  }
  if (!step.clutch_drives) {
    step.clutch_spring_Nm = 0.0;
    step.clutch_Nm_s = drive.clutch_drag_Nm / std::max(std::abs(slip_rad_per_s), 1.0);
  }

  const double pinion_m = pinion_radius_m(drive);
  const double ring_m = ring_radius_m(drive);
  if (loads.ring_meshed) {
    const double closing_m_per_s = pinion_m * state.pinion_rad_per_s - ring_m * loads.crank_rad_per_s;
    const double press_m = flank_press_m(drive, state.tooth_offset_m + half_dt_s * closing_m_per_s);
    const double now_m = flank_press_m(drive, state.tooth_offset_m);
    step.teeth_touch = press_m != 0.0 || now_m != 0.0;
    if (step.teeth_touch) {
      const double side = press_m != 0.0 ? press_m : now_m;
      const double edge_m = std::copysign(0.5 * drive.backlash_m, side);
      step.tooth_spring_N = flank_N_per_m * (state.tooth_offset_m - edge_m);
      step.tooth_N_s = flank_N_per_m * half_dt_s + flank_N_s_per_m;
    }
  }

  // Eliminate crank, then pinion, then read the armature:  mean speed = base + share x (speed of the wheel before it).
  const double crank_arm = step.tooth_N_s * ring_m;
  const double crank_sum = 2.0 * loads.crank_inertia_kg_m2 / dt_s + loads.crank_friction_Nm_s + crank_arm * ring_m;
  step.crank_base = (2.0 * loads.crank_inertia_kg_m2 / dt_s * loads.crank_rad_per_s + loads.crank_torque_Nm +
                     step.tooth_spring_N * ring_m) /
                    crank_sum;
  step.crank_share = crank_arm * pinion_m / crank_sum;

  if (loads.pinion_in_contact_world) {
    step.pinion_base = state.pinion_rad_per_s;
    step.pinion_share = 0.0;
  } else {
    const double inertia = 2.0 * drive.pinion_inertia_kg_m2 / dt_s;
    const double held = loads.pinion_held ? held_Nm_s : 0.0;
    const double tooth_slope = step.tooth_N_s * pinion_m * (pinion_m - ring_m * step.crank_share);
    const double sum = inertia + held + loads.pinion_friction_Nm_s + step.clutch_Nm_s + tooth_slope;
    step.pinion_base = (inertia * state.pinion_rad_per_s + step.clutch_spring_Nm -
                        pinion_m * (step.tooth_spring_N - step.tooth_N_s * ring_m * step.crank_base)) /
                       sum;
    step.pinion_share = step.clutch_Nm_s / sum;
  }

  const double inertia = 2.0 * loads.armature_inertia_kg_m2 / dt_s;
  const double sum = inertia + loads.armature_friction_Nm_s + step.clutch_Nm_s * (1.0 - step.pinion_share);
  step.at_rest_rad_per_s =
      (inertia * state.armature_rad_per_s - step.clutch_spring_Nm + step.clutch_Nm_s * step.pinion_base) / sum;
  step.per_Nm = 1.0 / sum;
  return step;
}

ClutchMove wind_clutch(const DriveParameters& drive, double twist_before_rad, const DriveTrainStep& step,
                       double clutch_Nm, double slip_rad_per_s, double dt_s) {
  const double most_rad = slip_at_pinion_Nm(drive) / drive.clutch_stiffness_Nm_per_rad;
  const double least_rad = drive.clutch_seized > 0.5 ? -most_rad : 0.0;
  double twist_rad = 0.0;
  if (step.clutch_slips) {
    twist_rad = std::clamp(twist_before_rad + dt_s * slip_rad_per_s, least_rad, most_rad);
  } else if (step.clutch_drives) {
    twist_rad = std::max(twist_before_rad + dt_s * slip_rad_per_s, least_rad);
  }
  const double stored_J =
      0.5 * drive.clutch_stiffness_Nm_per_rad * (twist_rad * twist_rad - twist_before_rad * twist_before_rad);
  return {twist_rad, clutch_Nm * slip_rad_per_s * dt_s - stored_J};
}

DriveTrainMove finish_drive_train_step(const DriveParameters& drive, const DriveTrainState& state,
                                       const DriveTrainLoads& loads, const DriveTrainStep& step, double motor_Nm,
                                       double dt_s) {
  DriveTrainMove move{};
  move.armature_mean_rad_per_s = step.at_rest_rad_per_s + step.per_Nm * motor_Nm;
  move.pinion_mean_rad_per_s = step.pinion_base + step.pinion_share * move.armature_mean_rad_per_s;
  move.crank_mean_rad_per_s = step.crank_base + step.crank_share * move.pinion_mean_rad_per_s;
  move.after.pinion_rad = std::fmod(state.pinion_rad + dt_s * move.pinion_mean_rad_per_s, 2.0 * std::numbers::pi);
  move.after.armature_rad = std::fmod(state.armature_rad + dt_s * move.armature_mean_rad_per_s, 2.0 * std::numbers::pi);
  move.after.armature_rad_per_s = 2.0 * move.armature_mean_rad_per_s - state.armature_rad_per_s;
  move.after.pinion_rad_per_s = loads.pinion_held ? 0.0 : 2.0 * move.pinion_mean_rad_per_s - state.pinion_rad_per_s;
  move.crank_rad_per_s = 2.0 * move.crank_mean_rad_per_s - loads.crank_rad_per_s;

  const double slip_rad_per_s = move.armature_mean_rad_per_s - move.pinion_mean_rad_per_s;
  move.clutch_Nm = step.clutch_spring_Nm + step.clutch_Nm_s * slip_rad_per_s;
  const ClutchMove clutch = wind_clutch(drive, state.clutch_twist_rad, step, move.clutch_Nm, slip_rad_per_s, dt_s);
  move.after.clutch_twist_rad = clutch.twist_rad;
  move.clutch_heat_J = clutch.heat_J;

  const double closing_m_per_s =
      pinion_radius_m(drive) * move.pinion_mean_rad_per_s - ring_radius_m(drive) * move.crank_mean_rad_per_s;
  move.tooth_N = step.teeth_touch ? step.tooth_spring_N + step.tooth_N_s * closing_m_per_s : 0.0;
  move.after.tooth_offset_m = state.tooth_offset_m + (loads.ring_meshed ? dt_s * closing_m_per_s : 0.0);
  if (loads.ring_meshed) {
    const double before_m = flank_press_m(drive, state.tooth_offset_m);
    const double after_m = flank_press_m(drive, move.after.tooth_offset_m);
    const double pressed_J = 0.5 * flank_N_per_m * (after_m * after_m - before_m * before_m);
    move.tooth_heat_J = move.tooth_N * closing_m_per_s * dt_s - pressed_J;
  }
  move.load_work_J = loads.pinion_friction_Nm_s * move.pinion_mean_rad_per_s * move.pinion_mean_rad_per_s * dt_s;
  move.armature_friction_J =
      loads.armature_friction_Nm_s * move.armature_mean_rad_per_s * move.armature_mean_rad_per_s * dt_s;
  move.crank_friction_J = loads.crank_friction_Nm_s * move.crank_mean_rad_per_s * move.crank_mean_rad_per_s * dt_s;
  return move;
}

double drive_train_spring_J(const DriveParameters& drive, const DriveTrainState& state, bool ring_meshed) {
  const double twist = state.clutch_twist_rad;
  const double press_m = ring_meshed ? flank_press_m(drive, state.tooth_offset_m) : 0.0;
  return 0.5 * drive.clutch_stiffness_Nm_per_rad * twist * twist + 0.5 * flank_N_per_m * press_m * press_m;
}

}  // namespace voltfall
