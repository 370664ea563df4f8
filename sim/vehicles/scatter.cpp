#include "vehicles/scatter.h"

#include <algorithm>
#include <array>
#include <random>

#include "rig/settable.h"

namespace voltfall {
namespace {

// From memory, for parts of one make and a few years of use: windings a few per cent, springs a few more, whatever is
// friction or contact a good deal more.
constexpr std::array spreads{
    TypeSpread{"battery.charge", 0.02},
    TypeSpread{"battery.health", 0.04},
    TypeSpread{"joints.positive_clamp.healthy_ohm", 0.35},
    TypeSpread{"joints.relay_battery_stud.healthy_ohm", 0.35},
    TypeSpread{"joints.relay_motor_stud.healthy_ohm", 0.35},
    TypeSpread{"joints.starter_terminal.healthy_ohm", 0.35},
    TypeSpread{"joints.mounting_face.healthy_ohm", 0.35},
    TypeSpread{"joints.block_lug.healthy_ohm", 0.35},
    TypeSpread{"joints.negative_clamp.healthy_ohm", 0.35},
    TypeSpread{"joints.body_strap.healthy_ohm", 0.35},
    TypeSpread{"cables.positive.length_m", 0.03},
    TypeSpread{"cables.starter.length_m", 0.03},
    TypeSpread{"cables.negative.length_m", 0.03},
    TypeSpread{"relay.contact_ohm", 0.25},
    TypeSpread{"relay.coil_ohm", 0.03},
    TypeSpread{"relay.return_spring_N", 0.04},
    TypeSpread{"starter.drive_coil_ohm", 0.02},
    TypeSpread{"starter.field_coil_ohm", 0.02},
    TypeSpread{"starter.armature_ohm", 0.02},
    TypeSpread{"starter.hold_in_ohm", 0.03},
    TypeSpread{"starter.grounding_contacts_ohm", 0.2},
    TypeSpread{"starter.brush_drop_V", 0.04},
    TypeSpread{"starter.friction_Nm", 0.08},
    TypeSpread{"shoe.spring_preload_N", 0.03},
    TypeSpread{"shoe.hinge_friction_N", 0.2},
    TypeSpread{"engine.compression_ratio", 0.01},
    TypeSpread{"engine.leak_time_s", 0.1},
    TypeSpread{"engine.friction_Nm", 0.05},
    TypeSpread{"control.fusible_link_ohm", 0.2},
    TypeSpread{"control.bulkhead_plug_ohm", 0.3},
    TypeSpread{"control.start_contact_ohm", 0.3},
    TypeSpread{"control.s_wire_ohm", 0.1},
    TypeSpread{"control.s_push_on_ohm", 0.3},
    TypeSpread{"control.relay_case_ground_ohm", 0.3},
    TypeSpread{"body.parasitic_ohm", 0.2},
    TypeSpread{"body.dash_A", 0.04},
};

}  // namespace

std::span<const TypeSpread> all_spreads() {
  return spreads;
}

RigParameters scattered(const RigParameters& typical, std::uint64_t seed) {
  std::mt19937_64 bits(seed);
  const auto unit = [&] { return static_cast<double>(bits() >> 11U) * 0x1.0p-53; };
  RigParameters vehicle = typical;
  for (const TypeSpread& spread : spreads) {
    const Settable& settable = *settable_at(spread.path);
    const double aside = unit() + unit() - 1.0;
    double& value = settable.in(vehicle);
    value = std::clamp(value * (1.0 + spread.share * aside), settable.lowest, settable.highest);
  }
  return vehicle;
}

}  // namespace voltfall
