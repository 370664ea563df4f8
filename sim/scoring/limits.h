#pragma once

#include <string_view>

#include "faults/catalogue.h"
#include "job/findings.h"
#include "scenario/scenario.h"

namespace voltfall {

/// A limit with its figures: the scenario's own where it declares one, else the trade's usual.
struct LimitInForce {
  const LimitKey* key;
  Limit figures;
};

/// @param limit  id of a limit key; the catalogue names no other.
LimitInForce limit_in_force(std::string_view limit, const Scenario& scenario);

enum class Judged {
  does_not_apply,  ///< other kind of reading, other state, or a loop current the limit is not meant for
  inside,
  outside
};

/// A drop over its limit below the current range is outside all the more; above the range the limit grows in
/// proportion to the current. A floor that is missed at a current below the range is missed all the more.
Judged judged_by(const LimitInForce& limit, const Finding& finding);

/// The same against one proving pair: does_not_apply too when the reading is of other points.
Judged judged_by(const ProvingPair& pair, const Finding& finding, const Scenario& scenario);

/// `limit 0.05 V` or `at least 9.6 V`
std::string limit_in_words(const LimitInForce& limit);

}  // namespace voltfall
