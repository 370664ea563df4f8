#include "instruments/hung_devices.h"

#include <algorithm>
#include <cmath>

#include "electrical/lamp.h"
#include "instruments/places.h"

namespace voltfall {
namespace {

constexpr double test_lamp_W = 5.0;
// From memory, for things of the usual size.
constexpr double jumper_ohm = 0.02, remote_switch_ohm = 0.02, heavy_lead_ohm = 1.0e-3;
constexpr double booster_V = 12.6, booster_ohm = 0.008;

}  // namespace

bool joins(const Hung& hung, bool (*one)(TestPoint), bool (*other)(TestPoint)) {
  return (one(hung.first) && other(hung.last)) || (one(hung.last) && other(hung.first));
}

bool bypasses_key(const Hung& hung) {
  return joins(hung, is_supply_side, is_relay_coil_feed);
}

bool may_hang(const Hung& hung) {
  if (hung.first == hung.last) return false;
  switch (hung.device) {
    case Device::load_tester:
      return joins(hung, is_positive_post, is_negative_post);
    case Device::remote_switch:
      return joins(hung, is_supply_side, is_relay_coil_feed);
    case Device::booster_pack:
      return joins(hung, is_heavy_supply, is_heavy_ground);
    case Device::heavy_lead_1:
    case Device::heavy_lead_2:
      return is_heavy(hung.first) && is_heavy(hung.last);
    case Device::test_lamp:
    case Device::fused_jumper:
      break;
  }
  return true;
}

void HungDevices::hang(const Hung& hung) {
  take_off(hung.device);
  const auto after = [&](const Hung& other) { return other.device > hung.device; };
  hung_.insert(std::find_if(hung_.begin(), hung_.end(), after), hung);
}

void HungDevices::take_off(Device device) {
  hung_.erase(std::remove_if(hung_.begin(), hung_.end(), [&](const Hung& hung) { return hung.device == device; }),
              hung_.end());
  if (device == Device::load_tester) load_tester_.start_over();
  if (device == Device::remote_switch) remote_pressed_ = false;
  if (device == Device::test_lamp) {
    filament_V_ = filament_in_branch_V_ = 0.0;
    lamp_V_.start_over();
  }
}

const Hung* HungDevices::place_of(Device device) const {
  const auto found = std::find_if(hung_.begin(), hung_.end(), [&](const Hung& hung) { return hung.device == device; });
  return found == hung_.end() ? nullptr : &*found;
}

void HungDevices::add_branches(std::vector<AttachedBranch>& branches) const {
  for (const Hung& hung : hung_) {
    switch (hung.device) {
      case Device::load_tester:
        branches.push_back(load_tester_.branch(hung.first, hung.last));
        break;
      case Device::test_lamp:
        branches.push_back({hung.first, hung.last, lamp_ohm(test_lamp_W, filament_in_branch_V_)});
        break;
      case Device::remote_switch:
        if (remote_pressed_) branches.push_back({hung.first, hung.last, remote_switch_ohm});
        break;
      case Device::fused_jumper:
        if (!jumper_fuse_.blown()) branches.push_back({hung.first, hung.last, jumper_ohm});
        break;
      case Device::booster_pack: {
        const bool red_first = is_heavy_supply(hung.first);
        const TestPoint red = red_first ? hung.first : hung.last;
        branches.push_back({red, red_first ? hung.last : hung.first, booster_ohm, booster_V / booster_ohm});
        break;
      }
      case Device::heavy_lead_1:
      case Device::heavy_lead_2:
        branches.push_back({hung.first, hung.last, heavy_lead_ohm});
        break;
    }
  }
}

bool HungDevices::feeds_relay_coil() const {
  if (hung_.empty()) return remote_pressed_;
  const Hung* jumper = place_of(Device::fused_jumper);
  return remote_pressed_ || (jumper != nullptr && !jumper_fuse_.blown() && bypasses_key(*jumper));
}

double HungDevices::volts_across(const Hung& hung, const Readings& readings) const {
  return readings.volts_at(hung.first) - readings.volts_at(hung.last);
}

bool HungDevices::watch(const Readings& readings, double dt_s) {
  if (hung_.empty()) return false;
  if (const Hung* tester = place_of(Device::load_tester)) {
    const double turned_round = is_positive_post(tester->first) ? 1.0 : -1.0;
    load_tester_.watch(turned_round * volts_across(*tester, readings), readings.time_s, dt_s);
  }
  if (const Hung* lamp = place_of(Device::test_lamp)) {
    const double lamp_V = volts_across(*lamp, readings);
    filament_V_ = filament_after_V(filament_V_, lamp_V, dt_s);
    lamp_V_.add(filament_V_, readings.time_s, dt_s);
    if (std::abs(filament_V_ - filament_in_branch_V_) > 0.02 * (filament_in_branch_V_ + 0.1)) {
      filament_in_branch_V_ = filament_V_;
    }
  }
  const Hung* jumper = place_of(Device::fused_jumper);
  return jumper != nullptr && jumper_fuse_.carry(volts_across(*jumper, readings) / jumper_ohm, dt_s);
}

double HungDevices::lamp_light() const {
  return std::min(voltfall::lamp_light(filament_V_), 1.0);
}

}  // namespace voltfall
