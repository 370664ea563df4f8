#include "instruments/thermometer.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace voltfall {
namespace {

// From memory: the instrument is set for dull surfaces (emissivity 0.95); bare metal that was bright once and has gone
// dull with handling shows some 60 % of its rise, paint and rubber all of it.
constexpr double bright_share = 0.6, dull_share = 1.0;
// From memory: the shell of a starter follows the windings within it slowly and by a part.
constexpr double shell_share = 0.3;

struct Seen {
  TestPoint point;
  Resistor joint, beside;  ///< the same again where nothing else lies beside it
  double share;
};

using enum TestPoint;

constexpr std::array<Seen, test_point_count> seen{{
    {battery_positive_post, Resistor::positive_clamp, Resistor::positive_clamp, bright_share},
    {positive_clamp, Resistor::positive_clamp, Resistor::positive_cable, bright_share},
    {relay_battery_lug, Resistor::relay_battery_stud, Resistor::positive_cable, bright_share},
    {relay_battery_stud, Resistor::relay_battery_stud, Resistor::relay_battery_stud, bright_share},
    {relay_motor_stud, Resistor::relay_motor_stud, Resistor::relay_motor_stud, bright_share},
    {relay_motor_lug, Resistor::relay_motor_stud, Resistor::starter_cable, bright_share},
    {starter_lug, Resistor::starter_terminal, Resistor::starter_cable, bright_share},
    {starter_terminal, Resistor::starter_terminal, Resistor::starter_terminal, bright_share},
    {starter_case, Resistor::mounting_face, Resistor::mounting_face, dull_share},
    {engine_block, Resistor::mounting_face, Resistor::block_lug, dull_share},
    {block_lug, Resistor::block_lug, Resistor::negative_cable, bright_share},
    {negative_clamp, Resistor::negative_clamp, Resistor::negative_cable, bright_share},
    {negative_post, Resistor::negative_clamp, Resistor::negative_clamp, bright_share},
    {fusible_link_out, Resistor::fusible_link, Resistor::fusible_link, dull_share},
    {ignition_feed, Resistor::ignition_feed, Resistor::start_contact, dull_share},
    {ignition_start_output, Resistor::start_contact, Resistor::start_contact, dull_share},
    {neutral_switch_output, Resistor::neutral_switch, Resistor::neutral_switch, dull_share},
    {s_wire_end, Resistor::s_wire, Resistor::s_push_on, dull_share},
    {s_terminal, Resistor::s_push_on, Resistor::s_push_on, bright_share},
    {relay_case, Resistor::relay_case_ground, Resistor::relay_case_ground, dull_share},
    {body, Resistor::relay_case_ground, Resistor::relay_case_ground, dull_share},
    {strap_body_lug, Resistor::body_strap_joint, Resistor::body_strap_cable, bright_share},
    {strap_block_lug, Resistor::body_strap_block_end, Resistor::body_strap_cable, bright_share},
    {i_terminal, Resistor::i_contact, Resistor::i_contact, bright_share},
    {ignition_coil_feed, Resistor::ignition_coil, Resistor::ignition_coil, dull_share},
    {lamp_switch_output, Resistor::lamp_switch, Resistor::lamp_switch, dull_share},
    {headlamp_feed, Resistor::lamp_wire, Resistor::lamp_wire, dull_share},
    {headlamp_ground, Resistor::lamp_ground, Resistor::lamp_ground, dull_share},
    {dash_feed, Resistor::dash_feed, Resistor::dash_feed, dull_share},
    {alternator_output, Resistor::alternator_wire, Resistor::alternator_wire, bright_share},
}};

const Seen& row_of(TestPoint point) {
  return seen[static_cast<std::size_t>(point)];
}

double of(const PartTemperatures& parts, Resistor resistor) {
  return parts.resistor_C[static_cast<std::size_t>(resistor)];
}

}  // namespace

double starter_shell_C(const PartTemperatures& parts) {
  const double winding_C = std::max({parts.drive_C, parts.field_C, parts.armature_C});
  const double face_C = of(parts, Resistor::mounting_face);
  return std::max(face_C, face_C + shell_share * (winding_C - face_C));
}

double temperature_at(TestPoint point, const PartTemperatures& parts) {
  const Seen& row = row_of(point);
  const double joint_C = std::max(of(parts, row.joint), of(parts, row.beside));
  switch (point) {
    case relay_battery_stud:
    case relay_motor_stud:
      return std::max(joint_C, parts.relay_contact_C);
    case relay_case:
      return std::max(joint_C, parts.relay_coil_C);
    case starter_case:
      return starter_shell_C(parts);
    default:
      return joint_C;
  }
}

double seen_share(TestPoint point) {
  return row_of(point).share;
}

void Thermometer::aim(std::optional<TestPoint> at) {
  at_ = at;
  figure_.start_over();
}

void Thermometer::watch(const PartTemperatures& parts, double time_s, double dt_s) {
  if (!at_) return;
  const double rise_K = temperature_at(*at_, parts) - air_C_;
  figure_.add(air_C_ + seen_share(*at_) * rise_K, time_s, dt_s);
}

MeterDisplay Thermometer::display() const {
  if (!at_) return {MeterDisplay::Kind::no_lead, 0.0, 1, ""};
  if (!figure_.shown()) return {MeterDisplay::Kind::settling, 0.0, 1, ""};
  return {MeterDisplay::Kind::value, std::round(*figure_.shown() * 2.0) / 2.0 + 0.0, 1, "degC"};
}

}  // namespace voltfall
