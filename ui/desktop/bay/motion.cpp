#include "desktop/bay/motion.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "desktop/bay/caption.h"
#include "desktop/vehicle_kind.h"

namespace voltfall {
namespace {

constexpr double light_follows_in_s = 0.15;  // a chattering lamp shows its mean
constexpr double throw_dies_in_s = 0.12;
constexpr double throws_apart_s = 0.4;  // at most two and a half a second
constexpr double throw_swings_per_s = 9.0;

double towards(double now, double target, double frame_s, double time_s) {
  return now + (target - now) * (1.0 - std::exp(-frame_s / time_s));
}

StrapSeen strap_seen(const Session& session) {
  StrapSeen seen = StrapSeen::hidden;
  for (const Finding& finding : session.findings()) {
    if (finding.kind == Finding::Kind::looked && finding.component == "body_strap") {
      seen = finding.observation == "strap_missing" ? StrapSeen::missing : StrapSeen::fitted;
    }
  }
  const auto& done = session.repairs_done();
  return std::find(done.begin(), done.end(), "fit_body_strap") != done.end() ? StrapSeen::fitted : seen;
}

/// Crust that was found by looking and has not been cleaned off since.
bool crust_seen(const Session& session, std::string_view component) {
  bool seen = false;
  for (const Finding& finding : session.findings()) {
    if (finding.kind != Finding::Kind::looked || finding.component != component) continue;
    const bool nothing_since = finding.repairs_before == static_cast<int>(session.repairs_done().size());
    seen = finding.observation == "crust" && nothing_since;
  }
  return seen;
}

/// A V engine shows one bank, an engine in line all of them.
int cylinders_seen(const EngineParameters& engine) {
  const int count = cylinder_count(engine);
  return count > 6 ? count / 2 : count;
}

}  // namespace

void Motion::follow(const Session& session, const std::vector<RigEvent>& events, double frame_s, bool calm) {
  const Readings& readings = session.rig().readings();
  lamp_light_ = towards(lamp_light_, readings.lamp_light, frame_s, light_follows_in_s);
  const double dash_V = readings.volts_at(TestPoint::dash_feed) - readings.volts_at(TestPoint::body);
  const double dash_full = session.controls().key == KeyPosition::off ? 0.0 : std::clamp(dash_V / 12.6, 0.0, 1.1);
  dash_light_ = towards(dash_light_, std::pow(dash_full, 3.4), frame_s, light_follows_in_s);
  since_throw_s_ += frame_s;
  for (const RigEvent& event : events) {
    const bool surge = event.kind == RigEventKind::relay_closed;
    if (surge && !calm && since_throw_s_ > throws_apart_s) since_throw_s_ = 0.0;
  }
  thrown_ = std::exp(-since_throw_s_ / throw_dies_in_s);
  const bool turning = readings.crank_rpm > 5.0 && !calm;
  rock_ = turning ? std::sin(readings.crank_angle_deg * std::numbers::pi / 90.0) : towards(rock_, 0.0, frame_s, 0.1);
  smoke_ = calm ? 0.0 : std::clamp((readings.winding_C - smoking_C) / 30.0, 0.0, 1.0);
  angle_deg_ = readings.crank_angle_deg;
}

VehicleLook Motion::look(const Session& session) const {
  const Controls& controls = session.controls();
  VehicleLook look;
  look.lamp_light = lamp_light_;
  look.headlamps = controls.headlamps;
  look.dash_light = dash_light_;
  look.crank_angle_deg = angle_deg_;
  look.shake = thrown_ * std::sin(since_throw_s_ * throw_swings_per_s * 2.0 * std::numbers::pi);
  look.rock = rock_;
  look.smoke = smoke_;
  look.key = controls.key;
  look.gear = controls.gear;
  look.battery_connected = controls.battery_connected;
  look.strap = strap_seen(session);
  look.positive_crust = crust_seen(session, "positive_clamp");
  look.negative_crust = crust_seen(session, "negative_clamp");
  look.s_wire_on = controls.s_wire_on;
  look.belt_off = controls.belt_off;
  look.plugs_out = controls.plugs_out;
  look.starter_off = session.starter_off();
  look.moved = session.vehicle_moved();
  look.manual_gearbox = is_manual(session);
  look.switch_in_coil_ground = start_switch_of(session.scenario()) == StartSwitch::clutch_in_coil_ground;
  look.clutch_pedal_down = controls.clutch_pedal_down;
  look.cylinders_seen = cylinders_seen(session.scenario().healthy.engine);
  look.rated_CCA_A = session.scenario().healthy.battery.rated_CCA_A;
  return look;
}

}  // namespace voltfall
