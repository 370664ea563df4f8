#pragma once

#include "session/session.h"

namespace voltfall {

/// A manual gearbox: no park, a clutch pedal.
bool is_manual(const Scenario& scenario);
inline bool is_manual(const Session& session) {
  return is_manual(session.scenario());
}

/// The switch that keeps it from starting in gear, and where it stands: in the feed of S, or between the relay's case
/// and the body.
enum class StartSwitch { neutral, clutch, clutch_in_coil_ground };
StartSwitch start_switch_of(const Scenario& scenario);

}  // namespace voltfall
