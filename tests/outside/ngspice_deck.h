#pragma once

#include <string>
#include <string_view>

#include "rig/parameters.h"

namespace voltfall {

/// What is done to the vehicle: the key goes to start at time 0, after a rest. Only loads of the test stand are
/// written; teeth and engine stay with the model.
struct DeckRun {
  LoadParameters load;  ///< Load::torque or Load::free
  bool headlamps = false;
  double for_s = 1.0;
  double longest_step_s = 1.0e-4;  ///< ngspice picks its own steps, but none longer
};

/// The vehicle's whole circuit as a netlist for ngspice: battery, every wire, joint, switch and leak, relay with its
/// plunger, starter with its iron and its moving shoe, armature, clutch and pinion against the stand's brake, and the
/// parts' warming. It holds the figures of the parameters and none of the model's code for the solution: every equation
/// stands in the netlist once more. Runs under `ngspice -b -r WAVES.raw DECK.cir`.
/// Nodes are the test points by id (`s_terminal`), with battery - as ground; for what other nodes and source currents
/// mean see the comments in the text.
/// Throws std::invalid_argument for a load with an engine or a locked pinion.
std::string vehicle_deck(std::string_view title, const RigParameters& parameters, const DeckRun& run);

}  // namespace voltfall
