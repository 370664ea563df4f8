#include "rig/damage.h"

#include <algorithm>

namespace voltfall {
namespace {

constexpr double winding_limit_C = 220.0, solder_limit_C = 300.0, brush_spring_limit_C = 260.0;
constexpr double oxidising_C = 150.0, link_melts_C = 900.0, stray_burns_K = 400.0;
constexpr double doubling_K = 50.0;  // the rates below hold this far beyond the limit
constexpr double turns_lost_per_s = 0.03, commutator_ohm_per_s = 1.0e-3, brush_ohm_per_s = 5.0e-4;
constexpr double oxide_per_s = 0.002;
constexpr double fewest_turns = 0.35, worst_commutator_ohm = 0.040, worst_joint_ohm = 0.060;
constexpr double open_ohm = 1.0e7;

double beyond(double temperature_C, double limit_C) {
  return std::max(temperature_C - limit_C, 0.0) / doubling_K;
}

void burn_windings(StarterParameters& starter, const PartTemperatures& now, double span_s, Harm& harm) {
  const double lost = turns_lost_per_s * span_s * beyond(std::max(now.drive_C, now.field_C), winding_limit_C);
  if (lost <= 0.0 || starter.flux_fraction <= fewest_turns) return;
  if (starter.flux_fraction >= 1.0) harm.add(RigEventKind::winding_burnt);
  starter.flux_fraction = std::max(starter.flux_fraction - lost, fewest_turns);
}

void throw_solder(StarterParameters& starter, const PartTemperatures& now, double span_s, Harm& harm) {
  const double added_ohm = span_s * (commutator_ohm_per_s * beyond(now.armature_C, solder_limit_C) +
                                     brush_ohm_per_s * beyond(now.brush_C, brush_spring_limit_C));
  if (added_ohm <= 0.0 || starter.brush_added_ohm >= worst_commutator_ohm) return;
  if (starter.brush_added_ohm == 0.0) harm.add(RigEventKind::commutator_burnt);
  starter.brush_added_ohm = std::min(starter.brush_added_ohm + added_ohm, worst_commutator_ohm);
}

void oxidise(JointParameters& joint, double temperature_C, double span_s) {
  if (joint.added_ohm >= worst_joint_ohm) return;
  joint.added_ohm *= 1.0 + oxide_per_s * span_s * beyond(temperature_C, oxidising_C);
}

void oxidise_joints(JointSet& joints, const PartTemperatures& now, double span_s) {
  const auto at = [&](Resistor resistor) { return now.resistor_C[static_cast<std::size_t>(resistor)]; };
  oxidise(joints.positive_clamp, at(Resistor::positive_clamp), span_s);
  oxidise(joints.relay_battery_stud, at(Resistor::relay_battery_stud), span_s);
  oxidise(joints.relay_motor_stud, at(Resistor::relay_motor_stud), span_s);
  oxidise(joints.starter_terminal, at(Resistor::starter_terminal), span_s);
  oxidise(joints.mounting_face, at(Resistor::mounting_face), span_s);
  oxidise(joints.block_lug, at(Resistor::block_lug), span_s);
  oxidise(joints.negative_clamp, at(Resistor::negative_clamp), span_s);
  oxidise(joints.body_strap, at(Resistor::body_strap_joint), span_s);
}

void melt(double& ohm, double temperature_C, double limit_C, RigEventKind kind, Harm& harm) {
  if (temperature_C < limit_C || ohm >= open_ohm) return;
  ohm = open_ohm;
  harm.add(kind);
}

// Contact faces near the melting point of copper run together: the relay can't let go any more, and conducts well.
void run_together(RelayParameters& relay, double contact_C, Harm& harm) {
  constexpr double faces_melt_C = 1000.0, molten_ohm = 0.002;
  if (contact_C < faces_melt_C || relay.contact_welded > 0.5) return;
  relay.contact_welded = 1.0;
  relay.contact_ohm = std::min(relay.contact_ohm, molten_ohm);
  harm.add(RigEventKind::relay_welded);
}

}  // namespace

Harm damage_after(RigParameters& parameters, const PartTemperatures& temperatures, double span_s) {
  Harm harm;
  burn_windings(parameters.starter, temperatures, span_s, harm);
  throw_solder(parameters.starter, temperatures, span_s, harm);
  oxidise_joints(parameters.joints, temperatures, span_s);
  run_together(parameters.relay, temperatures.relay_contact_C, harm);
  const auto at = [&](Resistor resistor) { return temperatures.resistor_C[static_cast<std::size_t>(resistor)]; };
  const double stray_limit_C = parameters.ambient_C + stray_burns_K;
  melt(parameters.control.fusible_link_ohm, at(Resistor::fusible_link), link_melts_C, RigEventKind::fusible_link_blown,
       harm);
  melt(parameters.body.parasitic_ohm, at(Resistor::parasitic), stray_limit_C, RigEventKind::stray_path_burnt, harm);
  melt(parameters.body.lead_ohm, at(Resistor::body_lead), stray_limit_C, RigEventKind::stray_path_burnt, harm);
  return harm;
}

}  // namespace voltfall
