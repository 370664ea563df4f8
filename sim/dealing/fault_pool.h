#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "diagnosis/signature_table.h"
#include "vetting/vet.h"

namespace voltfall {

/// A fault with the severities at which the driver would tell the same tale.
struct PoolFault {
  std::string id;
  double lowest, highest;
};

/// What could be hidden in place of a scenario's only fault, in an order drawn by the seed; the author's own pool where
/// there is one. From the table alone: the variants themselves are vetted later.
std::vector<PoolFault> fault_pool(const Scenario& scenario, const SignatureTable& table, const VetReport& report,
                                  std::uint64_t seed);

/// The same thing is heard with the key at start, and of the lamps where they are on.
bool tells_same_tale(const VetReport& one, const VetReport& other);

}  // namespace voltfall
