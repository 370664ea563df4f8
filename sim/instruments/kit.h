#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

#include "rig/test_points.h"

namespace voltfall {

/// Everything a job may allow a learner to use. Eyes, ears, hands and the key are always there.
enum class Kit {
  multimeter,
  clamp_meter,
  load_tester,
  conductance_tester,
  hydrometer,
  test_lamp,
  remote_switch,
  fused_jumper,
  thermometer,
  tachometer,
  recorder,
  booster_pack,
  heavy_leads
};
inline constexpr std::size_t kit_count = 13;

std::span<const Kit> all_kit();
/// The id used in scenario files, records and wording, for example `load_tester`.
std::string_view id_of(Kit kit);
std::optional<Kit> kit_named(std::string_view id);

/// A thing that is hung across two points and stays there until taken off.
enum class Device { load_tester, test_lamp, remote_switch, fused_jumper, booster_pack, heavy_lead_1, heavy_lead_2 };
inline constexpr std::size_t device_count = 7;

std::span<const Device> all_devices();
std::string_view id_of(Device device);
std::optional<Device> device_named(std::string_view id);
Kit kit_of(Device device);

/// Where a device hangs. `last` was connected last: that is where it sparks.
struct Hung {
  Device device = Device::test_lamp;
  TestPoint first = TestPoint::battery_positive_post, last = TestPoint::negative_post;

  bool operator==(const Hung&) const = default;
};

}  // namespace voltfall
