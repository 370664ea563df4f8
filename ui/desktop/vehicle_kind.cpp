#include "desktop/vehicle_kind.h"

namespace voltfall {

bool is_manual(const Scenario& scenario) {
  return gearbox_of(scenario.healthy) == Gearbox::manual;
}

}  // namespace voltfall
