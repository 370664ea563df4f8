#pragma once

#include <string>
#include <vector>

#include "scenario/scenario.h"

namespace voltfall {

/// What somebody chooses who begins a scenario without typing TOML.
struct NewScenario {
  std::string title, setting, complaint, debrief;
  int sheet = 0;  ///< 0: none
  Level level = Level::plain;
  std::string vehicle_type, vehicle_name;
  std::vector<HiddenFault> faults;
  std::vector<DecoyLook> decoys;
  std::vector<Kit> kit;
};

/// As a file that a person reads and goes on with: sections in the order of the template, each with a line that says
/// what it is for. Reads back as it was given.
std::string scenario_text(const NewScenario& scenario);

/// A text as TOML has it, in quotes.
std::string toml_quoted(std::string_view text);

}  // namespace voltfall
