#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "outside/independent_integrator_model.h"

// The mechanical half of the independent model: wheels, gas and valves.

namespace voltfall {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double cycle_rad = 4.0 * pi;
constexpr double atmosphere_Pa = 101325.0;

}  // namespace

double EngagedMotorModel::clutch_Nm(const State& now) const {
  return couplings_.clutch_Nm_per_rad * now[clutch_twist_rad] +
         couplings_.clutch_Nm_s * (now[armature_rad_per_s] - now[pinion_rad_per_s]);
}

// Armature, wound-up clutch, pinion, pressed flanks, crank; every friction against a wheel that turns forwards.
void EngagedMotorModel::wheel_rates(const State& now, State& per_s) const {
  const StarterParameters& starter = parameters_.starter;
  const DriveParameters& drive = parameters_.drive;
  const double clutch = clutch_Nm(now);
  if (!(now[clutch_twist_rad] > 0.0) || clutch > drive.clutch_slip_Nm) throw std::domain_error("the clutch let go");
  const double motor_Nm = motor_Nm_per_A(now) * (now[drive_A] + now[field_34_A]);
  const double drag_Nm = starter.friction_Nm + starter.drag_added_Nm + starter.friction_Nm_s * now[armature_rad_per_s];
  per_s[armature_rad_per_s] = (motor_Nm - clutch - drag_Nm) / starter.armature_inertia_kg_m2;
  per_s[clutch_twist_rad] = now[armature_rad_per_s] - now[pinion_rad_per_s];
  if (load_.kind == Load::torque) {
    per_s[pinion_rad_per_s] = (clutch - load_.torque_Nm) / drive.pinion_inertia_kg_m2;
    return;
  }
  const double pinion_m = drive.circular_pitch_m * drive.pinion_teeth / (2.0 * pi);
  const double ring_m = drive.circular_pitch_m * drive.ring_teeth / (2.0 * pi);
  const double pressed_m = now[tooth_offset_m] - 0.5 * drive.backlash_m;
  if (!(pressed_m > 0.0)) throw std::domain_error("the flanks let go");
  per_s[tooth_offset_m] = pinion_m * now[pinion_rad_per_s] - ring_m * now[crank_rad_per_s];
  const double flank_N = couplings_.flank_N_per_m * pressed_m + couplings_.flank_N_s * per_s[tooth_offset_m];
  per_s[pinion_rad_per_s] = (clutch - pinion_m * flank_N) / drive.pinion_inertia_kg_m2;
  const EngineParameters& engine = parameters_.engine;
  const double friction_Nm = effort_ * (engine.friction_Nm + engine.friction_Nm_s * now[crank_rad_per_s]) +
                             engine.drag_added_Nm + engine.accessory_drag_Nm;
  per_s[crank_rad_per_s] = (ring_m * flank_N + gas_Nm(now) - friction_Nm) / engine.inertia_kg_m2;
  per_s[crank_rad] = now[crank_rad_per_s];
}

double EngagedMotorModel::own_rad(int cylinder, double crank_angle_rad) const {
  const double behind_rad = crank_angle_rad - cylinder * cycle_rad / cylinder_count(parameters_.engine);
  return behind_rad - cycle_rad * std::floor(behind_rad / cycle_rad);
}

// Slider-crank: clearance + area x (r (1 - cos a) + l - sqrt(l^2 - r^2 sin^2 a)), and its slope.
double EngagedMotorModel::cylinder_m3(double own_rad) const {
  const EngineParameters& engine = parameters_.engine;
  const double piston_m2 = 0.25 * pi * engine.bore_m * engine.bore_m;
  const double r = 0.5 * engine.stroke_m;
  const double across = r * std::sin(own_rad);
  const double down_m =
      r * (1.0 - std::cos(own_rad)) + engine.rod_m - std::sqrt(engine.rod_m * engine.rod_m - across * across);
  return piston_m2 * (engine.stroke_m / (engine.compression_ratio - 1.0) + down_m);
}

double EngagedMotorModel::cylinder_m3_per_rad(double own_rad) const {
  const EngineParameters& engine = parameters_.engine;
  const double piston_m2 = 0.25 * pi * engine.bore_m * engine.bore_m;
  const double r = 0.5 * engine.stroke_m;
  const double across = r * std::sin(own_rad);
  return piston_m2 * across * (1.0 + r * std::cos(own_rad) / std::sqrt(engine.rod_m * engine.rod_m - across * across));
}

double EngagedMotorModel::gas_Nm(const State& now) const {
  double torque_Nm = 0.0;
  for (int k = 0; k < cylinder_count(parameters_.engine); ++k) {
    const auto cylinder = static_cast<std::size_t>(k);
    if (!shut_[cylinder]) continue;
    torque_Nm += (now[first_pressure_Pa + cylinder] - atmosphere_Pa) * cylinder_m3_per_rad(own_rad(k, now[crank_rad]));
  }
  return torque_Nm;
}

// A shut cylinder: p V^n along the stroke, leaking towards the atmosphere and losing its heat to the walls, whose
// temperature would give it the pressure pV_at_walls / V; what leaks takes its share of that along.
void EngagedMotorModel::gas_rates(const State& now, State& per_s) const {
  const EngineParameters& engine = parameters_.engine;
  for (int k = 0; k < cylinder_count(engine); ++k) {
    const auto cylinder = static_cast<std::size_t>(k);
    if (!shut_[cylinder]) continue;
    const std::size_t pressure = first_pressure_Pa + cylinder;
    const std::size_t wall = first_wall_pV_J + cylinder;
    const double own = own_rad(k, now[crank_rad]);
    const double m3 = cylinder_m3(own);
    const double squeeze_per_s = engine.compression_index * cylinder_m3_per_rad(own) * now[crank_rad_per_s] / m3;
    per_s[pressure] = -squeeze_per_s * now[pressure] + (atmosphere_Pa - now[pressure]) / engine.leak_time_s +
                      (now[wall] / m3 - now[pressure]) / engine.wall_time_s;
    per_s[wall] = -now[wall] * (now[pressure] - atmosphere_Pa) / now[pressure] / engine.leak_time_s;
  }
}

double EngagedMotorModel::next_valve_rad(double crank_angle_rad) const {
  const double shuts_rad = 3.0 * pi + parameters_.engine.intake_closes_deg * pi / 180.0;
  const double opens_rad = pi - parameters_.engine.exhaust_opens_deg * pi / 180.0;
  double least_rad = cycle_rad;
  for (int k = 0; k < cylinder_count(parameters_.engine); ++k) {
    const double own = own_rad(k, crank_angle_rad);
    for (const double valve_rad : {shuts_rad, opens_rad}) {
      const double ahead_rad = valve_rad > own ? valve_rad - own : valve_rad - own + cycle_rad;
      // The valve that has just moved stands at no distance at all; its next time is a cycle away.
      if (ahead_rad > 1.0e-9) least_rad = std::min(least_rad, ahead_rad);
    }
  }
  return crank_angle_rad + least_rad;
}

void EngagedMotorModel::pass_valves(State& now) {
  const double shuts_rad = 3.0 * pi + parameters_.engine.intake_closes_deg * pi / 180.0;
  const double opens_rad = pi - parameters_.engine.exhaust_opens_deg * pi / 180.0;
  constexpr double just_past_rad = 1.0e-6;  // root finding stops within rounding of the valve's place
  for (int k = 0; k < cylinder_count(parameters_.engine); ++k) {
    const auto cylinder = static_cast<std::size_t>(k);
    const double own = own_rad(k, now[crank_rad] + just_past_rad);
    const bool shut = own > shuts_rad || own < opens_rad;
    if (shut == shut_[cylinder]) continue;
    shut_[cylinder] = shut;
    now[first_pressure_Pa + cylinder] = atmosphere_Pa;
    now[first_wall_pV_J + cylinder] = shut ? atmosphere_Pa * cylinder_m3(own_rad(k, now[crank_rad])) : 0.0;
  }
}

}  // namespace voltfall
