#pragma once

#include <string>
#include <vector>

#include "scenario/scenario.h"
#include "service_sheet/wiring_diagram.h"
#include "wording/wording.h"

namespace voltfall {

/// One printed line: what, and its figure.
struct SheetLine {
  std::string what, figure;
};

/// What is printed of a vehicle for whoever works on it: nothing that depends on what is hidden in a job.
struct SheetContents {
  std::string vehicle;
  DiagramOptions diagram;
  std::vector<SheetLine> points;  ///< number and name, 1 to 30
  std::vector<SheetLine> limits;
  std::vector<SheetLine> torques;  ///< of each heavy joint
  std::vector<SheetLine> data;     ///< battery, engine, cables as fitted
  std::vector<std::string> cautions;
};
SheetContents sheet_contents(const Scenario& scenario, const Wording& words);

/// The whole sheet as one HTML file with its drawing inside, which prints on A4 or letter paper.
std::string sheet_as_html(const SheetContents& contents);

}  // namespace voltfall
