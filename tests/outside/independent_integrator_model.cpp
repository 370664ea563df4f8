#include "outside/independent_integrator_model.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <utility>

#include "rig/circuit.h"
#include "rig/relay.h"

namespace voltfall {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double mu0 = 4.0e-7 * pi;
constexpr double rpm_per_rad_per_s = 30.0 / pi;

double warm(double ohm_at_20C, double temperature_C) {
  return ohm_at_20C * (1.0 + 0.00393 * (temperature_C - 20.0));
}

// Ampere-turns that drive this flux through iron and gap:  B/mu0 (gap + iron / (1 - (B/Bs)^2)).
double needed_ampere_turns(const PoleParameters& pole, double gap_m, double flux_Wb) {
  const double density_T = flux_Wb / pole.area_m2;
  const double full = density_T / pole.saturation_T;
  return density_T / mu0 * (gap_m + pole.iron_gap_m / (1.0 - full * full));
}

// Solves a small system by Gaussian elimination with row pivoting; rows hold the matrix and one right side.
template <std::size_t n>
std::array<double, n> solution(std::array<std::array<double, n + 1>, n> rows) {
  for (std::size_t k = 0; k < n; ++k) {
    std::size_t best = k;
    for (std::size_t row = k + 1; row < n; ++row) {
      if (std::abs(rows[row][k]) > std::abs(rows[best][k])) best = row;
    }
    std::swap(rows[k], rows[best]);
    for (std::size_t row = 0; row < n; ++row) {
      if (row == k) continue;
      const double share = rows[row][k] / rows[k][k];
      for (std::size_t column = k; column <= n; ++column) rows[row][column] -= share * rows[k][column];
    }
  }
  std::array<double, n> x{};
  for (std::size_t k = 0; k < n; ++k) x[k] = rows[k][n] / rows[k][k];
  return x;
}

Controls at_start() {
  Controls controls;
  controls.key = KeyPosition::start;
  return controls;
}

// Volts over a narrow spot of metal through which this current crowds. They heat it, T^2 = T0^2 + U^2 / (4 L), and its
// resistance follows two thirds of that rise. Below copper's melting point each round brings the rise closer.
double spot_V(double cold_ohm, double body_C, double current_A) {
  constexpr double lorenz_V2_per_K2 = 2.44e-8, melting_K = 1356.0;
  const double body_K = body_C + 273.15;
  double volts = current_A * cold_ohm, before_V = 0.0;
  for (int round = 0; round < 100 && std::abs(volts - before_V) > 1.0e-15; ++round) {
    before_V = volts;
    const double spot_K = std::sqrt(body_K * body_K + volts * volts / (4.0 * lorenz_V2_per_K2));
    if (spot_K > melting_K) throw std::domain_error("the relay's contact melts");
    volts = current_A * cold_ohm * (1.0 + 0.00393 * (spot_K - body_K) * 2.0 / 3.0);
  }
  return volts;
}

// How fast a quantity without supply dies away, from one step of its backward Euler:  after = before / (1 + dt / time).
double time_s(double left, double dt_s) {
  return dt_s * left / (1.0 - left);
}

}  // namespace

EngagedMotorModel::EngagedMotorModel(const RigParameters& parameters, const LoadParameters& load,
                                     std::optional<double> pile_ohm)
    : parameters_(parameters),
      load_(load),
      pile_ohm_(pile_ohm),
      effort_(friction_effort(parameters.ambient_C) *
              oil_grade_effort(parameters.engine.oil_grade_W, parameters.ambient_C) * parameters.engine.oil_effort) {
  // Constants that the parts keep to themselves, told by what the parts do.
  RigState coil_only;
  coil_only.shoe.travel_m = parameters.shoe.travel_m;
  coil_only.currents.relay_coil_A = 1.0;
  relay_leakage_H_ = 2.0 * stored_magnetic_J(parameters, coil_only);

  const DriveParameters& drive = parameters.drive;
  const double pressed_m = 1.0e-5;
  DriveTrainState pressed;
  pressed.clutch_twist_rad = 1.0e-3;
  pressed.tooth_offset_m = 0.5 * drive.backlash_m + pressed_m;
  DriveTrainLoads loads{};
  loads.armature_inertia_kg_m2 = loads.crank_inertia_kg_m2 = 1.0;
  loads.ring_meshed = true;
  const DriveTrainStep at_once = begin_drive_train_step(drive, pressed, loads, 0.0, 1.0e-15);
  couplings_ = {.clutch_Nm_per_rad = drive.clutch_stiffness_Nm_per_rad,
                .clutch_Nm_s = at_once.clutch_Nm_s,
                .flank_N_per_m = at_once.tooth_spring_N / pressed_m,
                .flank_N_s = at_once.tooth_N_s};
}

void EngagedMotorModel::warm_to(const RigState& state) {
  temperatures_ = state.temperatures;
  cold_spot_ohm_ = state.relay_constriction.cold_ohm;
  battery_ = battery_figures(parameters_.battery, state.battery.charge, state.battery.temperature_C);
  ask_battery(state.battery);
  const StarterParameters& starter = parameters_.starter;
  ohm_ = {.drive = warm(starter.drive_coil_ohm, temperatures_.drive_C),
          .hold_in = warm(starter.hold_in_ohm, temperatures_.drive_C),
          .field = warm(starter.field_coil_ohm, temperatures_.field_C),
          .armature = warm(starter.armature_ohm, temperatures_.armature_C) + starter.brush_added_ohm,
          .relay_coil = warm(parameters_.relay.coil_ohm, temperatures_.relay_coil_C)};
  write_network(temperatures_);
}

// A battery full of everything but charge, left alone for a moment and then loaded, shows its time constants.
void EngagedMotorModel::ask_battery(const BatteryState& state) {
  constexpr double dt_s = 1.0e-3, load_A = 1000.0;
  BatteryState full = state;
  full.charge = full.between_plates_acid = full.near_plate_acid = 0.0;
  full.fast_V = full.slow_V = full.surface_V = 1.0;
  const BatteryState idle = battery_after(battery_, full, 0.0, dt_s);
  const BatteryState loaded = battery_after(battery_, full, load_A, dt_s);
  times_.fast_s = time_s(idle.fast_V, dt_s);
  times_.slow_s = time_s(idle.slow_V, dt_s);
  times_.surface_s = time_s(idle.surface_V, dt_s);
  times_.surface_As = load_A / (1.0 / time_s(loaded.surface_V, dt_s) - 1.0 / times_.surface_s);
  full.between_plates_acid = 1.0;
  times_.between_plates_s = time_s(battery_after(battery_, full, 0.0, dt_s).between_plates_acid, dt_s);
  full.between_plates_acid = 0.0;
  full.near_plate_acid = 1.0;
  times_.pores_s = time_s(battery_after(battery_, full, 0.0, dt_s).near_plate_acid, dt_s);
  full.near_plate_acid = 0.5 * battery_.rested_acid;
  const double hungry = battery_after(battery_, full, 0.0, dt_s).near_plate_acid;
  starving_V_ = starving_loss(battery_, full, 0.0, dt_s).loss_V / std::log(battery_.rested_acid / hungry);
}

// Six nodes, each against the battery's - post: + post (0), relay battery stud (1), fusible link's end (2), ignition
// feed (3), body (4), block (5). Open switches and insulation, a millionth of an ampere, are left out.
void EngagedMotorModel::write_network(const PartTemperatures& temperatures) {
  const auto ohm = [&](Resistor part) {
    return resistor_ohm(part, parameters_, at_start(), true, temperatures.resistor_C[static_cast<std::size_t>(part)]);
  };
  using enum Resistor;
  control_ohm_ = ohm(start_contact) + ohm(neutral_switch) + ohm(s_wire) + ohm(s_push_on) + ohm(relay_case_ground);
  to_terminal_ohm_ = parameters_.relay.contact_ohm + ohm(relay_motor_stud) + ohm(starter_cable) + ohm(starter_terminal);
  from_case_ohm_ = ohm(mounting_face);

  std::array<std::array<double, 6>, 6> siemens{};
  const auto join = [&](std::size_t one, std::size_t other, double between_ohm) {
    siemens[one][one] += 1.0 / between_ohm;
    siemens[other][other] += 1.0 / between_ohm;
    siemens[one][other] -= 1.0 / between_ohm;
    siemens[other][one] -= 1.0 / between_ohm;
  };
  const auto to_negative_post = [&](std::size_t node, double between_ohm) { siemens[node][node] += 1.0 / between_ohm; };
  to_negative_post(0, battery_.ohmic_ohm);
  if (pile_ohm_) to_negative_post(0, *pile_ohm_);
  join(0, 1, ohm(positive_clamp) + ohm(positive_cable) + ohm(relay_battery_stud));
  join(1, 2, ohm(fusible_link));
  join(2, 3, ohm(ignition_feed));
  join(1, 3, ohm(i_contact) + ohm(i_wire) + ohm(run_contact));
  join(2, 4, ohm(dash_feed) + ohm(dash));
  join(4, 5, ohm(body_strap_joint) + ohm(body_strap_cable) + ohm(body_strap_block_end));
  join(4, 5, ohm(parasitic));
  to_negative_post(5, ohm(block_lug) + ohm(negative_cable) + ohm(negative_clamp));

  const std::array<std::array<double, 6>, 3> inflow_A{{{1, 0, 0, 0, 0, 0}, {0, 0, 0, -1, 1, 0}, {0, -1, 0, 0, 0, 1}}};
  for (std::size_t input = 0; input < inflow_A.size(); ++input) {
    std::array<std::array<double, 7>, 6> rows{};
    for (std::size_t node = 0; node < 6; ++node) {
      std::copy(siemens[node].begin(), siemens[node].end(), rows[node].begin());
      rows[node][6] = inflow_A[input][node];
    }
    response_V_[input] = solution<6>(rows);
  }
}

EngagedMotorModel::State EngagedMotorModel::state_from(const RigState& state) {
  const bool on_stand = load_.kind == Load::torque;
  const bool engaged = state.relay_contact == ContactState::closed && state.grounding_contacts == ContactState::open &&
                       (on_stand || state.meshing == Meshing::seated) &&
                       state.shoe.travel_m == parameters_.shoe.travel_m && state.shoe.m_per_s == 0.0;
  if (!engaged) throw std::invalid_argument("the motor is not engaged");
  warm_to(state);
  const LiveCurrents& i = state.currents;
  const DriveTrainState& wheels = state.drive_train;
  State now{};
  now[drive_A] = i.drive_A, now[field_34_A] = i.field_34_A;
  now[hold_in_A] = i.hold_in_A, now[relay_coil_A] = i.relay_coil_A;
  now[movable_Wb] = state.fluxes.movable_Wb, now[second_Wb] = state.fluxes.second_Wb;
  now[third_Wb] = state.fluxes.third_and_fourth_Wb, now[relay_Wb] = state.fluxes.relay_Wb;
  now[fast_V] = state.battery.fast_V, now[slow_V] = state.battery.slow_V;
  now[surface_V] = state.battery.surface_V, now[pores_acid] = state.battery.near_plate_acid;
  now[between_plates_acid] = state.battery.between_plates_acid, now[charge] = state.battery.charge;
  now[armature_rad_per_s] = wheels.armature_rad_per_s, now[pinion_rad_per_s] = wheels.pinion_rad_per_s;
  now[clutch_twist_rad] = wheels.clutch_twist_rad, now[tooth_offset_m] = wheels.tooth_offset_m;
  now[crank_rad_per_s] = state.engine.crank_rad_per_s, now[crank_rad] = state.engine.crank_angle_rad;
  for (int k = 0; k < most_cylinders; ++k) {
    const auto cylinder = static_cast<std::size_t>(k);
    now[first_pressure_Pa + cylinder] = state.engine.pressure_Pa[cylinder];
    now[first_wall_pV_J + cylinder] = state.engine.wall_pV_J[cylinder];
    shut_[cylinder] = state.engine.wall_pV_J[cylinder] > 0.0;
  }
  return now;
}

void EngagedMotorModel::rates(const State& now, State& per_s) const {
  per_s.fill(0.0);
  const Potentials at = potentials(now);
  circuit_rates(now, at, per_s);
  battery_rates(now, at.loop_A, per_s);
  wheel_rates(now, per_s);
  if (load_.kind == Load::engine) gas_rates(now, per_s);
}

EngagedMotorModel::Potentials EngagedMotorModel::potentials(const State& now) const {
  const double starving = starving_V_ * std::log(battery_.rested_acid / now[pores_acid]);
  const double emf_V = battery_.open_circuit_V + now[surface_V] - now[fast_V] - now[slow_V] - starving;
  const double starter_A = now[drive_A] + now[field_34_A] + now[hold_in_A];
  const auto volts = [&](std::size_t node) {
    return response_V_[0][node] * emf_V / battery_.ohmic_ohm + response_V_[1][node] * now[relay_coil_A] +
           response_V_[2][node] * starter_A;
  };
  return {.posts_V = volts(0),
          .terminal_V = volts(1) - to_terminal_ohm_ * starter_A -
                        spot_V(cold_spot_ohm_, temperatures_.relay_contact_C, starter_A),
          .case_V = volts(5) + from_case_ohm_ * starter_A,
          .coil_feed_V = volts(3),
          .body_V = volts(4),
          .loop_A = (emf_V - volts(0)) / battery_.ohmic_ohm};
}

double EngagedMotorModel::motor_Nm_per_A(const State& now) const {
  const double mean_Wb = 0.25 * (now[movable_Wb] + now[second_Wb] + 2.0 * now[third_Wb]);
  return parameters_.starter.machine_constant_Nm_per_A_T * mean_Wb / parameters_.starter.pole_area_m2;
}

void EngagedMotorModel::circuit_rates(const State& now, const Potentials& at, State& per_s) const {
  const StarterParameters& starter = parameters_.starter;
  const double turns = starter.coil_turns * starter.flux_fraction;
  const PoleParameters pole{starter.pole_area_m2, starter.iron_gap_m, starter.saturation_T};
  const double eddy =
      mu0 * starter.pole_area_m2 / ((starter.seated_gap_m + starter.iron_gap_m) * starter.eddy_time_constant_s);
  const auto turn_V = [&](double ampere_turns, double flux_Wb) {
    return eddy * (ampere_turns - needed_ampere_turns(pole, starter.seated_gap_m, flux_Wb));
  };
  per_s[movable_Wb] = turn_V(turns * now[drive_A] + starter.hold_in_turns * now[hold_in_A], now[movable_Wb]);
  per_s[second_Wb] = turn_V(turns * now[drive_A], now[second_Wb]);
  per_s[third_Wb] = turn_V(turns * now[field_34_A], now[third_Wb]);

  // Drive coil with coil 2, and coils 3 with 4, each from terminal to brushes, where both currents meet the armature.
  const double across_V = at.terminal_V - at.case_V;
  const double armature_A = now[drive_A] + now[field_34_A];
  const double armature_V = ohm_.armature * armature_A +
                            starter.brush_drop_V * std::tanh(armature_A / starter.brush_knee_A) +
                            motor_Nm_per_A(now) * now[armature_rad_per_s];
  const double drive_left_V =
      across_V - armature_V - (ohm_.drive + ohm_.field) * now[drive_A] - turns * (per_s[movable_Wb] + per_s[second_Wb]);
  const double field_left_V =
      across_V - armature_V - 2.0 * ohm_.field * now[field_34_A] - 2.0 * turns * per_s[third_Wb];
  const double own_H = 2.0 * starter.coil_leakage_H + starter.armature_leakage_H;
  const double shared_H = starter.armature_leakage_H;
  const double determinant = own_H * own_H - shared_H * shared_H;
  per_s[drive_A] = (own_H * drive_left_V - shared_H * field_left_V) / determinant;
  per_s[field_34_A] = (own_H * field_left_V - shared_H * drive_left_V) / determinant;
  per_s[hold_in_A] = (across_V - ohm_.hold_in * now[hold_in_A] - starter.hold_in_turns * per_s[movable_Wb]) /
                     starter.hold_in_leakage_H;

  const RelayParameters& relay = parameters_.relay;
  per_s[relay_Wb] = relay_eddy_ohm(relay) *
                    (relay.coil_turns * now[relay_coil_A] - needed_ampere_turns(relay_pole(relay), 0.0, now[relay_Wb]));
  per_s[relay_coil_A] = (at.coil_feed_V - at.body_V - (control_ohm_ + ohm_.relay_coil) * now[relay_coil_A] -
                         relay.coil_turns * per_s[relay_Wb]) /
                        relay_leakage_H_;
}

void EngagedMotorModel::battery_rates(const State& now, double loop_A, State& per_s) const {
  per_s[fast_V] = (loop_A * battery_.fast_ohm - now[fast_V]) / times_.fast_s;
  per_s[slow_V] = (loop_A * battery_.slow_ohm - now[slow_V]) / times_.slow_s;
  per_s[surface_V] = -now[surface_V] * (loop_A / times_.surface_As + 1.0 / times_.surface_s);
  per_s[pores_acid] = (now[between_plates_acid] - now[pores_acid]) / times_.pores_s - loop_A * battery_.acid_per_As;
  per_s[between_plates_acid] =
      (now[charge] - now[between_plates_acid]) / times_.between_plates_s - loop_A * battery_.between_plates_acid_per_As;
  per_s[charge] = -loop_A / battery_.capacity_As;
}

EngagedMotorModel::Outputs EngagedMotorModel::outputs(const State& now) const {
  const Potentials at = potentials(now);
  return {.loop_A = at.loop_A,
          .battery_posts_V = at.posts_V,
          .starter_V = at.terminal_V - at.case_V,
          .motor_rpm = now[armature_rad_per_s] * rpm_per_rad_per_s,
          .crank_rpm = now[crank_rad_per_s] * rpm_per_rad_per_s,
          .shaft_Nm = clutch_Nm(now)};
}

}  // namespace voltfall
