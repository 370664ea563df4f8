#pragma once

// The larger parts of a vehicle's deck; ngspice_deck.cpp puts them together.

#include "outside/ngspice_netlist.h"
#include "rig/parameters.h"

namespace voltfall {

/// Millimetres of travel over which a contact's metal meets or parts: a step in the model.
inline constexpr double contact_edge_mm = 1.0e-4;

/// Between nodes `s_terminal` and `relay_case` the coil, between the studs the contact. Node `plunger` and `disc` are
/// travels in mm, `relay_touch` is 1 while the disc is on its studs.
void write_relay(Netlist& netlist, const RigParameters& parameters);

/// Between nodes `starter_terminal` and `starter_case`. Nodes `drive_end` and `brush_bus` lie inside; `shoe` is its
/// travel in mm, `torque_per_A` the machine's constant for the present flux. Needs the wheels.
void write_starter(Netlist& netlist, const RigParameters& parameters);

/// Armature, clutch and pinion against a brake: nodes `armature` and `pinion` in rad/s.
void write_wheels(Netlist& netlist, const RigParameters& parameters, double brake_Nm);

}  // namespace voltfall
