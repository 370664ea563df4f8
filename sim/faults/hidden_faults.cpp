#include "faults/hidden_faults.h"

#include <algorithm>
#include <array>
#include <random>

#include "rig/settable.h"

namespace voltfall {
namespace {

constexpr std::array<std::string_view, 4> when_ids{"always", "hot", "vibration", "damp"};

bool as_likely_as_not(std::uint64_t seed) {
  constexpr int settling_draws = 8;  // neighbouring seeds begin alike
  std::mt19937_64 bits(seed);
  bits.discard(settling_draws);
  return (bits() >> 63U) != 0;
}

bool is_mended(const Fault& fault, std::span<const std::string> repairs_done) {
  return std::any_of(repairs_done.begin(), repairs_done.end(), [&](const std::string& id) {
    const Repair* repair = repair_named(id);
    return repair != nullptr && mends(*repair, fault);
  });
}

}  // namespace

std::span<const std::string_view> all_when_ids() {
  return when_ids;
}

bool holds(When when, const Triggers& now) {
  switch (when) {
    case When::always:
      return true;
    case When::hot:
      return now.hot;
    case When::vibration:
      return now.shaken;
    case When::damp:
      return now.damp;
  }
  return true;
}

Triggers triggers_on_arrival(std::uint64_t seed) {
  return {.hot = false, .shaken = as_likely_as_not(seed), .damp = true};
}

Triggers after_heat(Triggers now, double hottest_C, double ambient_C) {
  constexpr double soaked_K = 60.0, cooled_K = 8.0;
  const double above_K = hottest_C - ambient_C;
  now.hot = above_K >= soaked_K || (now.hot && above_K > cooled_K);
  return now;
}

Triggers after_disturbance(Triggers now) {
  now.shaken = !now.shaken;
  return now;
}

Triggers after_crank(Triggers now, std::uint64_t seed, int crank) {
  now.shaken = as_likely_as_not(seed + 1 + static_cast<std::uint64_t>(crank));
  return now;
}

Triggers after_wait(Triggers now, double wait_s) {
  constexpr double drying_s = 3600.0;
  return wait_s >= drying_s ? dried(now) : now;
}

Triggers dried(Triggers now) {
  now.damp = false;
  return now;
}

RigParameters parameters_now(const RigParameters& healthy, std::span<const HiddenFault> faults, const Triggers& now) {
  RigParameters parameters = healthy;
  for (const HiddenFault& hidden : faults) {
    const Fault* fault = fault_named(hidden.id);
    if (fault != nullptr && holds(hidden.when, now)) parameters = with_fault(parameters, *fault, hidden.severity);
  }
  return parameters;
}

RigParameters with_triggers(RigParameters vehicle, const RigParameters& healthy, std::span<const HiddenFault> faults,
                            const Triggers& now) {
  for (const HiddenFault& hidden : faults) {
    const Fault* fault = fault_named(hidden.id);
    if (fault == nullptr || hidden.when == When::always) continue;
    const RigParameters at_present = holds(hidden.when, now) ? with_fault(healthy, *fault, hidden.severity) : healthy;
    for (const ParameterEdit& edit : fault->edits) {
      const Settable* settable = settable_at(edit.path);
      settable->in(vehicle) = settable->value_in(at_present);
    }
  }
  return vehicle;
}

std::vector<HiddenFault> still_hidden(std::span<const HiddenFault> faults, std::span<const std::string> repairs_done) {
  std::vector<HiddenFault> left;
  std::copy_if(faults.begin(), faults.end(), std::back_inserter(left), [&](const HiddenFault& hidden) {
    const Fault* fault = fault_named(hidden.id);
    return fault != nullptr && !is_mended(*fault, repairs_done);
  });
  return left;
}

}  // namespace voltfall
