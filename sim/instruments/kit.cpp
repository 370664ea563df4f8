#include "instruments/kit.h"

#include <algorithm>

namespace voltfall {
namespace {

constexpr std::array<std::string_view, kit_count> kit_ids{
    "multimeter",   "clamp_meter", "load_tester", "conductance_tester", "hydrometer",   "test_lamp",  "remote_switch",
    "fused_jumper", "thermometer", "tachometer",  "recorder",           "booster_pack", "heavy_leads"};
constexpr std::array<Kit, kit_count> every_kit{
    Kit::multimeter, Kit::clamp_meter,   Kit::load_tester,  Kit::conductance_tester, Kit::hydrometer,
    Kit::test_lamp,  Kit::remote_switch, Kit::fused_jumper, Kit::thermometer,        Kit::tachometer,
    Kit::recorder,   Kit::booster_pack,  Kit::heavy_leads};

struct DeviceRow {
  Device device;
  std::string_view id;
  Kit kit;
};
constexpr std::array<DeviceRow, device_count> device_rows{{
    {Device::load_tester, "load_tester", Kit::load_tester},
    {Device::test_lamp, "test_lamp", Kit::test_lamp},
    {Device::remote_switch, "remote_switch", Kit::remote_switch},
    {Device::fused_jumper, "fused_jumper", Kit::fused_jumper},
    {Device::booster_pack, "booster_pack", Kit::booster_pack},
    {Device::heavy_lead_1, "heavy_lead_1", Kit::heavy_leads},
    {Device::heavy_lead_2, "heavy_lead_2", Kit::heavy_leads},
}};
constexpr std::array<Device, device_count> every_device{
    Device::load_tester,  Device::test_lamp,    Device::remote_switch, Device::fused_jumper,
    Device::booster_pack, Device::heavy_lead_1, Device::heavy_lead_2};

}  // namespace

std::span<const Kit> all_kit() {
  return every_kit;
}

std::string_view id_of(Kit kit) {
  return kit_ids.at(static_cast<std::size_t>(kit));
}

std::optional<Kit> kit_named(std::string_view id) {
  const auto found = std::find(kit_ids.begin(), kit_ids.end(), id);
  return found == kit_ids.end() ? std::nullopt : std::optional(every_kit.at(found - kit_ids.begin()));
}

std::span<const Device> all_devices() {
  return every_device;
}

std::string_view id_of(Device device) {
  return device_rows.at(static_cast<std::size_t>(device)).id;
}

std::optional<Device> device_named(std::string_view id) {
  const auto found =
      std::find_if(device_rows.begin(), device_rows.end(), [&](const DeviceRow& row) { return row.id == id; });
  return found == device_rows.end() ? std::nullopt : std::optional(found->device);
}

Kit kit_of(Device device) {
  return device_rows.at(static_cast<std::size_t>(device)).kit;
}

}  // namespace voltfall
