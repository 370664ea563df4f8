#pragma once

#include <cstdint>
#include <span>
#include <string_view>

#include "rig/parameters.h"

namespace voltfall {

/// How far sound vehicles of one type lie apart in one value: at most this share of it to either side, more often
/// little than much.
struct TypeSpread {
  std::string_view path;  ///< a Settable's
  double share;
};
std::span<const TypeSpread> all_spreads();

/// One vehicle of the kind that `typical` is. Same seed, same vehicle; it stays within every settable range.
RigParameters scattered(const RigParameters& typical, std::uint64_t seed);

}  // namespace voltfall
