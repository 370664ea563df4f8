#include "bench/mechanism.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <numbers>

namespace voltfall {
namespace {

using Columns = std::array<float, sizeof(Mechanism) / sizeof(float)>;
static_assert(sizeof(Columns) == sizeof(Mechanism), "nothing but floats");

float small(double value) {
  return static_cast<float>(value);
}

float yes(bool so) {
  return so ? 1.0F : 0.0F;
}

// From one to the next round a circle, by the shorter way.
float round_way(float one, float next, float share, double circle) {
  const auto whole = static_cast<float>(circle);
  return one + share * std::remainder(next - one, whole);
}

}  // namespace

Mechanism mechanism_of(const RigState& state, const Readings& readings) {
  const auto& drive = state.drive_train;
  const auto& amps = state.currents;
  return {
      .shoe_travel_m = small(state.shoe.travel_m),
      .pinion_travel_m = small(readings.pinion_travel_m),
      .relay_plunger_m = small(state.relay.plunger.travel_m),
      .relay_disc_m = small(state.relay.disc.travel_m),
      .tooth_position_m = small(state.tooth_position_m),
      .pinion_rad = small(drive.pinion_rad),
      .armature_rad = small(drive.armature_rad),
      .crank_rad = small(state.engine.crank_angle_rad),
      .cylinder_Pa = small(state.engine.pressure_Pa[0]),
      .battery_A = small(amps.battery_A),
      .drive_A = small(amps.drive_A),
      .hold_in_A = small(amps.hold_in_A),
      .field_2_A = small(amps.field_2_A),
      .field_34_A = small(amps.field_34_A),
      .armature_A = small(amps.armature_A),
      .relay_coil_A = small(amps.relay_coil_A),
      .movable_Wb = small(state.fluxes.movable_Wb),
      .second_Wb = small(state.fluxes.second_Wb),
      .third_and_fourth_Wb = small(state.fluxes.third_and_fourth_Wb),
      .relay_closed = yes(state.relay_contact == ContactState::closed),
      .grounding_closed = yes(state.grounding_contacts == ContactState::closed),
      .in_contact = yes(state.meshing == Meshing::in_contact_world),
      .seated = yes(state.meshing == Meshing::seated),
  };
}

Mechanism between(const Mechanism& one, const Mechanism& next, float share, double pitch_m) {
  const auto from = std::bit_cast<Columns>(one), to = std::bit_cast<Columns>(next);
  Columns mixed;
  for (std::size_t i = 0; i < mixed.size(); ++i) mixed[i] = from[i] + share * (to[i] - from[i]);
  auto now = std::bit_cast<Mechanism>(mixed);
  constexpr double turn = 2.0 * std::numbers::pi;
  now.tooth_position_m = round_way(one.tooth_position_m, next.tooth_position_m, share, pitch_m);
  now.pinion_rad = round_way(one.pinion_rad, next.pinion_rad, share, turn);
  now.armature_rad = round_way(one.armature_rad, next.armature_rad, share, turn);
  now.crank_rad = round_way(one.crank_rad, next.crank_rad, share, 2.0 * turn);
  return now;
}

MechanismTape::MechanismTape(long steps)
    : size_(std::max(2L, steps)), rows_(std::make_unique_for_overwrite<Mechanism[]>(static_cast<std::size_t>(size_))) {}

void MechanismTape::append(const Mechanism& now) {
  rows_[static_cast<std::size_t>(count_ % size_)] = now;
  ++count_;
}

}  // namespace voltfall
