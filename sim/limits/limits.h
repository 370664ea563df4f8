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

/// The limit key that a bench test's first figure is held against.
std::string_view bench_limit(std::string_view bench_test);

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

/// The figure a finding stands for, in the unit of its limit: ampere figures of the conductance tester as the share of
/// the battery's rating.
double measured_value(const Finding& finding, const Scenario& scenario);

/// Lowest volts of a good battery under the load test at its temperature, V: 9.6 at 20 °C, falling to 8.7 at -12 °C
/// (trade.md 0.2, source S25), less what `lowest_V` declares under the usual 9.6.
double load_test_floor_V(double lowest_V, double battery_C);

/// `limit 0.05 V` or `at least 9.6 V` or `2.5 to 5 ohm`
std::string limit_in_words(const LimitInForce& limit);

}  // namespace voltfall
