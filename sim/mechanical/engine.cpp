#include "mechanical/engine.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "numbers/straight_lines.h"

namespace voltfall {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double cycle_rad = 4.0 * pi;
constexpr double atmosphere_Pa = 101325.0;
constexpr int table_size = 1440;  // over one revolution

double radians(double degrees) {
  return degrees * (pi / 180.0);
}

// Angles come here less than a few turns out, where stepping back is quicker than fmod.
double wrapped(double angle_rad, double turn_rad) {
  while (angle_rad >= turn_rad) angle_rad -= turn_rad;
  while (angle_rad < 0.0) angle_rad += turn_rad;
  return angle_rad;
}

// How far each cylinder is behind cylinder 1, for engines of 4, 6 and 8: divisions that no step has to make again.
constexpr std::array<double, most_cylinders> intervals_rad(int count) {
  std::array<double, most_cylinders> behind_rad{};
  for (int cylinder = 0; cylinder < count; ++cylinder) {
    behind_rad[static_cast<std::size_t>(cylinder)] = cylinder * cycle_rad / count;
  }
  return behind_rad;
}
constexpr std::array<std::array<double, most_cylinders>, 3> behind_first_rad{intervals_rad(4), intervals_rad(6),
                                                                             intervals_rad(8)};

// Cylinder k is k firing intervals behind cylinder 1; 0 is its own firing top centre.
double own_angle(double crank_angle_rad, int cylinder, int count) {
  const auto& behind_rad = behind_first_rad[static_cast<std::size_t>(count / 2 - 2)];
  return wrapped(crank_angle_rad - behind_rad[static_cast<std::size_t>(cylinder)], cycle_rad);
}

// When a cylinder holds what is in it: never with its plug out or a hole in its piston; else from intake closing (after
// the bottom centre before compression) to exhaust opening.
struct Holding {
  explicit Holding(const EngineParameters& engine)
      : opens_rad(pi - radians(engine.exhaust_opens_deg)),
        closes_rad(3.0 * pi + radians(engine.intake_closes_deg)),
        first_sound(engine.plugs_out > 0.5 ? most_cylinders : std::lround(engine.weak_cylinder)) {}

  bool at(int cylinder, double own_rad) const {
    return cylinder >= first_sound && (own_rad < opens_rad || own_rad > closes_rad);
  }

  double opens_rad, closes_rad;
  long first_sound;  ///< those before it breathe freely
};

double piston_travel_m(const EngineParameters& engine, double angle_rad) {
  const double throw_m = 0.5 * engine.stroke_m;
  const double across_m = throw_m * std::sin(angle_rad);
  return throw_m * (1.0 - std::cos(angle_rad)) + engine.rod_m -
         std::sqrt(engine.rod_m * engine.rod_m - across_m * across_m);
}

double piston_travel_m_per_rad(const EngineParameters& engine, double angle_rad) {
  const double throw_m = 0.5 * engine.stroke_m;
  const double across_m = throw_m * std::sin(angle_rad);
  const double along_m = std::sqrt(engine.rod_m * engine.rod_m - across_m * across_m);
  return across_m * (1.0 + throw_m * std::cos(angle_rad) / along_m);
}

// Liquid leaves a sliver of gas over it at most; what is under it can only be pressed like a stiff spring: the bulk
// modulus of water with a head and bolts that give (from memory).
constexpr double least_gas_m3 = 1.0e-6;
constexpr double liquid_stiffness_Pa = 5.0e8;

double liquid_m3(const EngineParameters& engine, int cylinder) {
  return cylinder == 0 ? 1.0e-6 * engine.liquid_cm3 : 0.0;
}

double gas_room_m3(const EngineParameters& engine, int cylinder, double cylinder_m3) {
  return std::max(cylinder_m3 - liquid_m3(engine, cylinder), least_gas_m3);
}

double liquid_pressure_Pa(const EngineParameters& engine, int cylinder, double cylinder_m3) {
  const double liquid = liquid_m3(engine, cylinder);
  if (liquid <= 0.0) return 0.0;
  return liquid_stiffness_Pa * std::max(liquid + least_gas_m3 - cylinder_m3, 0.0) / liquid;
}

}  // namespace

int cylinder_count(const EngineParameters& engine) {
  if (engine.cylinders >= 8.0) return 8;
  return engine.cylinders >= 6.0 ? 6 : 4;
}

CylinderVolume::CylinderVolume(const EngineParameters& engine) {
  const double piston_m2 = 0.25 * pi * engine.bore_m * engine.bore_m;
  swept_m3_ = piston_m2 * engine.stroke_m;
  const double clearance_m3 = swept_m3_ / (engine.compression_ratio - 1.0);
  for (int i = 0; i <= table_size; ++i) {
    const double angle_rad = 2.0 * pi * i / table_size;
    table_.push_back({clearance_m3 + piston_m2 * piston_travel_m(engine, angle_rad),
                      piston_m2 * piston_travel_m_per_rad(engine, angle_rad)});
  }
}

CylinderVolume::Place CylinderVolume::at(double angle_rad) const {
  const double place = wrapped(angle_rad, 2.0 * pi) * (table_size / (2.0 * pi));
  const int below = std::min(static_cast<int>(place), table_size - 1);
  const double between = place - below;
  const Place* const row = table_.data() + below;
  return {row[0].m3 + between * (row[1].m3 - row[0].m3),
          row[0].m3_per_rad + between * (row[1].m3_per_rad - row[0].m3_per_rad)};
}

double friction_effort(double oil_C) {
  constexpr std::array<TablePoint, 6> efforts{{{-40, 5.2}, {-29, 3.5}, {-18, 2.1}, {0, 1.55}, {27, 1.0}, {90, 0.6}}};
  return on_straight_lines(efforts, oil_C);
}

double oil_viscosity_mPas(double grade_W, double oil_C) {
  struct Grade {
    double grade_W, cold_C, cold_mPas, hot_cSt;
  };
  constexpr std::array<Grade, 6> J300{{{0, -35, 6200, 3.8},
                                       {5, -30, 6600, 3.8},
                                       {10, -25, 7000, 4.1},
                                       {15, -20, 7000, 5.6},
                                       {20, -15, 9500, 5.6},
                                       {25, -10, 13000, 9.3}}};
  constexpr double density = 0.87, zero_K = 273.15;
  const auto double_log = [](double mPas) { return std::log(std::log(mPas / density + 0.7)); };
  const auto viscosity = [&](const Grade& grade) {
    const double cold = double_log(grade.cold_mPas), hot = double_log(grade.hot_cSt * density);
    const double cold_K = std::log(grade.cold_C + zero_K), hot_K = std::log(100.0 + zero_K);
    const double along = (std::log(oil_C + zero_K) - cold_K) / (hot_K - cold_K);
    return density * (std::exp(std::exp(cold + along * (hot - cold))) - 0.7);
  };
  const double place = std::clamp(grade_W, 0.0, 25.0) / 5.0;
  const auto below = std::min(static_cast<std::size_t>(place), J300.size() - 2);
  const double share = place - static_cast<double>(below);
  return std::pow(viscosity(J300[below]), 1.0 - share) * std::pow(viscosity(J300[below + 1]), share);
}

double oil_grade_effort(double grade_W, double oil_C) {
  // Bearings and pistons partly ride on oil, partly rub. With 0.45 a 20W oil at -18 °C asks for a bit over twice the
  // effort of the right one (trade practice: 2 to 2.5 times).
  constexpr double share = 0.45, right_grade_W = 10.0;
  return std::pow(oil_viscosity_mPas(grade_W, oil_C) / oil_viscosity_mPas(right_grade_W, oil_C), share);
}

double resting_angle_deg(const EngineParameters& engine, int place, double scatter_deg) {
  // A stopping engine is pushed back by the cylinder it could not get over, to about half way between two top centres.
  const double interval_deg = 720.0 / cylinder_count(engine);
  return std::fmod((place + 0.5) * interval_deg + scatter_deg + 720.0, 720.0);
}

bool liquid_is_pressed(const EngineParameters& engine, const CylinderVolume& volume, const EngineState& state) {
  if (engine.liquid_cm3 <= 0.0) return false;
  const double own_rad = own_angle(state.crank_angle_rad, 0, cylinder_count(engine));
  return Holding(engine).at(0, own_rad) && liquid_pressure_Pa(engine, 0, volume.volume_m3(own_rad)) > 0.0;
}

EngineState rested_engine(const EngineParameters& engine, const CylinderVolume& volume, double crank_angle_deg) {
  EngineState state;
  state.crank_angle_rad = std::fmod(std::fmod(radians(crank_angle_deg), cycle_rad) + cycle_rad, cycle_rad);
  while (liquid_is_pressed(engine, volume, state)) {
    state.crank_angle_rad = wrapped(state.crank_angle_rad + radians(1.0), cycle_rad);
  }
  state.pressure_Pa.fill(atmosphere_Pa);
  const int count = cylinder_count(engine);
  for (int cylinder = 0; cylinder < count; ++cylinder) {
    const double own_rad = own_angle(state.crank_angle_rad, cylinder, count);
    state.wall_pV_J[static_cast<std::size_t>(cylinder)] =
        atmosphere_Pa * gas_room_m3(engine, cylinder, volume.volume_m3(own_rad));
  }
  return state;
}

double gas_torque_Nm(const EngineParameters& engine, const CylinderVolume& volume, const EngineState& state,
                     double ahead_rad, double ahead_s) {
  const int count = cylinder_count(engine);
  double torque_Nm = 0.0;
  for (int cylinder = 0; cylinder < count; ++cylinder) {
    const double pressure_Pa = state.pressure_Pa[static_cast<std::size_t>(cylinder)];
    if (pressure_Pa == atmosphere_Pa) continue;
    const double own_rad = own_angle(state.crank_angle_rad + ahead_rad, cylinder, count);
    const auto [room_m3, m3_per_rad] = volume.at(own_rad);
    const double gas_m3 = gas_room_m3(engine, cylinder, room_m3);
    const double squeezed_Pa = pressure_Pa * (1.0 - engine.compression_index * m3_per_rad * ahead_rad / gas_m3);
    const double at_walls_Pa = state.wall_pV_J[static_cast<std::size_t>(cylinder)] / gas_m3;
    const double lost_Pa = ahead_s * ((squeezed_Pa - at_walls_Pa) / engine.wall_time_s +
                                      (squeezed_Pa - atmosphere_Pa) / engine.leak_time_s);
    const double liquid_Pa = liquid_pressure_Pa(engine, cylinder, room_m3);
    torque_Nm += (squeezed_Pa - lost_Pa + liquid_Pa - atmosphere_Pa) * m3_per_rad;
  }
  return torque_Nm;
}

namespace {

// The intake valve has just shut: what was drawn in with the spark on can burn.
double drawn_heat_J(const EngineParameters& engine, const CylinderVolume& volume, const EngineState& state) {
  constexpr double air_kg_per_m3 = 1.2, heat_J_per_kg_air = 2.9e6, burnt_share = 0.5;  // stoichiometric petrol
  constexpr double throttle_fill = 0.45, idle_rad_per_s = 70.0;
  constexpr double least_rad_per_s = 100.0 * pi / 30.0;  // values.md section 6: slower, and it does not start
  constexpr double fuel_arrives_rad = 2.0 * cycle_rad;   // choke and port have to be wetted first
  const double speed = state.crank_rad_per_s;
  if (state.fuelled_rad < fuel_arrives_rad || speed < least_rad_per_s || engine.spark_advance_deg <= 0.0) return 0.0;
  const double slower = std::min(idle_rad_per_s / speed, 1.0);
  const double fill = throttle_fill * slower * slower * slower;
  return volume.swept_m3() * air_kg_per_m3 * fill * heat_J_per_kg_air * burnt_share;
}

bool passes_spark(const EngineParameters& engine, double from_own_rad, double to_own_rad) {
  const double spark_rad = cycle_rad - radians(engine.spark_advance_deg);
  return from_own_rad < spark_rad && to_own_rad >= spark_rad;
}

// Shares of a closed charge that go within one step.
struct Losses {
  double leak, cool;  ///< past the rings; to the walls
};

// p V^n = constant over a small step, exact to third order: p1 / p0 = (1 + n r / 2) / (1 - n r / 2); then heat from the
// burning charge, heat to the walls and leakage.
double closed_pressure_Pa(const EngineParameters& engine, EngineState& state, std::size_t i, double from_m3,
                          double to_m3, const Losses& losses, double dt_s) {
  constexpr double burning_s = 0.004, heat_to_pressure = 0.36;
  const double half = engine.compression_index * (from_m3 - to_m3) / (from_m3 + to_m3);
  double squeezed_Pa = state.pressure_Pa[i] * (1.0 + half) / (1.0 - half);
  if (state.burning_J[i] > 0.0) {
    const double given_J = state.burning_J[i] * (1.0 - 1.0 / (1.0 + dt_s / burning_s));
    state.burning_J[i] -= given_J;
    squeezed_Pa += heat_to_pressure * given_J / to_m3;
  }
  const auto [leak, cool] = losses;
  const double at_walls_Pa = state.wall_pV_J[i] / to_m3;
  const double after_Pa = (squeezed_Pa + leak * atmosphere_Pa + cool * at_walls_Pa) / (1.0 + leak + cool);
  state.wall_pV_J[i] *= 1.0 - leak * (after_Pa - atmosphere_Pa) / after_Pa;
  return after_Pa;
}

}  // namespace

EngineTurn turn_engine(const EngineParameters& engine, const CylinderVolume& volume, EngineState& state,
                       double crank_angle_rad, bool spark, double dt_s) {
  const int count = cylinder_count(engine);
  const Holding holding(engine);
  const Losses losses{dt_s / engine.leak_time_s, dt_s / engine.wall_time_s};
  EngineTurn turn{0.0, false};
  state.fuelled_rad = spark ? state.fuelled_rad + std::abs(crank_angle_rad - state.crank_angle_rad) : 0.0;
  for (int cylinder = 0; cylinder < count; ++cylinder) {
    const auto i = static_cast<std::size_t>(cylinder);
    const double own_rad = own_angle(crank_angle_rad, cylinder, count);
    const double before_Pa = state.pressure_Pa[i];
    const bool closed = holding.at(cylinder, own_rad);
    if (!closed && before_Pa == atmosphere_Pa) {
      state.wall_pV_J[i] = 0.0;
      continue;
    }
    const double own_before_rad = own_angle(state.crank_angle_rad, cylinder, count);
    const double from_m3 = volume.volume_m3(own_before_rad);
    const double to_m3 = volume.volume_m3(own_rad);
    double after_Pa = atmosphere_Pa;
    if (closed) {
      const double gas_from_m3 = gas_room_m3(engine, cylinder, from_m3);
      if (state.wall_pV_J[i] == 0.0) {  // the intake valve has just shut
        state.wall_pV_J[i] = atmosphere_Pa * gas_from_m3;
        state.unburnt_J[i] = spark && own_rad > 3.0 * pi ? drawn_heat_J(engine, volume, state) : 0.0;
      }
      if (spark && state.unburnt_J[i] > 0.0 && passes_spark(engine, own_before_rad, own_rad)) {
        state.burning_J[i] = state.unburnt_J[i];
        state.unburnt_J[i] = 0.0;
        turn.fired = true;
      }
      after_Pa = closed_pressure_Pa(engine, state, i, gas_from_m3, gas_room_m3(engine, cylinder, to_m3), losses, dt_s);
    } else {
      state.burning_J[i] = state.unburnt_J[i] = 0.0;
    }
    state.pressure_Pa[i] = after_Pa;
    const double liquid_Pa =
        liquid_pressure_Pa(engine, cylinder, from_m3) + liquid_pressure_Pa(engine, cylinder, to_m3);
    turn.work_on_gas_J += (0.5 * (before_Pa + after_Pa + liquid_Pa) - atmosphere_Pa) * (from_m3 - to_m3);
  }
  state.crank_angle_rad = wrapped(crank_angle_rad, cycle_rad);
  return turn;
}

}  // namespace voltfall
