#include "scenario/scenario.h"

namespace voltfall {

std::string_view id_of(Level level) {
  switch (level) {
    case Level::guided:
      return "guided";
    case Level::plain:
      return "plain";
    case Level::test:
      return "test";
  }
  return {};
}

RigParameters Scenario::faulty() const {
  return parameters_now(healthy, faults, {.hot = true, .shaken = true, .damp = true});
}

RigParameters Scenario::typical_faulty() const {
  return parameters_now(typical, faults, {.hot = true, .shaken = true, .damp = true});
}

}  // namespace voltfall
