#pragma once

#include "session/session.h"

namespace voltfall {

/// A manual gearbox: no park, a clutch pedal.
bool is_manual(const Scenario& scenario);
inline bool is_manual(const Session& session) {
  return is_manual(session.scenario());
}

}  // namespace voltfall
