#include "desktop/drawings/vehicle.h"

#include "desktop/drawings/parts.h"

namespace voltfall {
namespace {

void draw_smoke(const Brush& brush, double smoke) {
  if (smoke <= 0.0) return;
  const auto puff = [&](ImVec2 at, float radius) {
    brush.disc(at, radius, ink::faded(ink::steel_dark, 0.30F * static_cast<float>(smoke)), 0);
  };
  puff({548, 392}, 10);
  puff({556, 372}, 15);
  puff({546, 346}, 20);
}

}  // namespace

void draw_vehicle(const VehicleLook& look, const Projection& projection) {
  const Brush brush(projection);
  draw_fender(brush);
  draw_dash(brush, look);
  draw_gearbox(brush, look);
  draw_flywheel(brush, look);
  draw_engine(brush, look);
  draw_alternator(brush);
  draw_belt(brush, look);
  draw_starter(brush, look);
  draw_ignition_coil(brush);
  draw_headlamps(brush, look);
  draw_control_wires(brush, look);
  draw_relay(brush, look);
  draw_battery(brush, look);
  draw_heavy_cables(brush, look);
  draw_battery_clamps(brush, look);
  draw_studs(brush);
  draw_smoke(brush, look.smoke);
  draw_moved(brush, look);
}

}  // namespace voltfall
