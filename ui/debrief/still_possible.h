#pragma once

#include <memory>
#include <string>
#include <vector>

#include "session/session.h"
#include "wording/wording.h"

namespace voltfall {

/// In a guided job: what a naming leaves open, in a line. Seen from the findings alone, never from the answer.
/// @param findings  all there were at the naming
/// @return empty when the name holds at least 0.80, by the findings picked and by all of them
std::string still_possible(const Scenario& scenario, const std::vector<Finding>& findings, const Naming& naming,
                           std::shared_ptr<const SignatureTable> table, const Wording& words);

}  // namespace voltfall
