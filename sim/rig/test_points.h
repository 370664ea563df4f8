#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

namespace voltfall {

/// Every place on the vehicle where a probe can stand, in the order the work order numbers them (1 to 30):
/// first the power path from battery + round to battery -, then the control path, then the body and its loads.
/// Each bolted joint has two points, lug and stud, so that a cable can be told from its joint.
enum class TestPoint {
  battery_positive_post,
  positive_clamp,
  relay_battery_lug,
  relay_battery_stud,
  relay_motor_stud,
  relay_motor_lug,
  starter_lug,
  starter_terminal,
  starter_case,
  engine_block,
  block_lug,
  negative_clamp,
  negative_post,
  fusible_link_out,
  ignition_feed,
  ignition_start_output,
  neutral_switch_output,
  s_wire_end,
  s_terminal,
  relay_case,
  body,
  strap_body_lug,
  strap_block_lug,
  i_terminal,
  ignition_coil_feed,
  lamp_switch_output,
  headlamp_feed,
  headlamp_ground,
  dash_feed,
  alternator_output,
};

inline constexpr std::size_t test_point_count = 30;

/// The id used in files, records and JSON, for example `relay_battery_stud`.
std::string_view id_of(TestPoint point);

/// The number printed on the sheet, 1 to 30.
int number_of(TestPoint point);

/// Empty when no test point has that id.
std::optional<TestPoint> test_point_named(std::string_view id);

/// Empty when the number is not 1 to 30.
std::optional<TestPoint> test_point_numbered(int number);

/// All points in numbered order.
const std::array<TestPoint, test_point_count>& all_test_points();

/// The cables a clamp meter's jaw fits round. Current is positive in the direction battery + -> starter -> battery -.
enum class HeavyCable { positive, starter, negative, body_strap };

inline constexpr std::size_t heavy_cable_count = 4;

std::string_view id_of(HeavyCable cable);
std::optional<HeavyCable> heavy_cable_named(std::string_view id);

}  // namespace voltfall
