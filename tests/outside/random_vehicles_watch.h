#pragma once

#include <cstdint>
#include <string>

#include "outside/random_vehicles.h"

namespace voltfall {

/// What was seen of one turn of the key.
struct WatchedTurn {
  std::string wrong;       ///< the first breach of each law; empty when there was none
  std::uint64_t bits = 0;  ///< of all readings of all steps: the same bits again from the same vehicle
};

/// Turns the key of the vehicle and holds every step to what physics.md, "Trust", promises: Kirchhoff to max(1e-9 of
/// the largest branch current, 1e-9 A); energy to 0.1 % or 1 J; no part that can only turn energy into heat gives any
/// back; the battery gives no more than its volts and ohms allow; every reading finite. The model may throw.
WatchedTurn watch_turn(const RandomVehicle& vehicle);

/// What the ledger's entries that `watch_turn` looks at add up to: all that goes out but gas and load.
double watched_heat_J(const EnergyLedger& energy);

}  // namespace voltfall
