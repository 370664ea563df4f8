#include "outside/ngspice_cases.h"

#include <algorithm>
#include <stdexcept>

namespace voltfall {
namespace {

constexpr double cranking_Nm = 4.5;  // at the pinion: what a warm engine asks for
constexpr double settling_s = 2.5;
constexpr double lost_ohm = 1.0e7;

DeckRun braked(double for_s, double torque_Nm = cranking_Nm) {
  DeckRun run;
  run.load = {.kind = Load::torque, .torque_Nm = torque_Nm};
  run.for_s = for_s;
  return run;
}

DeckCase healthy() {
  return {"healthy", "Healthy vehicle, key to start", {}, braked(settling_s)};
}

DeckCase added_resistance() {
  DeckCase added{"added_resistance", "10 mohm at the starter's terminal", {}, braked(settling_s)};
  added.parameters.joints.starter_terminal.added_ohm = 0.010;
  return added;
}

DeckCase control_side() {
  DeckCase loose{"control_side", "1 ohm at the relay's push-on", {}, braked(1.0)};
  loose.parameters.control.s_push_on_ohm = 1.0;
  return loose;
}

DeckCase lost_strap() {
  DeckCase lost{"lost_strap", "Body strap lost: the relay's current goes through control cables", {}, braked(1.0)};
  lost.parameters.joints.body_strap.added_ohm = lost_ohm;
  lost.parameters.body.parasitic_ohm = 0.5;
  return lost;
}

DeckCase lost_strap_lamps() {
  DeckCase lit = lost_strap();
  lit.id = "lost_strap_lamps";
  lit.title = "Body strap lost, headlamps on: too little is left for the relay";
  lit.run.headlamps = true;
  lit.parameters.body.parasitic_ohm = 1.0;
  return lit;
}

DeckCase chatter() {
  DeckCase corroded{"chatter", "50 mohm at the positive clamp: the relay chatters", {}, braked(0.6)};
  corroded.parameters.joints.positive_clamp.added_ohm = 0.050;
  return corroded;
}

DeckCase pull_in() {
  DeckCase bench{"pull_in", "Shoe pulled in over its moving gap, 8 V straight across the starter", {}, braked(0.3)};
  bench.run.load.supply_V = 8.0;
  return bench;
}

DeckCase cold() {
  DeckCase other{"cold", "Another starter at -10 C, battery at three fifths", {}, braked(settling_s, 6.0)};
  other.parameters.ambient_C = -10.0;
  other.parameters.battery.charge = 0.6;
  other.parameters.starter.coil_turns = 13.0;
  other.parameters.starter.field_coil_ohm = 0.005;
  other.parameters.starter.brush_drop_V = 1.6;
  return other;
}

DeckCase heavy_load() {
  return {"heavy_load", "Healthy vehicle against 13 N.m", {}, braked(settling_s, 13.0)};
}

}  // namespace

const std::vector<DeckCase>& deck_cases() {
  static const std::vector<DeckCase> cases{healthy(),          added_resistance(), control_side(), lost_strap(),
                                           lost_strap_lamps(), chatter(),          pull_in(),      cold(),
                                           heavy_load()};
  return cases;
}

const DeckCase& deck_case(std::string_view id) {
  const auto found =
      std::find_if(deck_cases().begin(), deck_cases().end(), [&](const DeckCase& one) { return one.id == id; });
  if (found == deck_cases().end()) throw std::invalid_argument("no deck is called `" + std::string(id) + "`");
  return *found;
}

}  // namespace voltfall
