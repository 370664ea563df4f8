#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "faults/catalogue.h"
#include "support/cranks.h"
#include "support/noticed.h"
#include "vehicles/vehicle_types.h"

// Every fault of the catalogue, at its usual severity, on every vehicle that can have it: something that a learner can
// read, hear or see is not as on the healthy one.

namespace voltfall {
namespace {

const Noticed& healthy_on(const VehicleType& type) {
  static std::map<std::string_view, Noticed> known;
  const auto found = known.find(type.id);
  return found != known.end() ? found->second : known.emplace(type.id, noticed_of(type.healthy)).first->second;
}

/// In any of the conditions it was listened to in.
bool heard(const Noticed& noticed, std::string_view sign) {
  return std::any_of(noticed.heard.begin(), noticed.heard.end(),
                     [&](const std::string& words) { return words.ends_with(sign); });
}

class EveryFaultOnItsVehicles : public ::testing::TestWithParam<std::string_view> {};

TEST_P(EveryFaultOnItsVehicles, ShowsItself) {
  const Fault& fault = *fault_named(GetParam());
  int vehicles = 0;
  for (const VehicleType& type : all_vehicle_types()) {
    if (!fault.can_be_on(type.healthy)) continue;
    if (checked_build && vehicles == 1) break;
    ++vehicles;
    const Noticed faulty = noticed_of(with_fault(type.healthy, fault, fault.usual));
    const auto differs = differences(faulty, healthy_on(type));
    EXPECT_FALSE(differs.empty()) << fault.id << " on " << type.id;
    // Where no pair of points reaches the part, one of its signs has to be heard.
    if (fault.proof.empty() && vehicles == 1) {
      EXPECT_TRUE(std::any_of(fault.signs.begin(), fault.signs.end(),
                              [&](std::string_view sign) { return heard(faulty, sign); }))
          << fault.id << " on " << type.id;
    }
  }
  EXPECT_GT(vehicles, 0) << fault.id << " can be on no vehicle";
}

std::vector<std::string_view> fault_ids() {
  std::vector<std::string_view> ids;
  constexpr std::size_t every = checked_build ? 4 : 1;
  for (std::size_t i = 0; i < all_faults().size(); i += every) ids.push_back(all_faults()[i].id);
  return ids;
}

INSTANTIATE_TEST_SUITE_P(Catalogue, EveryFaultOnItsVehicles, ::testing::ValuesIn(fault_ids()),
                         [](const auto& info) { return std::string(info.param); });

}  // namespace
}  // namespace voltfall
