#pragma once

#include "desktop/drawings/brush.h"
#include "desktop/drawings/vehicle.h"

namespace voltfall {

// The parts of the vehicle, each drawn by itself; draw_vehicle lays them over one another, farthest first.

void draw_headlamps(const Brush& brush, const VehicleLook& look);
void draw_battery(const Brush& brush, const VehicleLook& look);
void draw_battery_clamps(const Brush& brush, const VehicleLook& look);
void draw_fender(const Brush& brush);
void draw_relay(const Brush& brush, const VehicleLook& look);
void draw_ignition_coil(const Brush& brush);
void draw_dash(const Brush& brush, const VehicleLook& look);
void draw_control_wires(const Brush& brush, const VehicleLook& look);
void draw_engine(const Brush& brush, const VehicleLook& look);
void draw_alternator(const Brush& brush);
void draw_flywheel(const Brush& brush, const VehicleLook& look);
void draw_gearbox(const Brush& brush, const VehicleLook& look);
void draw_starter(const Brush& brush, const VehicleLook& look);
void draw_belt(const Brush& brush, const VehicleLook& look);
void draw_moved(const Brush& brush, const VehicleLook& look);
void draw_heavy_cables(const Brush& brush, const VehicleLook& look);
void draw_studs(const Brush& brush);

}  // namespace voltfall
