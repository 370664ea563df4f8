#include <fmt/format.h>

#include <cmath>

#include "outside/ngspice_deck_parts.h"
#include "outside/ngspice_figures.h"
#include "outside/ngspice_netlist.h"
#include "rig/relay.h"

namespace voltfall {
namespace {

// Plunger and disc: the disc rides on the plunger's collar, meets the studs, bounces there, and is then pressed on by
// the contact spring, whose preload comes in over the first of its travel. The collar is a stop that takes the disc
// along without rebound; outwards it holds it for less than a micron and no more than some 30 N.
void write_mechanism(Netlist& netlist, const RigParameters& p) {
  const RelayParameters& relay = p.relay;
  const RelayFigures figures(relay);
  constexpr double collar_N_per_m = 1.0e8, collar_reach_mm = 3.0e-4, collar_Ns_per_m = 30.0;
  netlist.volts("contact_spring", "contact_spring", "0",
                fmt::format("{:.10g}*min(max(v(plunger,disc),0)/{:.10g},1)+{:.10g}*max(v(plunger,disc),0)",
                            relay.contact_spring_N, 1.0e3 * figures.settling_m, 1.0e-3 * relay.contact_spring_N_per_m));
  const std::string holding = past_text("v(disc,plunger)", -2.0 * collar_reach_mm, collar_reach_mm);
  netlist.volts("collar", "collar", "0",
                stop_text(collar_N_per_m, 0.0, "max(v(disc,plunger),0)", "v(disc_speed,plunger_speed)") +
                    fmt::format("+({:.10g}*min(v(disc,plunger),0)+{:.10g}*v(disc_speed,plunger_speed))*{}",
                                1.0e-3 * collar_N_per_m, collar_Ns_per_m, holding));
  write_slide(netlist, {"plunger", relay.plunger_mass_kg, relay.plunger_travel_m, relay.plunger_friction_N,
                        relay.plunger_damping_Ns_per_m, figures.stop_restitution, 1.0e-5,
                        fmt::format("{}-({:.10g}+{:.10g}*v(plunger))-v(contact_spring)+v(collar)",
                                    pull_text("relay", relay.pole_area_m2), relay.return_spring_N,
                                    1.0e-3 * relay.return_spring_N_per_m)});
  write_slide(netlist, {"disc", relay.disc_mass_kg, relay.contact_touch_m, 0.0, 0.0, figures.stud_restitution, 1.0e-6,
                        "v(contact_spring)-v(collar)"});
}

// Metal touches in narrow spots that the current heats: node `spot` is their cold resistance in micro-ohm. Where the
// volts across them would melt copper they grow, and stay so until the contact opens.
void write_constriction(Netlist& netlist, const RigParameters& p) {
  constexpr double kelvins_at_0C = 273.15, melting_K = 1356.0, lorenz_V2_per_K2 = 2.44e-8, copper_per_K = 0.00393;
  constexpr double growing_microhm_per_Vs = 1.0e8, forgetting_s = 1.0e-5;
  const double body_K = p.ambient_C + kelvins_at_0C;
  const double melting_V = std::sqrt(4.0 * lorenz_V2_per_K2 * (melting_K * melting_K - body_K * body_K));
  const double cold_microhm = 1.0e6 * p.relay.constriction_ohm;
  const std::string volts = "v(relay_battery_stud,relay_disc)";
  const std::string hot =
      fmt::format("(1+{:.10g}*(sqrt({:.10g}+min({},{:.10g})*{:.10g})-{:.10g}))", 2.0 / 3.0 * copper_per_K,
                  body_K * body_K, square_text(volts), melting_V * melting_V, 0.25 / lorenz_V2_per_K2, body_K);
  netlist.current("constriction", "relay_battery_stud", "relay_disc",
                  fmt::format("1e6*{}/(max(v(spot),1)*{})", volts, hot));
  netlist.integral("spot", 1.0, cold_microhm,
                   fmt::format("{:g}*(1-v(relay_touch))*({:.10g}-v(spot))-{:g}*max(abs({})-{:.10g},0)",
                               1.0 / forgetting_s, cold_microhm, growing_microhm_per_Vs, volts, melting_V));
}

}  // namespace

void write_relay(Netlist& netlist, const RigParameters& p) {
  const RelayParameters& relay = p.relay;
  const PoleParameters pole = relay_pole(relay);
  const ArcFigures arc;
  const LumpFigures lump = WindingLumps(p).relay_coil;
  // To the model a rebound slower than 0.02 m/s is none; so the slow need this much travel to part.
  constexpr double trembling_mm = 7.0e-4, trembling_m_per_s = 0.025;
  const double touch_mm = 1.0e3 * relay.contact_touch_m;
  const std::string copper = copper_text(relay.coil_ohm, "relay_coil");
  netlist.comment("Relay: nodes plunger and disc (mm), plunger_speed and disc_speed (m/s)");
  write_coil(netlist,
             {"relay_coil", "s_terminal", "relay_case", copper, relay_coil_leakage_H(p), relay.coil_turns, "relay"});
  write_lump(netlist, "relay_coil", lump.J_per_K, lump.cooling_s, p.ambient_C,
             fmt::format("{}*{}", square_text("i(Vrelay_coil)"), copper));
  write_pole(netlist, {"relay", pole.area_m2, pole.iron_gap_m, pole.saturation_T, relay_eddy_ohm(relay),
                       fmt::format("({:.10g}-1e-3*v(plunger))", relay.plunger_travel_m),
                       fmt::format("{:.10g}*i(Vrelay_coil)", relay.coil_turns)});
  write_mechanism(netlist, p);
  const std::string slow = "(1-" + past_text("abs(v(disc_speed))", trembling_m_per_s, 0.4 * trembling_m_per_s) + ")";
  netlist.volts(
      "relay_touch", "relay_touch", "0",
      past_text(fmt::format("(v(disc)+{:g}*{})", trembling_mm, slow), touch_mm - contact_edge_mm, contact_edge_mm));
  write_constriction(netlist, p);
  write_contact(netlist,
                {"relay_contact", "relay_disc", "relay_motor_stud", "v(relay_touch)",
                 fmt::format("({:.10g}+{:.10g}*max({:.10g}-v(disc),0))", arc.least_V, 1.0e-3 * arc.V_per_m, touch_mm),
                 relay.contact_ohm, p.body.insulation_ohm, arc.ohm});
}

}  // namespace voltfall
