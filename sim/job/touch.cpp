#include "job/touch.h"

#include <algorithm>
#include <array>
#include <vector>

#include "instruments/thermometer.h"
#include "mechanical/engine.h"
#include "rig/settable.h"

namespace voltfall {
namespace {

// From memory: one person on a bar of 0.6 m at the crank bolt, with some 500 N.
constexpr double one_person_Nm = 300.0;
constexpr double hard_from = 1.8;  // times the healthy effort at this temperature; less passes for a stiff day

double effort_Nm(const RigParameters& vehicle, double air_C, bool belt_off) {
  const EngineParameters& engine = vehicle.engine;
  const double oil_Nm =
      engine.friction_Nm * friction_effort(air_C) * oil_grade_effort(engine.oil_grade_W, air_C) * engine.oil_effort;
  return oil_Nm + engine.drag_added_Nm + (belt_off ? 0.0 : engine.accessory_drag_Nm);
}

using enum TestPoint;

struct WarmPart {
  std::string_view component;
  std::vector<TestPoint> points;
};

const std::vector<WarmPart>& warm_parts() {
  static const std::vector<WarmPart> table{
      {"positive_clamp", {positive_clamp}},
      {"positive_cable", {relay_battery_lug}},
      {"relay_battery_stud", {relay_battery_stud}},
      {"relay", {relay_case, relay_motor_stud}},
      {"relay_motor_stud", {relay_motor_stud}},
      {"starter_cable", {starter_lug}},
      {"starter_terminal", {starter_terminal}},
      {"starter", {starter_case}},
      {"mounting_face", {engine_block}},
      {"block_lug", {block_lug}},
      {"negative_cable", {negative_clamp}},
      {"negative_clamp", {negative_clamp}},
      {"fusible_link", {fusible_link_out}},
      {"bulkhead_plug", {ignition_feed}},
      {"ignition_switch", {ignition_start_output}},
      {"neutral_switch", {neutral_switch_output}},
      {"s_push_on", {s_terminal}},
      {"relay_bracket", {relay_case}},
      {"body_strap", {strap_body_lug}},
  };
  return table;
}

// Common practice: what a slack nut, clamp or push-on does under the hand.
struct LooseSign {
  std::string_view component, path;
  double gives_from;  ///< how far from healthy before a hand feels it
};
constexpr std::array loose_signs{
    LooseSign{"positive_clamp", "joints.positive_clamp.slack_ohm", 0.002},
    LooseSign{"negative_clamp", "joints.negative_clamp.slack_ohm", 0.002},
    LooseSign{"mounting_face", "joints.mounting_face.slack_ohm", 0.002},
    LooseSign{"relay_battery_stud", "joints.relay_battery_stud.added_ohm", 0.002},
    LooseSign{"relay_motor_stud", "joints.relay_motor_stud.added_ohm", 0.002},
    LooseSign{"starter_terminal", "joints.starter_terminal.added_ohm", 0.002},
    LooseSign{"s_push_on", "control.s_push_on_ohm", 0.3},
};

}  // namespace

std::string_view barred(const RigParameters& now, const RigParameters& healthy, const Controls& controls) {
  const bool open_holes = controls.plugs_out || now.engine.plugs_out > 0.5;
  if (now.engine.liquid_cm3 > 0.0) return open_holes ? "bar_liquid_out" : "bar_stops_solid";
  const double effort = effort_Nm(now, now.ambient_C, controls.belt_off);
  if (effort > one_person_Nm) return "bar_locked";
  if (effort > hard_from * effort_Nm(healthy, now.ambient_C, controls.belt_off)) return "bar_hard";
  return now.engine.weak_cylinder > 0.5 && !open_holes ? "bar_one_soft" : "bar_free";
}

bool bar_turns_it(std::string_view barred) {
  return barred != "bar_locked" && barred != "bar_stops_solid";
}

std::string_view wiggled(std::string_view component, const RigParameters& now, const RigParameters& healthy) {
  for (const LooseSign& sign : loose_signs) {
    const Settable* settable = settable_at(sign.path);
    if (sign.component != component || settable == nullptr) continue;
    if (settable->value_in(now) - settable->value_in(healthy) >= sign.gives_from) return "moves";
  }
  return "firm";
}

std::span<const TestPoint> points_of_part(std::string_view component) {
  const auto& table = warm_parts();
  const auto row =
      std::find_if(table.begin(), table.end(), [&](const WarmPart& part) { return part.component == component; });
  return row == table.end() ? std::span<const TestPoint>() : std::span<const TestPoint>(row->points);
}

double hand_temperature_C(std::string_view component, const PartTemperatures& parts, double air_C) {
  if (component == "battery") return parts.battery_C;
  double hottest_C = air_C;
  for (const TestPoint point : points_of_part(component)) hottest_C = std::max(hottest_C, temperature_at(point, parts));
  return hottest_C;
}

std::string_view felt(double part_C, double air_C) {
  constexpr double noticed_K = 6.0, hot_C = 45.0;  // common practice: hot is what one does not leave the hand on
  if (part_C >= hot_C) return "feels_hot";
  return part_C - air_C >= noticed_K ? "feels_warm" : "feels_cold";
}

}  // namespace voltfall
