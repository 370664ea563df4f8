#include "scenario/scenario.h"

namespace voltfall {

std::map<std::string, Limit> limits_of(const VehicleType* type) {
  std::map<std::string, Limit> limits;
  for (const LimitKey& key : all_limit_keys()) {
    limits[std::string(key.id)] = {key.lowest, key.highest, key.from_A, key.to_A};
  }
  if (type == nullptr) return limits;
  for (const TypeLimit& own : type->limits) {
    Limit& limit = limits[std::string(own.key)];
    limit.lowest = own.lowest;
    limit.highest = own.highest;
  }
  return limits;
}

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
