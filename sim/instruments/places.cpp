#include "instruments/places.h"

namespace voltfall {

using enum TestPoint;

bool is_positive_post(TestPoint point) {
  return point == battery_positive_post;
}

bool is_negative_post(TestPoint point) {
  return point == negative_post;
}

bool is_at_battery(TestPoint point) {
  return point == battery_positive_post || point == positive_clamp || point == negative_post || point == negative_clamp;
}

bool is_heavy_supply(TestPoint point) {
  return point == battery_positive_post || point == positive_clamp || point == relay_battery_lug ||
         point == relay_battery_stud;
}

bool is_motor_side(TestPoint point) {
  return point == relay_motor_stud || point == relay_motor_lug || point == starter_lug || point == starter_terminal;
}

bool is_heavy_ground(TestPoint point) {
  return point == starter_case || point == engine_block || point == block_lug || point == negative_clamp ||
         point == negative_post || point == body || point == strap_body_lug || point == strap_block_lug ||
         point == relay_case;
}

bool is_heavy(TestPoint point) {
  return is_heavy_supply(point) || is_motor_side(point) || is_heavy_ground(point);
}

bool is_behind_dash(TestPoint point) {
  return point == ignition_feed || point == ignition_start_output || point == dash_feed;
}

bool is_supply_side(TestPoint point) {
  return is_heavy_supply(point) || point == fusible_link_out || point == ignition_feed || point == dash_feed ||
         point == alternator_output;
}

bool is_relay_coil_feed(TestPoint point) {
  return point == ignition_start_output || point == neutral_switch_output || point == s_wire_end || point == s_terminal;
}

}  // namespace voltfall
