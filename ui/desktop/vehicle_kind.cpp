#include "desktop/vehicle_kind.h"

namespace voltfall {

bool is_manual(const Scenario& scenario) {
  return scenario.healthy.control.clutch_switch > 0.5;
}

}  // namespace voltfall
