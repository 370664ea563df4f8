#pragma once

#include <numbers>

#include "electrical/pole.h"
#include "mechanical/drive_train.h"
#include "rig/state.h"

namespace voltfall {

/// The starter's pole iron; all four poles are alike but for the movable one's gap.
PoleParameters starter_pole(const StarterParameters& starter);
double movable_pole_gap_m(const RigParameters& parameters, double shoe_travel_m);
/// Torque per ampere of armature current, which is also volts per rad/s: the machine's constant times the mean of the
/// four poles' flux densities.
double torque_per_A(const StarterParameters& starter, const PoleFluxes& fluxes);

/// How far to either side of a brush dead bars still lie under it: for a quarter of the time between two brushes.
inline constexpr double dead_bars_half_rad = std::numbers::pi / 16.0;

/// What brushes and commutator add to the armature's path, without the brushes' own drop.
/// @param armature_rad how the armature stands: burnt bars lie under the brushes four times in a turn, from 0 on
double brush_path_ohm(const StarterParameters& starter, double armature_rad);

/// What the circuit needs to know of the rest of the vehicle during one step.
struct CircuitSurroundings {
  const RigParameters& parameters;
  const BatteryFigures& battery;
  LoadParameters load;
  DriveTrainStep drive_train;  ///< the armature's mean speed as a line in the motor's torque
  double dt_s;
};

struct CircuitResult {
  LiveCurrents currents;
  PoleFluxes fluxes;
  double torque_per_A;
  int rounds;  ///< of Newton's method
};

/// Solves circuit, coils, iron and the armature's back-emf at one instant, the end of the step (backward Euler), by
/// Newton's method over the network. Throws std::runtime_error, with the time, if it does not converge.
CircuitResult solve_circuit(Wiring& wiring, const RigState& before, const CircuitSurroundings& around);

/// Energy that these currents hold in the coils' leakage alone, J.
double leakage_J(const RigParameters& parameters, const LiveCurrents& currents);

/// Energy stored in the starter's and the relay's iron and in the coils' leakage, J.
double stored_magnetic_J(const RigParameters& parameters, const RigState& state);

/// Power that the shorted eddy turns of all poles turn to heat at the end of a step, W.
double eddy_heat_W(const RigParameters& parameters, const RigState& state);

}  // namespace voltfall
