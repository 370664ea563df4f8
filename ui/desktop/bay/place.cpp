#include "desktop/bay/place.h"

#include <cmath>

namespace voltfall {
namespace {

using enum TestPoint;

// In the order of TestPoint.
const std::array<PointPlace, test_point_count> places{{
    {{198, 160}, {188, 192}},  // battery_positive_post
    {{156, 174}, {172, 203}},  // positive_clamp
    {{326, 98}, {354, 130}},   // relay_battery_lug
    {{378, 180}, {372, 130}},  // relay_battery_stud
    {{506, 180}, {512, 130}},  // relay_motor_stud
    {{560, 98}, {530, 130}},   // relay_motor_lug
    {{620, 396}, {566, 410}},  // starter_lug
    {{506, 404}, {544, 418}},  // starter_terminal
    {{516, 462}, {516, 462}},  // starter_case
    {{430, 330}, {430, 330}},  // engine_block
    {{326, 416}, {362, 384}},  // block_lug
    {{112, 174}, {92, 203}},   // negative_clamp
    {{68, 160}, {76, 192}},    // negative_post
    {{336, 54}, {356, 30}},    // fusible_link_out
    {{818, 50}, {846, 60}},    // ignition_feed
    {{818, 98}, {846, 90}},    // ignition_start_output
    {{846, 268}, {812, 288}},  // neutral_switch_output
    {{396, 52}, {424, 78}},    // s_wire_end
    {{390, 90}, {424, 94}},    // s_terminal
    {{442, 190}, {442, 166}},  // relay_case
    {{274, 76}, {274, 76}},    // body
    {{744, 136}, {714, 158}},  // strap_body_lug
    {{690, 232}, {636, 252}},  // strap_block_lug
    {{498, 88}, {462, 94}},    // i_terminal
    {{676, 94}, {642, 86}},    // ignition_coil_feed
    {{818, 146}, {848, 146}},  // lamp_switch_output
    {{146, 52}, {116, 58}},    // headlamp_feed
    {{146, 100}, {116, 86}},   // headlamp_ground
    {{818, 196}, {848, 200}},  // dash_feed
    {{252, 226}, {288, 234}},  // alternator_output
}};

const ImVec2 positive_run[] = {{182, 203}, {230, 206}, {226, 176}, {240, 154}, {258, 126}, {300, 130}, {354, 130}};
const ImVec2 starter_run[] = {{530, 130}, {572, 130}, {586, 150}, {586, 196}, {586, 260},
                              {586, 290}, {586, 340}, {586, 380}, {584, 402}, {566, 410}};
const ImVec2 negative_run[] = {{84, 203}, {30, 204},  {22, 226},  {22, 270},  {22, 330},
                               {40, 372}, {120, 380}, {200, 388}, {280, 390}, {362, 384}};
const ImVec2 strap_run[] = {{714, 158}, {714, 190}, {684, 196}, {668, 210}, {654, 222}, {644, 236}, {636, 252}};

const std::array crowded{
    CrowdedPlace{battery_positive_post, positive_clamp, {184, 198}, 20, true},
    CrowdedPlace{negative_post, negative_clamp, {80, 198}, 20, true},
    CrowdedPlace{relay_battery_stud, relay_battery_lug, {364, 130}, 19, false},
    CrowdedPlace{relay_motor_stud, relay_motor_lug, {521, 130}, 19, false},
    CrowdedPlace{starter_terminal, starter_lug, {556, 412}, 20, false},
};

const std::array small_components{
    ComponentPlace{"positive_clamp", {164, 182, 48, 28}},
    ComponentPlace{"negative_clamp", {56, 182, 44, 28}},
    ComponentPlace{"relay_battery_stud", {344, 116, 38, 28}},
    ComponentPlace{"relay_motor_stud", {502, 116, 40, 28}},
    ComponentPlace{"s_push_on", {412, 66, 24, 32}},
    ComponentPlace{"relay_bracket", {392, 156, 100, 18}},
    ComponentPlace{"relay", {384, 96, 116, 62}},
    ComponentPlace{"fusible_link", {340, 20, 36, 110}},
    ComponentPlace{"bulkhead_plug", {760, 18, 22, 20}},
    ComponentPlace{"starter_terminal", {532, 396, 46, 28}},
    ComponentPlace{"mounting_face", {632, 414, 30, 84}},
    ComponentPlace{"block_lug", {346, 370, 34, 28}},
    ComponentPlace{"neutral_switch", {790, 278, 40, 26}},
    ComponentPlace{"ignition_switch", {836, 36, 84, 80}},
    ComponentPlace{"cabin_circuits", {838, 186, 44, 28}},
    ComponentPlace{"s_wire", {436, 52, 304, 16}},
};
const std::array large_components{
    ComponentPlace{"starter", {470, 420, 162, 76}},
    ComponentPlace{"battery", {36, 206, 192, 122}},
    ComponentPlace{"alternator", {258, 232, 60, 60}},
    ComponentPlace{"engine", {330, 240, 322, 160}},
};

float distance_to_line(ImVec2 p, ImVec2 a, ImVec2 b) {
  const float dx = b.x - a.x, dy = b.y - a.y;
  const float along = std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy), 0.0F, 1.0F);
  return std::hypot(p.x - a.x - along * dx, p.y - a.y - along * dy);
}

/// The control polygon lies close enough to the cable for pointing at it.
bool on_cable(ImVec2 p, HeavyCable cable) {
  const auto run = run_of(cable);
  for (std::size_t i = 1; i < run.size(); ++i) {
    if (distance_to_line(p, run[i - 1], run[i]) < 9) return true;
  }
  return false;
}

constexpr std::array<std::string_view, heavy_cable_count> cable_components{"positive_cable", "starter_cable",
                                                                           "negative_cable", "body_strap"};

/// A pedal's switch stands where an automatic has the neutral switch, or between the relay's case and the body: then
/// nothing but wire is left there.
std::string_view as_fitted(std::string_view component, StartSwitch fitted) {
  if (component != "neutral_switch" || fitted == StartSwitch::neutral) return component;
  return fitted == StartSwitch::clutch ? "clutch_switch" : "s_wire";
}

const ComponentPlace ground_switch{"clutch_switch", {450, 200, 40, 24}};

}  // namespace

PointPlace place_of(TestPoint point) {
  return places[static_cast<std::size_t>(point)];
}

std::span<const ImVec2> run_of(HeavyCable cable) {
  switch (cable) {
    case HeavyCable::positive:
      return positive_run;
    case HeavyCable::starter:
      return starter_run;
    case HeavyCable::negative:
      return negative_run;
    case HeavyCable::body_strap:
      return strap_run;
  }
  return {};
}

ImVec2 jaw_place(HeavyCable cable) {
  static const std::array<ImVec2, heavy_cable_count> jaws{{{300, 130}, {586, 270}, {26, 312}, {684, 198}}};
  return jaws[static_cast<std::size_t>(cable)];
}

std::span<const CrowdedPlace> crowded_places() {
  return crowded;
}

std::optional<std::string_view> component_at(ImVec2 drawing_place, StartSwitch fitted) {
  const bool in_coil_ground = fitted == StartSwitch::clutch_in_coil_ground;
  if (in_coil_ground && ground_switch.where.holds(drawing_place)) return ground_switch.component;
  for (const ComponentPlace& place : small_components) {
    if (place.where.holds(drawing_place)) return as_fitted(place.component, fitted);
  }
  for (std::size_t i = 0; i < heavy_cable_count; ++i) {
    if (on_cable(drawing_place, static_cast<HeavyCable>(i))) return cable_components[i];
  }
  for (const ComponentPlace& place : large_components) {
    if (place.where.holds(drawing_place)) return place.component;
  }
  return std::nullopt;
}

std::optional<std::string_view> component_of(TestPoint point, StartSwitch fitted) {
  // Empty where there is nothing to look at that the catalogue knows.
  constexpr std::array<std::string_view, test_point_count> owners{"battery",
                                                                  "positive_clamp",
                                                                  "relay_battery_stud",
                                                                  "relay_battery_stud",
                                                                  "relay_motor_stud",
                                                                  "relay_motor_stud",
                                                                  "starter_terminal",
                                                                  "starter_terminal",
                                                                  "mounting_face",
                                                                  "mounting_face",
                                                                  "block_lug",
                                                                  "negative_clamp",
                                                                  "battery",
                                                                  "fusible_link",
                                                                  "ignition_switch",
                                                                  "ignition_switch",
                                                                  "neutral_switch",
                                                                  "s_push_on",
                                                                  "s_push_on",
                                                                  "relay_bracket",
                                                                  "body_strap",
                                                                  "body_strap",
                                                                  "body_strap",
                                                                  "relay",
                                                                  "",
                                                                  "",
                                                                  "",
                                                                  "",
                                                                  "cabin_circuits",
                                                                  "alternator"};
  const std::string_view owner = owners[static_cast<std::size_t>(point)];
  return owner.empty() ? std::nullopt : std::optional(as_fitted(owner, fitted));
}

}  // namespace voltfall
