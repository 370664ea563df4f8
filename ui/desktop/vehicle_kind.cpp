#include "desktop/vehicle_kind.h"

namespace voltfall {

bool is_manual(const Scenario& scenario) {
  return gearbox_of(scenario.healthy) == Gearbox::manual;
}

StartSwitch start_switch_of(const Scenario& scenario) {
  if (!is_manual(scenario)) return StartSwitch::neutral;
  const bool in_coil_ground = scenario.healthy.control.neutral_switch_in_coil_ground > 0.5;
  return in_coil_ground ? StartSwitch::clutch_in_coil_ground : StartSwitch::clutch;
}

}  // namespace voltfall
