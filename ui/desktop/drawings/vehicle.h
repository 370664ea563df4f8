#pragma once

#include "desktop/bay/place.h"
#include "rig/controls.h"
#include "rig/parameters.h"
#include "rig/readings.h"

namespace voltfall {

/// The strap lies behind the engine: until somebody looks there, it is drawn dashed like any hidden line.
enum class StrapSeen { hidden, fitted, missing };

/// What an onlooker could see of the vehicle at one moment: nothing here tells a fault that the eye would not.
struct VehicleLook {
  double lamp_light = 0.0;  ///< of full light
  bool headlamps = false;
  double dash_light = 0.0;  ///< of full light
  double crank_angle_deg = 0.0;
  double shake = 0.0;  ///< -1 to 1: how far heavy cables are thrown just now
  double rock = 0.0;   ///< -1 to 1: engine rocking on its mounts
  double smoke = 0.0;  ///< 0 to 1
  KeyPosition key = KeyPosition::off;
  Gear gear = Gear::park;
  bool battery_connected = true;
  StrapSeen strap = StrapSeen::hidden;
  bool positive_crust = false;  ///< seen by looking closely
  bool negative_crust = false;
  double rated_CCA_A = 640.0;
  // What hands have moved.
  bool s_wire_on = true;
  bool belt_off = false;
  bool plugs_out = false;
  bool starter_off = false;
  bool moved = false;  ///< the starter drove it off in gear
  // What it is.
  bool manual_gearbox = false;
  bool switch_in_coil_ground = false;  ///< the clutch pedal's, between the relay's case and the body
  bool clutch_pedal_down = false;
  int cylinders_seen = 4;  ///< of the bank towards the onlooker
};

/// The whole vehicle without its numbers, leads and names.
void draw_vehicle(const VehicleLook& look, const Projection& projection);

}  // namespace voltfall
