#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

#include "job/findings.h"
#include "rig/controls.h"
#include "rig/parameters.h"

namespace voltfall {

/// A state of the vehicle in which every fault is simulated once: what a reading, a sound or a look is predicted for.
/// A finding taken in any other state (in gear, with two things hung on at once) tells a competent person nothing that
/// could be held against a limit.
enum class Condition {
  rest,
  rest_lamps,
  key_on,
  cranking,
  cranking_lamps,
  cranking_other_gear,  ///< automatic gearbox only: neutral in place of park
  remote_start,         ///< the remote switch from the relay's battery stud to its S terminal
  case_jumped,          ///< cranking with the relay's case jumped to the engine block
  ground_lead,          ///< cranking with a heavy lead from the starter's case to battery -
  feed_lead,            ///< cranking with a heavy lead from battery + to the relay's battery stud
  belt_off,             ///< cranking
  plugs_out,            ///< cranking
  power_off,            ///< negative clamp off: ohms
  load_test,
  bench
};
inline constexpr std::size_t condition_count = 15;

std::span<const Condition> all_conditions();
std::string_view id_of(Condition condition);

bool is_cranking(Condition condition);

/// How the vehicle is switched in a condition: a safe person's hands on an automatic or a manual gearbox.
Controls controls_in(Condition condition, const RigParameters& parameters);

/// The condition a finding was taken in; empty when it is none of them.
std::optional<Condition> condition_of(const Finding& finding, const RigParameters& parameters);

/// What has to be hung on the vehicle; empty for most.
std::optional<Hung> hung_in(Condition condition);

/// False where the vehicle has no such state: another gear that starts, on a manual gearbox.
bool exists_on(Condition condition, const RigParameters& parameters);

}  // namespace voltfall
