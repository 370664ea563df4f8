#pragma once

#include <vector>

#include "rig/test_points.h"

namespace voltfall {

enum class KeyPosition { off, on, start };
/// With a manual gearbox `drive` is any gear, and there is no park.
enum class Gear { park, neutral, drive };

/// Something a person has hung across two points: a meter, a jumper, a test lamp.
/// A resistor with a current source across it (an ohmmeter pushes its test current out of `red` and into `black`).
struct AttachedBranch {
  TestPoint red, black;
  double ohm;
  double source_A = 0.0;

  bool operator==(const AttachedBranch&) const = default;
};

/// What people do to the vehicle; read at every step, never changed by it.
struct Controls {
  KeyPosition key = KeyPosition::off;
  Gear gear = Gear::park;
  bool headlamps = false;
  bool ignition_live = false;     ///< spark lead and fuel connected: false is the safe state for cranking tests
  bool battery_connected = true;  ///< negative clamp on its post
  bool clutch_pedal_down = false;
  bool s_wire_on = true;     ///< the push-on connector on the relay's S terminal
  bool belt_off = false;     ///< nothing that the belt drives holds the engine
  bool plugs_out = false;    ///< no cylinder holds pressure
  bool starter_off = false;  ///< unbolted: its terminal and its mounting face touch nothing
  std::vector<AttachedBranch> attached;

  bool operator==(const Controls&) const = default;
};

}  // namespace voltfall
