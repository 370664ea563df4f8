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

/// The same thing is heard with the key at start. What the lamps do has to be the same too, unless the author has said
/// which symptoms matter (vetting then checks those).
bool tells_same_tale(const VetReport& variant, const Scenario& original, const VetReport& original_report);

}  // namespace voltfall
