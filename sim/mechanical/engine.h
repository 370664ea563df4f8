#pragma once

#include <array>
#include <vector>

namespace voltfall {

struct EngineParameters {
  double cylinders = 8.0;
  double bore_m = 0.1016;
  double stroke_m = 0.0762;
  double rod_m = 0.130;
  double compression_ratio = 8.5;
  double intake_closes_deg = 60.0;  ///< after bottom centre
  double exhaust_opens_deg = 50.0;  ///< before bottom centre
  double compression_index = 1.36;  ///< of the trapped air, before what it loses to the walls
  double wall_time_s = 0.06;        ///< time constant of trapped air giving its heat to the walls
  double leak_time_s = 1.2;         ///< time constant of a trapped charge leaking past the rings
  double weak_cylinder = 0.0;       ///< this many cylinders, from the first on in firing order, hold no pressure
  double plugs_out = 0.0;           ///< 1: no cylinder holds pressure
  double inertia_kg_m2 = 0.22;
  double friction_Nm = 20.0;  ///< at 27 °C, oil of the right grade
  double friction_Nm_s = 0.8;
  double drag_added_Nm = 0.0;      ///< tight bearings, a seizing piston
  double accessory_drag_Nm = 0.0;  ///< at the crank, from a seized pump or compressor on the belt
  double oil_grade_W = 10.0;       ///< SAE J300 winter grade, 0 to 25
  double oil_effort = 1.0;         ///< multiplies friction: sludge, fuel or coolant in the oil
  double liquid_cm3 = 0.0;         ///< water, fuel or coolant in cylinder 1
  double spark_advance_deg = 8.0;  ///< before top centre, while cranking
};

inline constexpr int most_cylinders = 8;

/// 4, 6 or 8: the parameter taken as the nearest below.
int cylinder_count(const EngineParameters& engine);

struct EngineState {
  double crank_angle_rad = 0.0;  ///< of the 4 pi cycle; 0 is cylinder 1's firing top centre
  double crank_rad_per_s = 0.0;
  std::array<double, most_cylinders> pressure_Pa{};  ///< absolute
  std::array<double, most_cylinders>
      wall_pV_J{};  ///< pressure x volume that the trapped air would have at the walls' temperature
  std::array<double, most_cylinders> unburnt_J{};  ///< heat that the trapped charge still has to give
  std::array<double, most_cylinders> burning_J{};  ///< and what of it is alight
  double fuelled_rad = 0.0;                        ///< the crank has turned this far with fuel and spark on
};

/// Volume of one cylinder by crank angle, and its slope, from the slider-crank geometry:
///     travel s(a) = r (1 - cos a) + l - sqrt(l^2 - r^2 sin^2 a),   V = clearance + area x s
/// kept as a table because eight cylinders ask for it at every step.
class CylinderVolume {
 public:
  struct Place {
    double m3, m3_per_rad;
  };

  explicit CylinderVolume(const EngineParameters& engine);
  Place at(double angle_rad) const;
  double volume_m3(double angle_rad) const { return at(angle_rad).m3; }
  double volume_m3_per_rad(double angle_rad) const { return at(angle_rad).m3_per_rad; }
  double swept_m3() const { return swept_m3_; }

 private:
  std::vector<Place> table_;  ///< over one revolution
  double swept_m3_;
};

/// Friction of the whole engine over its value at 27 °C: 3.5 at -29, 2.1 at -18, 1.55 at 0, 0.6 at 90 °C
/// (design document, start set; values.md 0 gives 350, 210, 155 and 100 % for the whole cranking effort).
double friction_effort(double oil_C);

/// Friction with this winter grade over that with 10W at the same temperature: goes as a power of the viscosity ratio.
double oil_grade_effort(double grade_W, double oil_C);
/// Viscosity, mPa·s, of an oil that just meets SAE J300 for its winter grade, by Walther's rule through the standard's
/// two limits: cranking viscosity at the grade's own low temperature and kinematic viscosity at 100 °C (values.md 6).
double oil_viscosity_mPas(double grade_W, double oil_C);

/// Where compression leaves a crank that comes to rest: `place` of the N/2 places in a revolution, offset by
/// `scatter_deg`.
double resting_angle_deg(const EngineParameters& engine, int place, double scatter_deg);

/// Leaked down: every cylinder holds air at the atmosphere's pressure and the walls' temperature.
/// With liquid in cylinder 1 the crank stands where there is room for it, at the asked place or the next one on.
EngineState rested_engine(const EngineParameters& engine, const CylinderVolume& volume, double crank_angle_deg);

/// Liquid in cylinder 1 has no more room and is being pressed.
bool liquid_is_pressed(const EngineParameters& engine, const CylinderVolume& volume, const EngineState& state);

/// Torque of the gas (and of liquid caught under a piston) on the crank when it has turned on by `ahead_rad` in
/// `ahead_s` (the middle of a step: with the pressure of its start the gas would give back more than was put in), N·m,
/// driving positive.
double gas_torque_Nm(const EngineParameters& engine, const CylinderVolume& volume, const EngineState& state,
                     double ahead_rad, double ahead_s);

/// Lets the crank turn to `crank_angle_rad` in one step. Trapped charges are compressed along p V^n, give heat to
/// the walls and leak towards the atmosphere; cylinders with an open valve stand at it. With the spark on a cylinder
/// draws fuel as it breathes in, is lit before top centre, and its charge burns off in some milliseconds; how much it
/// draws falls with speed (the throttle is at idle), and too slow an engine draws nothing that burns.
struct EngineTurn {
  double work_on_gas_J;
  bool fired;
};
EngineTurn turn_engine(const EngineParameters& engine, const CylinderVolume& volume, EngineState& state,
                       double crank_angle_rad, bool spark, double dt_s);

}  // namespace voltfall
