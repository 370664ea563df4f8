#pragma once

#include <array>
#include <optional>
#include <vector>

#include "rig/rig.h"

namespace voltfall {

/// The engaged motor as ordinary differential equations, written down anew from the design document: relay closed, shoe
/// seated, grounding contacts open, teeth meshed (or, on the test stand, the pinion against a brake). Nothing of the
/// rig's stepping is used; only parameters, and constants that its parts tell of.
///
/// Temperatures, and the battery's figures that follow them, are taken as given: the rig holds them for a tenth of a
/// second at a time.
class EngagedMotorModel {
 public:
  enum Unknown : int {
    drive_A,  ///< drive coil and coil 2 in series: the grounding contacts are open
    field_34_A,
    hold_in_A,
    relay_coil_A,
    movable_Wb,
    second_Wb,
    third_Wb,  ///< poles 3 and 4 alike
    relay_Wb,
    fast_V,
    slow_V,
    surface_V,
    pores_acid,
    between_plates_acid,
    charge,
    armature_rad_per_s,
    pinion_rad_per_s,
    clutch_twist_rad,
    tooth_offset_m,
    crank_rad_per_s,
    crank_rad,
    first_pressure_Pa,
    first_wall_pV_J = first_pressure_Pa + most_cylinders,
    unknown_count = first_wall_pV_J + most_cylinders,
  };
  using State = std::array<double, unknown_count>;

  /// `pile_ohm`: a carbon pile across the battery's posts, if any.
  EngagedMotorModel(const RigParameters& parameters, const LoadParameters& load, std::optional<double> pile_ohm);

  /// Takes over temperatures and the battery's figures.
  void warm_to(const RigState& state);
  /// Takes over everything, and which cylinders are shut. Throws std::invalid_argument if the motor is not engaged.
  State state_from(const RigState& state);

  /// Rates of change, at one instant. Throws std::domain_error where clutch or flanks have let go of each other.
  void rates(const State& now, State& per_s) const;

  /// Crank angle at which the next valve shuts or opens, and what happens then.
  double next_valve_rad(double crank_angle_rad) const;
  void pass_valves(State& now);

  /// What both are compared by.
  struct Outputs {
    double loop_A, battery_posts_V, starter_V, motor_rpm, crank_rpm, shaft_Nm;
  };
  Outputs outputs(const State& now) const;

 private:
  // Potentials against the battery's - post.
  struct Potentials {
    double posts_V, terminal_V, case_V, coil_feed_V, body_V, loop_A;
  };
  struct WindingOhms {
    double drive, hold_in, field, armature, relay_coil;
  };
  // How fast what is in the battery goes by itself, and the charge that takes surface charge away.
  struct BatteryTimes {
    double fast_s, slow_s, surface_s, surface_As, pores_s, between_plates_s;
  };
  // Springs and dampers of clutch and flanks.
  struct Couplings {
    double clutch_Nm_per_rad, clutch_Nm_s, flank_N_per_m, flank_N_s;
  };

  void ask_battery(const BatteryState& state);
  void write_network(const PartTemperatures& temperatures);
  Potentials potentials(const State& now) const;
  double motor_Nm_per_A(const State& now) const;
  double clutch_Nm(const State& now) const;
  double gas_Nm(const State& now) const;
  void circuit_rates(const State& now, const Potentials& at, State& per_s) const;
  void battery_rates(const State& now, double loop_A, State& per_s) const;
  void wheel_rates(const State& now, State& per_s) const;
  void gas_rates(const State& now, State& per_s) const;
  double cylinder_m3(double own_rad) const;
  double cylinder_m3_per_rad(double own_rad) const;
  double own_rad(int cylinder, double crank_angle_rad) const;

  RigParameters parameters_;
  LoadParameters load_;
  std::optional<double> pile_ohm_;
  PartTemperatures temperatures_{20.0};
  BatteryFigures battery_{};
  WindingOhms ohm_{};
  Couplings couplings_{};
  double relay_leakage_H_ = 0.0, cold_spot_ohm_ = 0.0;
  BatteryTimes times_{};
  double starving_V_ = 0.0;
  double effort_ = 1.0;
  double control_ohm_ = 0.0;  ///< ignition feed to body, without the coil's own copper
  double to_terminal_ohm_ = 0.0, from_case_ohm_ = 0.0;
  /// Potentials of the six nodes for 1 A out of the battery's Norton source, 1 A of relay coil, 1 A of starter.
  std::array<std::array<double, 6>, 3> response_V_{};
  std::array<bool, most_cylinders> shut_{};
};

}  // namespace voltfall
