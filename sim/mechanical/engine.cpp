#include "mechanical/engine.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace voltfall {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double cycle_rad = 4.0 * pi;
constexpr double atmosphere_Pa = 101325.0;
constexpr int table_size = 1440;  // over one revolution

double radians(double degrees) {
  return degrees * pi / 180.0;
}

// Angles come here less than a few turns out, where stepping back is quicker than fmod.
double wrapped(double angle_rad, double turn_rad) {
  while (angle_rad >= turn_rad) angle_rad -= turn_rad;
  while (angle_rad < 0.0) angle_rad += turn_rad;
  return angle_rad;
}

// Cylinder k is k firing intervals behind cylinder 1; 0 is its own firing top centre.
double own_angle(double crank_angle_rad, int cylinder, int count) {
  return wrapped(crank_angle_rad - cylinder * cycle_rad / count, cycle_rad);
}

// Closed from intake closing (after the bottom centre before compression) to exhaust opening.
bool valves_closed(const EngineParameters& engine, double own_angle_rad) {
  return own_angle_rad < pi - radians(engine.exhaust_opens_deg) ||
         own_angle_rad > 3.0 * pi + radians(engine.intake_closes_deg);
}

// A plug out or a hole in a piston: the cylinder breathes freely and holds nothing.
bool breathes(const EngineParameters& engine, int cylinder) {
  return engine.plugs_out > 0.5 || (cylinder == 0 && engine.weak_cylinder > 0.5);
}

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
    volume_m3_.push_back(clearance_m3 + piston_m2 * piston_travel_m(engine, angle_rad));
    slope_m3_.push_back(piston_m2 * piston_travel_m_per_rad(engine, angle_rad));
  }
}

double CylinderVolume::interpolated(const std::vector<double>& table, double angle_rad) const {
  const double place = wrapped(angle_rad, 2.0 * pi) * (table_size / (2.0 * pi));
  const auto below = std::min(static_cast<std::size_t>(place), static_cast<std::size_t>(table_size - 1));
  const double between = place - static_cast<double>(below);
  return table[below] + between * (table[below + 1] - table[below]);
}

double CylinderVolume::volume_m3(double angle_rad) const {
  return interpolated(volume_m3_, angle_rad);
}
double CylinderVolume::volume_m3_per_rad(double angle_rad) const {
  return interpolated(slope_m3_, angle_rad);
}

double friction_effort(double oil_C) {
  struct Point {
    double oil_C, effort;
  };
  constexpr std::array<Point, 6> points{{{-40, 5.2}, {-29, 3.5}, {-18, 2.1}, {0, 1.55}, {27, 1.0}, {90, 0.6}}};
  const double within_C = std::clamp(oil_C, points.front().oil_C, points.back().oil_C);
  std::size_t upper = 1;
  while (points[upper].oil_C < within_C) ++upper;
  const Point& low = points[upper - 1];
  const Point& high = points[upper];
  return low.effort + (within_C - low.oil_C) / (high.oil_C - low.oil_C) * (high.effort - low.effort);
}

double resting_angle_deg(const EngineParameters& engine, int place, double scatter_deg) {
  // A stopping engine is pushed back by the cylinder it could not get over, to about half way between two top centres.
  const double interval_deg = 720.0 / cylinder_count(engine);
  return std::fmod((place + 0.5) * interval_deg + scatter_deg + 720.0, 720.0);
}

EngineState rested_engine(const EngineParameters& engine, const CylinderVolume& volume, double crank_angle_deg) {
  EngineState state;
  state.crank_angle_rad = std::fmod(std::fmod(radians(crank_angle_deg), cycle_rad) + cycle_rad, cycle_rad);
  state.pressure_Pa.fill(atmosphere_Pa);
  const int count = cylinder_count(engine);
  for (int cylinder = 0; cylinder < count; ++cylinder) {
    const double own_rad = own_angle(state.crank_angle_rad, cylinder, count);
    state.wall_pV_J[static_cast<std::size_t>(cylinder)] = atmosphere_Pa * volume.volume_m3(own_rad);
  }
  return state;
}

double gas_torque_Nm(const EngineParameters& engine, const CylinderVolume& volume, const EngineState& state,
                     double ahead_rad) {
  const int count = cylinder_count(engine);
  double torque_Nm = 0.0;
  for (int cylinder = 0; cylinder < count; ++cylinder) {
    const double pressure_Pa = state.pressure_Pa[static_cast<std::size_t>(cylinder)];
    if (pressure_Pa == atmosphere_Pa) continue;
    const double own_rad = own_angle(state.crank_angle_rad + ahead_rad, cylinder, count);
    const double m3_per_rad = volume.volume_m3_per_rad(own_rad);
    const double squeeze = engine.compression_index * m3_per_rad * ahead_rad / volume.volume_m3(own_rad);
    torque_Nm += (pressure_Pa * (1.0 - squeeze) - atmosphere_Pa) * m3_per_rad;
  }
  return torque_Nm;
}

double turn_engine(const EngineParameters& engine, const CylinderVolume& volume, EngineState& state,
                   double crank_angle_rad, double dt_s) {
  const int count = cylinder_count(engine);
  double work_on_gas_J = 0.0;
  for (int cylinder = 0; cylinder < count; ++cylinder) {
    const auto i = static_cast<std::size_t>(cylinder);
    const double own_rad = own_angle(crank_angle_rad, cylinder, count);
    const double before_Pa = state.pressure_Pa[i];
    const bool closed = valves_closed(engine, own_rad) && !breathes(engine, cylinder);
    if (!closed && before_Pa == atmosphere_Pa) {
      state.wall_pV_J[i] = 0.0;
      continue;
    }
    const double from_m3 = volume.volume_m3(own_angle(state.crank_angle_rad, cylinder, count));
    const double to_m3 = volume.volume_m3(own_rad);
    double after_Pa = atmosphere_Pa;
    if (closed) {
      if (state.wall_pV_J[i] == 0.0) state.wall_pV_J[i] = atmosphere_Pa * from_m3;  // the valve has just shut
      // p V^n = constant over a small step, exact to third order: p1 / p0 = (1 + n r / 2) / (1 - n r / 2).
      const double half = engine.compression_index * (from_m3 - to_m3) / (from_m3 + to_m3);
      const double squeezed_Pa = before_Pa * (1.0 + half) / (1.0 - half);
      const double leak = dt_s / engine.leak_time_s;
      const double cool = dt_s / engine.wall_time_s;
      const double at_walls_Pa = state.wall_pV_J[i] / to_m3;
      after_Pa = (squeezed_Pa + leak * atmosphere_Pa + cool * at_walls_Pa) / (1.0 + leak + cool);
      state.wall_pV_J[i] *= 1.0 - leak * (after_Pa - atmosphere_Pa) / after_Pa;
    }
    state.pressure_Pa[i] = after_Pa;
    work_on_gas_J += (0.5 * (before_Pa + after_Pa) - atmosphere_Pa) * (from_m3 - to_m3);
  }
  state.crank_angle_rad = wrapped(crank_angle_rad, cycle_rad);
  return work_on_gas_J;
}

}  // namespace voltfall
