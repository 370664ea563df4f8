#include <cmath>

#include "instruments/places.h"
#include "session/outcomes.h"
#include "session/session.h"

// What is hung across the circuit and taken off again, and what that means for safety.

namespace voltfall {
namespace {

Outcome refused(std::string_view id) {
  return {false, std::string(id)};
}

double minutes_to_hang(Device device) {
  switch (device) {
    case Device::load_tester:
      return job_minutes::load_tester_hung;
    case Device::test_lamp:
      return job_minutes::test_lamp_hung;
    case Device::remote_switch:
      return job_minutes::remote_switch_hung;
    case Device::fused_jumper:
      return job_minutes::jumper_hung;
    case Device::booster_pack:
      return job_minutes::booster_hung;
    case Device::heavy_lead_1:
    case Device::heavy_lead_2:
      break;
  }
  return job_minutes::heavy_lead_hung;
}

bool is_heavy_lead(Device device) {
  return device == Device::heavy_lead_1 || device == Device::heavy_lead_2;
}

}  // namespace

Outcome Session::carry_out(const HangDevice& action) {
  const Hung& hung = action.hung;
  if (!has_kit(kit_of(hung.device))) return refused(outcome::not_in_kit);
  if (!may_hang(hung)) return refused(outcome::wrong_points);
  const bool feeds = hung.device == Device::fused_jumper && bypasses_key(hung);
  if (feeds && controls_.starter_off) return refused(outcome::starter_is_off);
  Outcome outcome = judge_hanging(hung);
  // A heavy lead across the studs or from + to ground is struck off again by its own arc.
  const bool stays = outcome.id != outcome::studs_bridged && outcome.id != outcome::battery_shorted;
  double minutes = minutes_to_hang(hung.device);
  if (is_behind_dash(hung.first) || is_behind_dash(hung.last)) {
    minutes += access_minutes(Access::behind_dash, job_minutes::behind_dash);
  }
  log_.add("hang", std::string(id_of(hung.device)), minutes, true);
  if (feeds && !devices_.jumper_fuse_blown()) {
    if (Outcome fed = feed_starter(true); !fed.id.empty()) outcome = fed;
  }
  if (stays) devices_.hang(hung);
  switched();
  return outcome;
}

Outcome Session::judge_hanging(const Hung& hung) {
  constexpr double sparks_from_V = 0.5;  // between the last clip and what it touches; from memory
  Outcome outcome;
  const bool at_battery = is_at_battery(hung.first) || is_at_battery(hung.last);
  const bool eyes = hung.device == Device::load_tester || hung.device == Device::booster_pack || at_battery;
  if (eyes) outcome = require_eye_protection();
  const auto mark = [&](MarkKind kind, std::string_view id) {
    log_.mark(kind, id);
    outcome.id = id;
  };
  const Readings& now = rig_.readings();
  const bool live = battery_is_live();
  const double volts = live ? std::abs(now.volts_at(hung.first) - now.volts_at(hung.last)) : 0.0;
  const bool last_sparks = is_at_battery(hung.last) && volts > sparks_from_V;
  const bool across_contacts = joins(hung, is_heavy_supply, is_motor_side);
  const bool across_battery = joins(hung, is_heavy_supply, is_heavy_ground);
  if (is_heavy_lead(hung.device)) {
    if (live && across_contacts) {
      mark(MarkKind::critical, outcome::studs_bridged);
    } else if (live && across_battery) {
      mark(MarkKind::critical, outcome::battery_shorted);
    } else if (last_sparks) {
      mark(MarkKind::critical, outcome::spark_at_battery);
    }
  } else if (hung.device == Device::fused_jumper) {
    if (live && across_contacts) mark(MarkKind::slip, outcome::jumper_on_heavy_studs);
    if (last_sparks) mark(MarkKind::critical, outcome::spark_at_battery);
  } else if (hung.device == Device::load_tester) {
    if (devices_.load_tester().turned_up()) mark(MarkKind::critical, outcome::spark_at_battery);
  } else if (hung.device == Device::booster_pack) {
    if (is_at_battery(hung.last)) mark(MarkKind::critical, outcome::spark_at_battery);
    if (const auto hazard = charge_hazard(); !hazard.empty()) mark(MarkKind::critical, hazard);
  }
  return outcome;
}

Outcome Session::carry_out(const TakeDeviceOff& action) {
  if (devices_.place_of(action.device) == nullptr) return refused(outcome::not_hung);
  Outcome outcome;
  if (action.device == Device::load_tester && devices_.load_tester().turned_up()) {
    log_.mark(MarkKind::critical, outcome::spark_at_battery);
    outcome.id = outcome::spark_at_battery;
  }
  const bool was_fed = starter_fed();
  devices_.take_off(action.device);
  if (was_fed && !starter_fed()) stop_feeding();
  switched();
  return outcome;
}

Outcome Session::carry_out(const PressRemote& action) {
  if (!has_kit(Kit::remote_switch)) return refused(outcome::not_in_kit);
  if (devices_.place_of(Device::remote_switch) == nullptr) return refused(outcome::not_hung);
  if (action.pressed == devices_.remote_pressed()) return {};
  if (action.pressed && controls_.starter_off) return refused(outcome::starter_is_off);
  const bool was_fed = starter_fed();
  Outcome outcome = action.pressed ? feed_starter(true) : Outcome{};
  devices_.press_remote(action.pressed);
  if (was_fed && !starter_fed()) stop_feeding();
  switched();
  return outcome;
}

Outcome Session::carry_out(const TurnLoadTester& action) {
  if (!has_kit(Kit::load_tester)) return refused(outcome::not_in_kit);
  if (!(action.amps >= 0.0 && action.amps <= LoadTester::most_A)) return refused(outcome::no_such_load);
  devices_.load_tester().turn_to(action.amps);
  switched();
  return {};
}

Outcome Session::carry_out(const BridgeStuds& /*action*/) {
  constexpr double sparks_for_s = 0.3;
  if (!battery_is_live()) return {};
  log_.mark(MarkKind::critical, outcome::studs_bridged);
  if (!controls_.starter_off) {
    feed_starter(true);
    bridged_until_step_ = step_count_ + static_cast<std::uint64_t>(std::lround(sparks_for_s / step_s));
  }
  log_.add("hands", "bridge_studs", 0.0, true);
  switched();
  return {true, std::string(outcome::studs_bridged)};
}

Outcome Session::carry_out(const ReplaceFuse& action) {
  const bool meter = action.in == Kit::multimeter;
  if (!has_kit(action.in)) return refused(outcome::not_in_kit);
  const bool blown = meter                            ? meter_.fuse_blown()
                     : action.in == Kit::fused_jumper ? devices_.jumper_fuse_blown()
                                                      : false;
  if (!blown) return refused(outcome::fuse_is_whole);
  if (meter) {
    meter_.put_red(std::nullopt);  // it is opened on the bench, leads off
    meter_.put_black(std::nullopt);
    meter_.replace_fuses();
  } else {
    devices_.take_off(Device::fused_jumper);
    devices_.replace_jumper_fuse();
  }
  const double price = meter ? job_money::meter_fuse : job_money::jumper_fuse;
  log_.add("hands", "replace_fuse", job_minutes::fuse_replaced, true, price);
  switched();
  return {};
}

}  // namespace voltfall
