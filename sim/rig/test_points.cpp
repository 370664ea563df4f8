#include "rig/test_points.h"

#include <algorithm>

namespace voltfall {
namespace {

constexpr std::array<std::string_view, test_point_count> point_ids{"battery_positive_post",
                                                                   "positive_clamp",
                                                                   "relay_battery_lug",
                                                                   "relay_battery_stud",
                                                                   "relay_motor_stud",
                                                                   "relay_motor_lug",
                                                                   "starter_lug",
                                                                   "starter_terminal",
                                                                   "starter_case",
                                                                   "engine_block",
                                                                   "block_lug",
                                                                   "negative_clamp",
                                                                   "negative_post",
                                                                   "fusible_link_out",
                                                                   "ignition_feed",
                                                                   "ignition_start_output",
                                                                   "neutral_switch_output",
                                                                   "s_wire_end",
                                                                   "s_terminal",
                                                                   "relay_case",
                                                                   "body",
                                                                   "strap_body_lug",
                                                                   "strap_block_lug",
                                                                   "i_terminal",
                                                                   "ignition_coil_feed",
                                                                   "lamp_switch_output",
                                                                   "headlamp_feed",
                                                                   "headlamp_ground",
                                                                   "dash_feed",
                                                                   "alternator_output"};

constexpr std::array<std::string_view, heavy_cable_count> cable_ids{"positive", "starter", "negative", "body_strap"};

}  // namespace

std::string_view id_of(TestPoint point) {
  return point_ids[static_cast<std::size_t>(point)];
}

int number_of(TestPoint point) {
  return static_cast<int>(point) + 1;
}

std::optional<TestPoint> test_point_named(std::string_view id) {
  const auto found = std::find(point_ids.begin(), point_ids.end(), id);
  if (found == point_ids.end()) return std::nullopt;
  return static_cast<TestPoint>(found - point_ids.begin());
}

std::optional<TestPoint> test_point_numbered(int number) {
  if (number < 1 || number > static_cast<int>(test_point_count)) return std::nullopt;
  return static_cast<TestPoint>(number - 1);
}

const std::array<TestPoint, test_point_count>& all_test_points() {
  static const std::array<TestPoint, test_point_count> points = [] {
    std::array<TestPoint, test_point_count> all{};
    for (std::size_t i = 0; i < test_point_count; ++i) all[i] = static_cast<TestPoint>(i);
    return all;
  }();
  return points;
}

std::string_view id_of(HeavyCable cable) {
  return cable_ids[static_cast<std::size_t>(cable)];
}

std::optional<HeavyCable> heavy_cable_named(std::string_view id) {
  const auto found = std::find(cable_ids.begin(), cable_ids.end(), id);
  if (found == cable_ids.end()) return std::nullopt;
  return static_cast<HeavyCable>(found - cable_ids.begin());
}

}  // namespace voltfall
