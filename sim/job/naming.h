#pragma once

#include <string>
#include <vector>

namespace voltfall {

/// One naming: sealed when it is made. The first one stands at full points, a later one at half.
struct Naming {
  std::vector<std::string> fault_ids;  ///< as given: catalogue ids, decoys, or `nothing_found` alone
  std::vector<int> evidence;           ///< finding numbers
  int findings_then = 0;               ///< how many findings there were
  int repairs_before = 0;
};

}  // namespace voltfall
