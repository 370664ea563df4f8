#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "outside/ngspice_deck.h"

namespace voltfall {

/// One deck: a vehicle and what is done to it.
struct DeckCase {
  std::string_view id;  ///< also the deck's file name, without ending
  std::string_view title;
  RigParameters parameters;
  DeckRun run;

  std::string deck() const { return vehicle_deck(title, parameters, run); }
};

/// All that model and ngspice are compared on.
const std::vector<DeckCase>& deck_cases();
/// Throws std::invalid_argument for an id that is not among them.
const DeckCase& deck_case(std::string_view id);

}  // namespace voltfall
