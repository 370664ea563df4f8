#pragma once

#include "rig/test_points.h"

namespace voltfall {

// What a test point is for the hand that clips something on.

bool is_positive_post(TestPoint point);
bool is_negative_post(TestPoint point);
/// A post or its clamp: where a spark has gas to light.
bool is_at_battery(TestPoint point);
/// Straight from battery + by heavy metal, before the relay's contacts.
bool is_heavy_supply(TestPoint point);
/// Between the relay's contacts and the starter's windings.
bool is_motor_side(TestPoint point);
/// Thick metal that goes back to battery -, the body among it.
bool is_heavy_ground(TestPoint point);
/// One of the above: somewhere a big clip can grip.
bool is_heavy(TestPoint point);
/// Behind the dash: the panel has to come off first.
bool is_behind_dash(TestPoint point);
/// Live from battery + whatever the key does.
bool is_supply_side(TestPoint point);
/// On the way from the start contact to the relay's coil.
bool is_relay_coil_feed(TestPoint point);

}  // namespace voltfall
