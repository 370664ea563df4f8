#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "rig/parameters.h"

namespace voltfall {

/// A limit that this type's manual prints in place of the usual one: in the unit of its limit key; 0 for an end that it
/// does not have.
struct TypeLimit {
  std::string_view key;  ///< id of a limit key
  double lowest, highest;
};

/// What a heavy joint is tightened to.
struct JointTorque {
  std::string_view component;  ///< of the catalogue
  double Nm;
};

/// One line of the service sheet's capacities.
struct Capacity {
  std::string_view id;  ///< wording under `capacity.`
  double amount;
  std::string_view unit;
};

/// A type of vehicle, all of them invented: the healthy model, and what its service sheet prints. Its gearbox is
/// `gearbox_of(healthy)`.
struct VehicleType {
  std::string_view id;    ///< for example `pickup_v8`, as scenario files name it
  std::string_view name;  ///< for the title block
  RigParameters healthy;
  std::vector<TypeLimit> limits;  ///< those that differ from the usual
  std::vector<JointTorque> torques;
  std::vector<Capacity> capacities;
};

/// The one that a scenario gets when it names none comes first.
std::span<const VehicleType> all_vehicle_types();

/// Null when there is none of that id.
const VehicleType* vehicle_type_named(std::string_view id);

}  // namespace voltfall
