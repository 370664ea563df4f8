#include "outside/ngspice_deck.h"

#include <fmt/format.h>

#include <stdexcept>

#include "electrical/lamp.h"
#include "outside/ngspice_deck_parts.h"
#include "outside/ngspice_figures.h"
#include "outside/ngspice_netlist.h"
#include "rig/wiring.h"

namespace voltfall {
namespace {

constexpr double stiff_supply_ohm = 1.0e-5;

Controls controls_of(const DeckRun& run) {
  Controls controls;
  controls.key = KeyPosition::start;
  controls.headlamps = run.headlamps;
  return controls;
}

std::string node_of(TestPoint point) {
  return point == TestPoint::negative_post ? "0" : std::string(id_of(point));
}

// Rested volts and surface charge, ohmic part, two polarisation branches, and plates that starve as the acid in their
// pores is used up. Nodes `acid` (in the pores), `between_plates`, `charge` and `surface` hold those as voltages.
// Nothing on the stand charges the battery, and in seconds it warms by no more than a tenth of a kelvin: both are left
// out.
void write_battery(Netlist& netlist, const RigParameters& p) {
  const BatteryFigures figures = battery_figures(p.battery, p.battery.charge, p.ambient_C);
  const BatteryTimes times(figures);
  constexpr double less = 0.01;
  const double volts_per_charge =
      (figures.open_circuit_V - open_circuit_V(p.battery, p.battery.charge - less, p.ambient_C)) / less;
  netlist.comment("Battery; i(Vloop) is the current out of its + post");
  netlist.integral("charge", figures.capacity_As, p.battery.charge, "-i(Vloop)");
  netlist.integral("between_plates", 1.0, p.battery.charge,
                   fmt::format("(v(charge)-v(between_plates))/{:.10g}-i(Vloop)*{:.10g}", times.between_plates_s,
                               figures.between_plates_acid_per_As));
  netlist.integral(
      "acid", 1.0, p.battery.charge,
      fmt::format("(v(between_plates)-v(acid))/{:.10g}-i(Vloop)*{:.10g}", times.pores_s, figures.acid_per_As));
  netlist.integral(
      "surface", 1.0, p.battery.surface_charge_V,
      fmt::format("-v(surface)*(max(i(Vloop),0)/{:.10g}+{:.10g})", times.surface_As, 1.0 / times.surface_s));
  netlist.volts(
      "emf", "plates", "0",
      fmt::format("{:.10g}+v(surface)+{:.10g}*(v(charge)-{:.10g})+{:.10g}*ln(max(v(acid),0.005)/{:.10g})",
                  figures.open_circuit_V, volts_per_charge, p.battery.charge, times.starving_V, figures.rested_acid));
  netlist.resistor("ohmic", "plates", "fast_in", figures.ohmic_ohm);
  netlist.resistor("fast", "fast_in", "slow_in", figures.fast_ohm);
  netlist.line(fmt::format("Cfast fast_in slow_in {:.10g} IC=0", times.fast_s / figures.fast_ohm));
  netlist.resistor("slow", "slow_in", "posts", figures.slow_ohm);
  netlist.line(fmt::format("Cslow slow_in posts {:.10g} IC=0", times.slow_s / figures.slow_ohm));
  netlist.line("Vloop posts battery_positive_post 0");
}

void write_supply(Netlist& netlist, double supply_V) {
  netlist.comment("Stiff supply straight across the starter; i(Vloop) is its current");
  netlist.resistor("battery_absent", "battery_positive_post", "0", 1.0e9);
  netlist.line(fmt::format("Vsupply supply starter_case {:.10g}", supply_V));
  netlist.resistor("supply", "supply", "supply_end", stiff_supply_ohm);
  netlist.line("Vloop supply_end starter_terminal 0");
}

// One plain resistance, at the air's temperature: within a few seconds no cable warms by more than a kelvin or two. One
// that the relay's disc switches has two values.
void write_resistor(Netlist& netlist, Resistor resistor, const RigParameters& p, const Controls& controls) {
  const ResistorEnds ends = ends_of(resistor);
  const std::string name = fmt::format("r{}", static_cast<int>(resistor));
  const std::string from = resistor == Resistor::winding_to_case ? "brush_bus" : node_of(ends.from);
  const std::string to = node_of(ends.to);
  const double open_ohm = resistor_ohm(resistor, p, controls, false, p.ambient_C);
  const double closed_ohm = resistor_ohm(resistor, p, controls, true, p.ambient_C);
  if (closed_ohm == open_ohm) {
    netlist.resistor(name, from, to, open_ohm);
  } else {
    netlist.current(name, from, to,
                    switch_text(fmt::format("(v({})-v({}))", from, to), closed_ohm, open_ohm, "v(relay_touch)"));
  }
}

// The filament's resistance goes with its own lagging volts, node `filament`, to the power 0.45, from a twelfth.
void write_lamps(Netlist& netlist, const RigParameters& p) {
  constexpr double rated_V = 12.8;
  const double hot_ohm = lamp_ohm(p.body.headlamp_W, rated_V);
  netlist.comment("Headlamps");
  netlist.integral("filament", filament_time_s(), 0.0, "abs(v(headlamp_feed,headlamp_ground))-v(filament)");
  netlist.current(
      "lamps", "headlamp_feed", "headlamp_ground",
      fmt::format("v(headlamp_feed,headlamp_ground)/({:.10g}*max((max(v(filament),1e-3)/{:g})^0.45,{:.10g}))", hot_ohm,
                  rated_V, 1.0 / 12.0));
}

void write_analysis(Netlist& netlist, const DeckRun& run) {
  netlist.comment("Analysis");
  netlist.line(
      ".save v(battery_positive_post) v(starter_terminal) v(starter_case) v(s_terminal) v(relay_case) v(body) "
      "v(engine_block) v(relay_motor_stud) v(relay_battery_stud) v(shoe) v(plunger) v(disc) v(relay_disc) v(armature) "
      "v(relay_touch) "
      "v(grounding_touch) i(Vloop) i(Vrelay_coil) i(Vdrive)");
  netlist.line(".options reltol=1e-5 abstol=1e-6 vntol=1e-6 itl4=60");
  netlist.line(fmt::format(".tran {0:g} {1:g} 0 {0:g} uic", run.longest_step_s, run.for_s));
  netlist.line(".end");
}

}  // namespace

std::string vehicle_deck(std::string_view title, const RigParameters& parameters, const DeckRun& run) {
  if (run.load.kind != Load::torque && run.load.kind != Load::free) {
    throw std::invalid_argument("a deck can only stand on the test stand, with a free pinion or a braked one");
  }
  Netlist netlist(title);
  if (run.load.supply_V > 0.0) {
    write_supply(netlist, run.load.supply_V);
  } else {
    write_battery(netlist, parameters);
  }
  netlist.comment("Every plain resistance, in the order of the model's table");
  for (std::size_t i = 0; i < resistor_count; ++i) {
    write_resistor(netlist, static_cast<Resistor>(i), parameters, controls_of(run));
  }
  write_lamps(netlist, parameters);
  write_relay(netlist, parameters);
  write_starter(netlist, parameters);
  write_wheels(netlist, parameters, run.load.kind == Load::torque ? run.load.torque_Nm : 0.0);
  write_analysis(netlist, run);
  return netlist.text();
}

}  // namespace voltfall
