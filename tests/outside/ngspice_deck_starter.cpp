#include <fmt/format.h>

#include "outside/ngspice_deck_parts.h"
#include "outside/ngspice_figures.h"
#include "outside/ngspice_netlist.h"
#include "rig/circuit.h"

namespace voltfall {
namespace {

void write_windings(Netlist& netlist, const RigParameters& p) {
  const StarterParameters& s = p.starter;
  const double turns = s.coil_turns * s.flux_fraction;
  const std::string drive = copper_text(s.drive_coil_ohm, "drive");
  const std::string hold_in = copper_text(s.hold_in_ohm, "drive");
  const std::string field = copper_text(s.field_coil_ohm, "field");
  const std::string armature = fmt::format("({}+{:.10g})", copper_text(s.armature_ohm, "armature"), s.brush_added_ohm);
  netlist.comment("Starter's windings: drive coil, field coil 2, coils 3 and 4 in series, hold-in, armature");
  write_coil(netlist, {"drive", "starter_terminal", "drive_end", drive, s.coil_leakage_H, turns, "movable"});
  write_coil(netlist, {"two", "drive_end", "brush_bus", field, s.coil_leakage_H, turns, "second"});
  write_coil(netlist,
             {"pair", "starter_terminal", "brush_bus", "2*" + field, 2.0 * s.coil_leakage_H, 2.0 * turns, "third"});
  write_coil(netlist,
             {"hold", "starter_terminal", "starter_case", hold_in, s.hold_in_leakage_H, s.hold_in_turns, "movable"});
  netlist.line("Varmature brush_bus armature_a 0");
  netlist.line(fmt::format("Larmature armature_a armature_b {:.10g} IC=0", s.armature_leakage_H));
  netlist.volts("copper", "armature_b", "armature_c", fmt::format("i(Varmature)*{}", armature));
  netlist.volts("brushes", "armature_c", "armature_d",
                fmt::format("{:.10g}*tanh(i(Varmature)/{:.10g})", s.brush_drop_V, s.brush_knee_A));
  netlist.volts("back_emf", "armature_d", "starter_case", "v(torque_per_A)*v(armature)");
  const WindingLumps lumps(p);
  write_lump(netlist, "drive", lumps.drive.J_per_K, lumps.drive.cooling_s, p.ambient_C,
             fmt::format("{}*{}+{}*{}", square_text("i(Vdrive)"), drive, square_text("i(Vhold)"), hold_in));
  write_lump(netlist, "field", lumps.field.J_per_K, lumps.field.cooling_s, p.ambient_C,
             fmt::format("({}+2*{})*{}", square_text("i(Vtwo)"), square_text("i(Vpair)"), field));
  write_lump(netlist, "armature", lumps.armature.J_per_K, lumps.armature.cooling_s, p.ambient_C,
             fmt::format("{}*{}", square_text("i(Varmature)"), armature));
}

void write_poles(Netlist& netlist, const RigParameters& p) {
  const StarterParameters& s = p.starter;
  const double turns = s.coil_turns * s.flux_fraction;
  const PoleParameters iron = starter_pole(s);
  const double turn_ohm = eddy_ohm(iron, s.seated_gap_m, s.eddy_time_constant_s);
  const std::string seated_gap = fmt::format("{:.10g}", s.seated_gap_m);
  const std::string moving_gap = fmt::format("({:.10g}-1e-3*v(shoe))", s.seated_gap_m + p.shoe.travel_m);
  const auto pole = [&](std::string_view name, const std::string& gap_m, const std::string& ampere_turns) {
    write_pole(netlist, {name, iron.area_m2, iron.iron_gap_m, iron.saturation_T, turn_ohm, gap_m, ampere_turns});
  };
  netlist.comment("Poles: the movable one over its gap, the second, the third which stands for the fourth as well");
  pole("movable", moving_gap, fmt::format("{:.10g}*i(Vdrive)+{:.10g}*i(Vhold)", turns, s.hold_in_turns));
  pole("second", seated_gap, fmt::format("{:.10g}*i(Vtwo)", turns));
  pole("third", seated_gap, fmt::format("{:.10g}*i(Vpair)", turns));
  netlist.volts("torque_per_A", "torque_per_A", "0",
                fmt::format("{:.10g}*0.25*min(max(v(tesla_movable)+v(tesla_second)+2*v(tesla_third),{:g}),{:g})",
                            s.machine_constant_Nm_per_A_T, -4.0 * s.saturation_T, 4.0 * s.saturation_T));
}

void write_shoe(Netlist& netlist, const RigParameters& p) {
  const ShoeParameters& shoe = p.shoe;
  const StarterParameters& s = p.starter;
  const ArcFigures arc;
  const double moving_kg = shoe.mass_kg + p.drive.pinion_mass_kg * p.drive.lever_ratio * p.drive.lever_ratio;
  const double open_mm = 1.0e3 * shoe.contacts_open_at * shoe.travel_m;
  netlist.comment("Shoe, lever and drive: nodes shoe (mm) and shoe_speed (m/s); and the contacts it opens");
  write_slide(netlist,
              {"shoe", moving_kg, shoe.travel_m, shoe.hinge_friction_N, shoe.damping_Ns_per_m, shoe.restitution, 1.0e-5,
               fmt::format("{}-({:.10g}+{:.10g}*v(shoe))", pull_text("movable", s.pole_area_m2), shoe.spring_preload_N,
                           1.0e-3 * shoe.spring_N_per_m)});
  std::string touching = fmt::format("(1-{})", past_text("v(shoe)", open_mm - contact_edge_mm, contact_edge_mm));
  if (s.grounding_contacts_stuck > 0.5) touching = "1";
  if (s.grounding_contacts_stuck < -0.5) touching = "0";
  netlist.volts("grounding_touch", "grounding_touch", "0", touching);
  write_contact(netlist,
                {"grounding", "drive_end", "starter_case", "v(grounding_touch)",
                 fmt::format("({:.10g}+{:.10g}*max(v(shoe)-{:.10g},0))", arc.least_V, 1.0e-3 * arc.V_per_m, open_mm),
                 s.grounding_contacts_ohm, p.body.insulation_ohm, arc.ohm});
}

}  // namespace

// Clutch: a spring with damping that only drives and slips at its limit; unwound and overrunning it drags. Dry friction
// is a slope below 1 rad/s.
void write_wheels(Netlist& netlist, const RigParameters& p, double brake_Nm) {
  constexpr double unwinding_s = 1.0e-6, unwound_mrad = 1.0e-3;
  const StarterParameters& s = p.starter;
  const DriveParameters& drive = p.drive;
  const std::string slip = "v(armature,pinion)";
  const std::string wound = fmt::format("({:.10g}*v(twist)+{:.10g}*{})", 1.0e-3 * drive.clutch_stiffness_Nm_per_rad,
                                        clutch_damping_Nm_s(drive), slip);
  netlist.comment("Wheels: nodes armature and pinion (rad/s), clutch twist (mrad), clutch (N.m into the pinion)");
  netlist.volts(
      "clutch", "clutch", "0",
      fmt::format("min(max({0},0),{1:.10g})+(1-{2})*{3:.10g}*{4}/max(abs({4}),1)", wound, drive.clutch_slip_Nm,
                  past_text("v(twist)", 0.0, unwound_mrad), drive.clutch_drag_Nm, slip));
  netlist.integral("twist", 1.0e-3, 0.0, fmt::format("max({},{:g}*v(twist))", slip, -1.0e-3 / unwinding_s));
  netlist.integral("armature", s.armature_inertia_kg_m2, 0.0,
                   fmt::format("v(torque_per_A)*i(Varmature)-v(clutch)-{:.10g}*v(armature)-"
                               "{:.10g}*v(armature)/max(abs(v(armature)),1)",
                               s.friction_Nm_s, s.friction_Nm + s.drag_added_Nm));
  netlist.integral("pinion", drive.pinion_inertia_kg_m2, 0.0,
                   fmt::format("v(clutch)-{:.10g}*v(pinion)/max(abs(v(pinion)),1)", brake_Nm));
}

void write_starter(Netlist& netlist, const RigParameters& parameters) {
  write_windings(netlist, parameters);
  write_poles(netlist, parameters);
  write_shoe(netlist, parameters);
}

}  // namespace voltfall
