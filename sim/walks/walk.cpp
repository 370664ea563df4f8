#include "walks/walk.h"

#include <array>

namespace voltfall {
namespace {

template <typename Kind, std::size_t count>
std::string_view name_in(const std::array<std::string_view, count>& names, Kind kind) {
  return names[static_cast<std::size_t>(kind)];
}

}  // namespace

std::string_view id_of(WalkGroup group) {
  constexpr std::array<std::string_view, 2> names{"circuit", "starter"};
  return name_in(names, group);
}

std::string_view id_of(WalkPageKind kind) {
  constexpr std::array<std::string_view, 4> names{"predict", "see", "explain", "unlike"};
  return name_in(names, kind);
}

std::string_view id_of(WalkView view) {
  constexpr std::array<std::string_view, 3> names{"engage", "volts", "threshold"};
  return name_in(names, view);
}

std::string_view id_of(WalkAgainst against) {
  constexpr std::array<std::string_view, 3> names{"nothing", "ratio", "difference"};
  return name_in(names, against);
}

RigParameters set_up(const VehicleType& vehicle, const WalkSetup& setup) {
  RigParameters parameters = vehicle.healthy;
  for (const WalkSetting& setting : setup.settings) setting.settable->in(parameters) = setting.value;
  for (const WalkFault& fault : setup.faults) parameters = with_fault(parameters, *fault.fault, fault.severity);
  return parameters;
}

}  // namespace voltfall
