#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "scenario/scenario.h"

namespace voltfall {

/// What of a scenario is to be otherwise.
struct Variant {
  std::vector<HiddenFault> faults;
  std::vector<DecoyLook> decoys;
  std::uint64_t scatter_seed = 0;  ///< at most 1e9
  std::string debrief;
};

/// The scenario's text with these things changed, and without what is said of dealing. Comments are lost, for they may
/// tell of what is no longer so.
/// @param source_text  of a scenario that reads
std::string variant_text(std::string_view source_text, const Variant& variant);

}  // namespace voltfall
