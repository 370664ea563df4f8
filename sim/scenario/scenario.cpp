#include "scenario/scenario.h"

namespace voltfall {

RigParameters Scenario::faulty() const {
  return parameters_now(healthy, faults, {.hot = true, .shaken = true, .damp = true});
}

RigParameters Scenario::typical_faulty() const {
  return parameters_now(typical, faults, {.hot = true, .shaken = true, .damp = true});
}

}  // namespace voltfall
