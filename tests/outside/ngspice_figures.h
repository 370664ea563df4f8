#pragma once

#include "electrical/battery.h"
#include "rig/parameters.h"

namespace voltfall {

// Figures that the parameters do not hold. The deck states the model's equations once more but must use its figures, so
// each is read off one call of a public function in a case with a closed answer.

/// Time constants of the battery's polarisation, of the acid in its pores and between its plates, the scale of its
/// starving loss, and how surface charge goes: in time and by what is drawn.
struct BatteryTimes {
  explicit BatteryTimes(const BatteryFigures& figures);
  double fast_s, slow_s, pores_s, between_plates_s, starving_V, surface_s, surface_As;
};

/// Heat capacity of a part and the time constant with which it cools.
struct LumpFigures {
  double J_per_K, cooling_s;
};

struct WindingLumps {
  explicit WindingLumps(const RigParameters& parameters);
  LumpFigures drive, field, armature, relay_coil;
};

/// A drawn arc: volts at no gap, volts per metre of it, and the slope against current.
struct ArcFigures {
  ArcFigures();
  double least_V, V_per_m, ohm;
};

double relay_coil_leakage_H(const RigParameters& parameters);
/// Shares of its speed that the relay's plunger keeps at a stop and the disc on its studs, and the travel over which
/// the contact spring's preload comes in.
struct RelayFigures {
  explicit RelayFigures(const RelayParameters& relay);
  double stop_restitution, stud_restitution, settling_m;
};
double clutch_damping_Nm_s(const DriveParameters& drive);
double filament_time_s();

}  // namespace voltfall
