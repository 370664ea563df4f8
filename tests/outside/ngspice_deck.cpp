#include "outside/ngspice_deck.h"

#include <fmt/format.h>
#include <unistd.h>

#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <numbers>
#include <stdexcept>
#include <string_view>

#include "electrical/battery.h"
#include "electrical/conductor.h"

namespace voltfall {
namespace {

constexpr double mu0 = 4.0e-7 * std::numbers::pi;  // H/m

// The battery's time constants and the scale of its starving loss, which are its own affair: one step of a polarised
// battery without current shows them, x after = x / (1 + dt / time).
struct BatteryTimes {
  explicit BatteryTimes(const BatteryFigures& figures) {
    constexpr double dt_s = 1.0e-3;
    const BatteryState before{
        .charge = 0.0, .near_plate_acid = 1.0, .fast_V = 1.0, .slow_V = 1.0, .temperature_C = 20.0};
    const BatteryState after = battery_after(figures, before, 0.0, dt_s);
    const auto time_s = [&](double left) { return dt_s * left / (1.0 - left); };
    fast_s = time_s(after.fast_V);
    slow_s = time_s(after.slow_V);
    diffusion_s = time_s(after.near_plate_acid);
    BatteryState hungry = before;
    hungry.near_plate_acid = 0.5 * figures.rested_acid;
    const double acid = battery_after(figures, hungry, 0.0, dt_s).near_plate_acid;
    starving_V = starving_loss(figures, hungry, 0.0, dt_s).loss_V / std::log(figures.rested_acid / acid);
  }
  double fast_s, slow_s, diffusion_s, starving_V;
};

// Resistances of the windings as terms of a netlist.
struct WindingOhms {
  std::string drive, hold_in, field, armature;
};

double warm(double ohm_at_20C, double temperature_C) {
  return ohm_at_20C * (1.0 + 0.00393 * (temperature_C - 20.0));
}

std::string resistor(std::string_view name, std::string_view from, std::string_view to, double ohm) {
  return fmt::format("R{} {} {} {:.10g}\n", name, from, to, ohm);
}

std::string joint(std::string_view name, std::string_view from, std::string_view to, const JointParameters& joint,
                  double temperature_C) {
  return resistor(name, from, to, warm(joint.healthy_ohm, temperature_C) + joint.added_ohm);
}

std::string cable(std::string_view name, std::string_view from, std::string_view to, const CableParameters& cable,
                  double temperature_C) {
  const double ohm_at_20C = 17.241e-9 * 1.02 * cable.length_m / AWG_area_m2(cable.AWG);
  return resistor(name, from, to, warm(ohm_at_20C, temperature_C) + cable.added_ohm);
}

// Rested volts, ohmic part, two polarisation branches, and plates that starve as acid near them is used up. The node
// `acid` holds the acid as a voltage, `posts` is the + post; - post is ground.
std::string battery_lines(const RigParameters& p) {
  const BatteryFigures figures = battery_figures(p.battery, p.battery.charge, p.ambient_C);
  const BatteryTimes times(figures);
  const double volts_per_charge =
      (figures.open_circuit_V - open_circuit_V(p.battery, p.battery.charge - 0.01, p.ambient_C)) / 0.01;
  return fmt::format("Cacid acid 0 1 IC={0:.10g}\n", figures.rested_acid) +
         fmt::format("Bacid 0 acid I=(v(charge)-v(acid))/{:.10g}-i(Vloop)*{:.10g}\n", times.diffusion_s,
                     figures.acid_per_As) +
         fmt::format("Ccharge charge 0 {:.10g} IC={:.10g}\n", figures.capacity_As, p.battery.charge) +
         "Bcharge charge 0 I=i(Vloop)\n" +
         fmt::format("Bemf plates 0 V={:.10g}+{:.10g}*(v(charge)-{:.10g})+{:.10g}*ln(max(v(acid),0.005)/{:.10g})\n",
                     figures.open_circuit_V, volts_per_charge, p.battery.charge, times.starving_V,
                     figures.rested_acid) +
         resistor("ohmic", "plates", "b1", figures.ohmic_ohm) + resistor("fast", "b1", "b2", figures.fast_ohm) +
         fmt::format("Cfast b1 b2 {:.10g} IC=0\n", times.fast_s / figures.fast_ohm) +
         resistor("slow", "b2", "b3", figures.slow_ohm) +
         fmt::format("Cslow b2 b3 {:.10g} IC=0\n", times.slow_s / figures.slow_ohm) + "Vloop b3 posts 0\n";
}

// The loop outside battery and starter, and what hangs on it: the relay's coil with its wires, and the dash.
std::string circuit_lines(const RigParameters& p) {
  const double at_C = p.ambient_C;
  const ControlParameters& c = p.control;
  const double coil_path_ohm = c.bulkhead_plug_ohm + c.start_contact_ohm + c.neutral_switch_ohm + c.s_wire_ohm +
                               c.s_push_on_ohm + warm(p.relay.coil_ohm, at_C) + c.relay_case_ground_ohm;
  return joint("pclamp", "posts", "n1", p.joints.positive_clamp, at_C) +
         cable("pcable", "n1", "n2", p.cables.positive, at_C) +
         joint("rbstud", "n2", "n3", p.joints.relay_battery_stud, at_C) +
         resistor("contact", "n3", "n4", p.relay.contact_ohm) +
         joint("rmstud", "n4", "n5", p.joints.relay_motor_stud, at_C) +
         cable("scable", "n5", "n6", p.cables.starter, at_C) +
         joint("sstud", "n6", "t", p.joints.starter_terminal, at_C) +
         joint("face", "g", "block", p.joints.mounting_face, at_C) +
         joint("blug", "block", "n8", p.joints.block_lug, at_C) + cable("ncable", "n8", "n9", p.cables.negative, at_C) +
         joint("nclamp", "n9", "0", p.joints.negative_clamp, at_C) + resistor("link", "n3", "n10", c.fusible_link_ohm) +
         resistor("coilpath", "n10", "body", coil_path_ohm) + resistor("dash", "n10", "body", 12.6 / p.body.dash_A) +
         joint("strapj", "body", "n11", p.joints.body_strap, at_C) +
         cable("strap", "n11", "block", p.cables.body_strap, at_C);
}

// One pole: the node's voltage is its flux density B. The shorted eddy turn makes the volts of a turn
//     e = area dB/dt = eddy ohm (NI - F(B)),  F = B/mu0 (gap + iron / (1 - (B/Bs)^2))
// so that the pole is a capacitor fed by the ampere-turns left over.
std::string pole_lines(std::string_view name, const StarterParameters& s, const std::string& ampere_turns) {
  const double eddy_ohm = mu0 * s.pole_area_m2 / ((s.seated_gap_m + s.iron_gap_m) * s.eddy_time_constant_s);
  const std::string b = fmt::format("v(iron{})", name);
  const std::string full = fmt::format("min(max({}/{:g},-0.9999),0.9999)", b, s.saturation_T);
  const std::string needed =
      fmt::format("{0}*{1:.10g}*({2:.10g}+{3:.10g}/(1-({4})*({4})))", b, 1.0 / mu0, s.seated_gap_m, s.iron_gap_m, full);
  return fmt::format("C{0} iron{0} 0 {1:.10g} IC=0\n", name, s.pole_area_m2 / eddy_ohm) +
         fmt::format("B{0} 0 iron{0} I=({1})-({2})\n", name, ampere_turns, needed) +
         fmt::format("Bturn{0} e{0} 0 V={1:.10g}*(({2})-({3}))\n", name, eddy_ohm, ampere_turns, needed);
}

// Copper that warms: the node named hot... is a lump's temperature in °C, its capacitor the heat capacity in J/K.
// Within a few seconds hardly any of the heat leaves it.
std::string lump_lines(std::string_view lump, double J_per_K, double start_C, const std::string& watts) {
  return fmt::format("Chot{0} hot{0} 0 {1:g} IC={2:g}\nBhot{0} 0 hot{0} I={3}\n", lump, J_per_K, start_C, watts);
}

std::string warm_ohm(double ohm_at_20C, std::string_view lump) {
  return fmt::format("{:.10g}*(1+0.00393*(v(hot{})-20))", ohm_at_20C, lump);
}

// A coil: resistance, leakage, and the volts of its turns; the current is that of its zero-volt source.
std::string coil_lines(std::string_view name, std::string_view from, std::string_view to, const std::string& ohm,
                       double leakage_H, double turns, std::string_view pole) {
  return fmt::format("V{0} {1} {0}1 0\n", name, from) + fmt::format("L{0} {0}1 {0}2 {1:.10g} IC=0\n", name, leakage_H) +
         fmt::format("B{0} {0}2 {1} V=i(V{0})*{2}+{3:.10g}*v(e{4})\n", name, to, ohm, turns, pole);
}

std::string winding_heat_lines(const RigParameters& p, const WindingOhms& ohm) {
  return lump_lines("drive", 65.0, p.ambient_C, fmt::format("i(Vdrive)^2*{}+i(Vhold)^2*{}", ohm.drive, ohm.hold_in)) +
         lump_lines("field", 195.0, p.ambient_C, fmt::format("i(Vtwo)^2*{0}+2*i(Vpair)^2*{0}", ohm.field)) +
         lump_lines("arm", 350.0, p.ambient_C, fmt::format("i(Varm)^2*{}+i(Varm)*v(a3,a4)", ohm.armature));
}

std::string starter_lines(const RigParameters& p) {
  const StarterParameters& s = p.starter;
  const double turns = s.coil_turns * s.flux_fraction;
  const WindingOhms ohm{warm_ohm(s.drive_coil_ohm, "drive"), warm_ohm(s.hold_in_ohm, "drive"),
                        warm_ohm(s.field_coil_ohm, "field"),
                        warm_ohm(s.armature_ohm, "arm") + fmt::format("+{:.10g}", s.brush_added_ohm)};
  const std::string armature = "(" + ohm.armature + ")";
  return coil_lines("drive", "t", "d", ohm.drive, s.coil_leakage_H, turns, "m") +
         coil_lines("two", "d", "f", ohm.field, s.coil_leakage_H, turns, "2") +
         coil_lines("pair", "t", "f", "2*" + ohm.field, 2.0 * s.coil_leakage_H, 2.0 * turns, "34") +
         coil_lines("hold", "t", "g", ohm.hold_in, s.hold_in_leakage_H, s.hold_in_turns, "m") +
         pole_lines("m", s, fmt::format("{:.10g}*i(Vdrive)+{:.10g}*i(Vhold)", turns, s.hold_in_turns)) +
         pole_lines("2", s, fmt::format("{:.10g}*i(Vtwo)", turns)) +
         pole_lines("34", s, fmt::format("{:.10g}*i(Vpair)", turns)) + "Varm f a1 0\n" +
         fmt::format("Larm a1 a2 {:.10g} IC=0\n", s.armature_leakage_H) +
         fmt::format("Barm a2 a3 V=i(Varm)*{}\n", armature) +
         fmt::format("Bbrush a3 a4 V={:.10g}*tanh(i(Varm)/{:.10g})\n", s.brush_drop_V, s.brush_knee_A) +
         winding_heat_lines(p, {ohm.drive, ohm.hold_in, ohm.field, armature});
}

// The armature's speed is the voltage of node `w` (rad/s), its inertia a capacitor; torque is current.
std::string shaft_lines(const RigParameters& p, double torque_Nm) {
  const StarterParameters& s = p.starter;
  const std::string k = fmt::format("{:.10g}*0.25*(v(ironm)+v(iron2)+2*v(iron34))", s.machine_constant_Nm_per_A_T);
  return fmt::format("Bback a4 g V={}*v(w)\n", k) +
         fmt::format("Cw w 0 {:.10g} IC=0\n", s.armature_inertia_kg_m2 + p.drive.pinion_inertia_kg_m2) +
         fmt::format("Bw 0 w I={}*i(Varm)-({:.10g})*tanh(v(w))-{:.10g}*v(w)\n", k,
                     s.friction_Nm + s.drag_added_Nm + torque_Nm, s.friction_Nm_s);
}

double figure_in(const std::string& printed, const std::string& name) {
  const std::size_t line = printed.find("\n" + name);
  const std::size_t equals = line == std::string::npos ? line : printed.find('=', line);
  if (equals == std::string::npos) {
    throw std::runtime_error("ngspice ran but gave no `" + name + "`; it said:\n" + printed);
  }
  return std::stod(printed.substr(equals + 1));
}

std::string output_of(const std::string& command, int& status) {
  std::FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("no shell to run ngspice with");
  std::string printed;
  char piece[4096];
  std::size_t got = 0;
  while ((got = std::fread(piece, 1, sizeof piece, pipe)) > 0) printed.append(piece, got);
  status = pclose(pipe);
  return printed;
}

}  // namespace

std::string engaged_motor_deck(const RigParameters& parameters, double torque_Nm, double for_s) {
  const std::string span = fmt::format("from={:g} to={:g}\n", for_s - 1.0, for_s);
  return "* Engaged starter motor against a constant torque\n" + battery_lines(parameters) + circuit_lines(parameters) +
         starter_lines(parameters) + shaft_lines(parameters, torque_Nm) +
         ".options reltol=1e-5 abstol=1e-6 vntol=1e-6 method=gear\n" +
         fmt::format(".tran 1e-3 {:g} 0 1e-3 uic\n", for_s) + ".meas tran loop_a avg i(Vloop) " + span +
         ".meas tran posts_v avg v(posts) " + span + ".meas tran starter_v avg par('v(t)-v(g)') " + span +
         ".meas tran speed avg v(w) " + span + ".end\n";
}

DeckAnswer run_ngspice(const std::string& deck) {
  int status = 0;
  output_of("command -v ngspice", status);
  if (status != 0) throw std::runtime_error("ngspice is not installed: `apt-get install ngspice`, or run tests/run.sh");
  const std::filesystem::path path =
      std::filesystem::temp_directory_path() / fmt::format("voltfall_deck_{}.cir", getpid());
  std::ofstream(path) << deck;
  const auto began = std::chrono::steady_clock::now();
  const std::string printed = "\n" + output_of("ngspice -b '" + path.string() + "' 2>&1", status);
  const double wall_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
  std::filesystem::remove(path);
  if (status != 0) throw std::runtime_error("ngspice failed; it said:\n" + printed);
  return {.loop_A = figure_in(printed, "loop_a"),
          .battery_posts_V = figure_in(printed, "posts_v"),
          .starter_V = figure_in(printed, "starter_v"),
          .motor_rpm = figure_in(printed, "speed") * 30.0 / std::numbers::pi,
          .wall_s = wall_s};
}

}  // namespace voltfall
