#pragma once

#include <string>
#include <vector>

namespace voltfall {

/// The share that a naming's evidence has to leave to what is named.
inline constexpr double full_support = 0.80;

/// One line of the score with its reason; `reason` is a wording id with figures filled in by the user interface.
struct ScoreLine {
  std::string part;  ///< diagnosis, proof, safety, economy, method
  double points, out_of;
  std::string reason;  ///< plain English, with the figures
};

struct Gate {
  std::string id;  ///< cured, proved, no_critical_act, supported
  bool held;
  std::string reason;
};

struct Score {
  std::vector<Gate> gates;
  std::vector<ScoreLine> lines;
  double total = 0.0;
  bool passed = false;  ///< every gate and at least 70 points
};

}  // namespace voltfall
