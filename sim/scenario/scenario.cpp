#include "scenario/scenario.h"

#include "faults/catalogue.h"

namespace voltfall {

RigParameters Scenario::faulty() const {
  RigParameters parameters = healthy;
  for (const HiddenFault& hidden : faults) {
    if (const Fault* fault = fault_named(hidden.id)) parameters = with_fault(parameters, *fault, hidden.severity);
  }
  return parameters;
}

}  // namespace voltfall
