#include "outside/ngspice_netlist.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace voltfall {
namespace {

constexpr double mu0 = 4.0e-7 * std::numbers::pi;  // H/m

// Stops, friction and the turn of a motion are steps in the model; here they are slopes so steep that no reading shows
// them.
constexpr double creep_m_per_s = 1.0e-3;
constexpr double turning_m_per_s = 5.0e-3;

}  // namespace

Netlist::Netlist(std::string_view title) : text_(fmt::format("* {}\n", title)) {}

void Netlist::comment(std::string_view words) {
  text_ += fmt::format("\n* {}\n", words);
}

void Netlist::line(const std::string& words) {
  text_ += words + "\n";
}

void Netlist::resistor(std::string_view name, std::string_view from, std::string_view to, double ohm) {
  line(fmt::format("R{} {} {} {:.10g}", name, from, to, ohm));
}

void Netlist::current(std::string_view name, std::string_view from, std::string_view to, const std::string& amperes) {
  line(fmt::format("B{} {} {} I={}", name, from, to, amperes));
}

void Netlist::volts(std::string_view name, std::string_view from, std::string_view to, const std::string& volts) {
  line(fmt::format("B{} {} {} V={}", name, from, to, volts));
}

// A large capacitor's row would tempt ngspice to pivot on it, which at short steps costs all digits: so all are small.
void Netlist::integral(std::string_view node, double per_V, double start, const std::string& rate) {
  constexpr double small_F = 1.0e-3;
  line(fmt::format("C{0} {0} 0 {1:g} IC={2:.10g}", node, small_F, start));
  current(node, "0", node, fmt::format("{:.10g}*({})", small_F / per_V, rate));
}

void write_coil(Netlist& netlist, const CoilText& coil) {
  netlist.line(fmt::format("V{0} {1} {0}_a 0", coil.name, coil.from));
  netlist.line(fmt::format("L{0} {0}_a {0}_b {1:.10g} IC=0", coil.name, coil.leakage_H));
  netlist.volts(coil.name, fmt::format("{}_b", coil.name), coil.to,
                fmt::format("i(V{})*({})+{:.10g}*v(turn_{})", coil.name, coil.ohm, coil.turns, coil.pole));
}

void write_pole(Netlist& netlist, const PoleText& pole) {
  const std::string tesla = fmt::format("tesla_{}", pole.name);
  // ngspice's first guesses may overshoot what iron can carry.
  const std::string full = fmt::format("min(max(v({})/{:.10g},-0.9999),0.9999)", tesla, pole.saturation_T);
  const std::string needed = fmt::format("v({0})*{1:.12g}*({2}+{3:.10g}/(1-({4})*({4})))", tesla, 1.0 / mu0, pole.gap_m,
                                         pole.iron_gap_m, full);
  const std::string left_over = fmt::format("({})-{}", pole.ampere_turns, needed);
  netlist.integral(tesla, pole.area_m2 / pole.eddy_ohm, 0.0, left_over);
  netlist.volts(fmt::format("turn_{}", pole.name), fmt::format("turn_{}", pole.name), "0",
                fmt::format("{:.10g}*({})", pole.eddy_ohm, left_over));
}

std::string pull_text(std::string_view pole, double area_m2) {
  return fmt::format("{:.12g}*{}", area_m2 / (2.0 * mu0), square_text(fmt::format("v(tesla_{})", pole)));
}

std::string stop_text(double N_per_m, double restitution, const std::string& pressed_mm, const std::string& closing) {
  const double given_back = restitution * restitution;
  return fmt::format("{:.10g}*{}*({:.10g}+{:.10g}*min(max(0.5+{}/{:g},0),1))", 1.0e-3 * N_per_m, pressed_mm, given_back,
                     1.0 - given_back, closing, 2.0 * turning_m_per_s);
}

void write_slide(Netlist& netlist, const SlideText& slide) {
  const std::string speed = fmt::format("v({}_speed)", slide.name);
  const std::string beyond = fmt::format("max(v({})-{:.10g},0)", slide.name, 1.0e3 * slide.travel_m);
  const std::string before = fmt::format("max(-v({}),0)", slide.name);
  const double stop_N_per_m = slide.mass_kg / (slide.stop_s * slide.stop_s);
  netlist.integral(slide.name, 1.0e-3, 0.0, speed);
  netlist.integral(fmt::format("{}_speed", slide.name), slide.mass_kg, 0.0,
                   fmt::format("{}-{:.10g}*{}-{:.10g}*{}/max(abs({}),{:g})", slide.push_N, slide.damping_Ns_per_m,
                               speed, slide.friction_N, speed, speed, creep_m_per_s) +
                       "-" + stop_text(stop_N_per_m, slide.restitution, beyond, speed) + "+" +
                       stop_text(stop_N_per_m, slide.restitution, before, "-" + speed));
}

std::string switch_text(const std::string& volts, double closed_ohm, double open_ohm, std::string_view touching) {
  return fmt::format("{}*exp({:.12g}+{:.12g}*{})", volts, -std::log(open_ohm), std::log(open_ohm / closed_ohm),
                     touching);
}

void write_contact(Netlist& netlist, const ContactText& contact) {
  const std::string volts = fmt::format("v({},{})", contact.from, contact.to);
  netlist.current(contact.name, contact.from, contact.to,
                  fmt::format("{0}+(max({1}-{2},0)-max(-{1}-{2},0))/{3:g}",
                              switch_text(volts, contact.closed_ohm, contact.open_ohm, contact.touching), volts,
                              contact.arc_V, contact.arc_ohm));
}

std::string square_text(const std::string& value) {
  constexpr double beyond_reach = 1.0e8;
  return fmt::format("min({0}*{0},{1:g})", value, beyond_reach);
}

std::string past_text(const std::string& value, double threshold, double width) {
  return fmt::format("min(max(({}-({:.10g}))/{:g},0),1)", value, threshold, width);
}

void write_lump(Netlist& netlist, std::string_view name, double J_per_K, double cooling_s, double ambient_C,
                const std::string& watts) {
  netlist.integral(fmt::format("celsius_{}", name), J_per_K, ambient_C,
                   fmt::format("{}-(v(celsius_{})-{:.10g})*{:.10g}", watts, name, ambient_C, J_per_K / cooling_s));
}

std::string copper_text(double ohm_at_20C, std::string_view lump) {
  return fmt::format("{:.10g}*(1+0.00393*(v(celsius_{})-20))", ohm_at_20C, lump);
}

}  // namespace voltfall
