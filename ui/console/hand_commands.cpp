#include "console/hand_commands.h"

#include <fmt/format.h>
#include <fmt/ostream.h>

#include <array>

#include "console/bay_text.h"
#include "console/text_report.h"
#include "console/typed_choice.h"
#include "faults/catalogue.h"
#include "wording/wording.h"

namespace voltfall {
namespace {

std::optional<std::string> component_among(TextBay& bay, TypedWords rest) {
  return id_among(bay, "component", rest, Ids(all_components().begin(), all_components().end()));
}

void print_last_finding(TextBay& bay) {
  print_finding(bay.out(), bay.session().findings().back());
}

void disturb(TextBay& bay, TypedWords rest, Touch how) {
  const auto component = component_among(bay, rest);
  const bool done = component && bay.act(DisturbPart{how, *component});
  if (done && makes_finding(DisturbPart{how, *component})) print_last_finding(bay);
}

void feel(TextBay& bay, TypedWords rest) {
  const auto component = component_among(bay, rest);
  if (component && bay.act(FeelPart{*component})) print_last_finding(bay);
}

void test_on_bench(TextBay& bay, TypedWords rest) {
  const auto id = id_among(bay, "bench test", rest, {"no_load", "hold_in", "clutch_torque", "brush_length"});
  if (id && bay.act(TestOnBench{*bench_test_named(*id)})) print_last_finding(bay);
}

void move_pedal(TextBay& bay, TypedWords rest) {
  const auto id = id_among(bay, "choice", rest, {"down", "up"});
  if (id) bay.act(MoveClutchPedal{*id == "down"});
}

void take_plugs(TextBay& bay, TypedWords rest) {
  const auto id = id_among(bay, "choice", rest, {"out", "in"});
  if (id) bay.act(TakePlugsOut{*id == "out"});
}

void strike(TextBay& bay, TypedWords rest, bool struck) {
  Ids ids;
  for (const Fault& fault : all_faults()) ids.push_back(fault.id);
  const auto id = id_among(bay, "fault", rest, ids);
  if (id) bay.act(StrikeSuspect{*id, struck});
}

void list_suspects(TextBay& bay) {
  for (const Fault& fault : all_faults()) {
    const bool struck = bay.session().struck_suspects().count(std::string(fault.id)) == 1;
    fmt::print(bay.out(), "{}{}: {}\n", struck ? "struck: " : "", fault.id, english().fault(fault.id));
  }
}

constexpr std::array commands{
    TextCommand{"pedal", "pedal down|up", "clutch pedal", move_pedal},
    TextCommand{
        "s_wire", "s_wire on|off", "the push-on wire of the relay's S terminal",
        [](TextBay& bay, TypedWords rest) { switch_on_or_off(bay, rest, [](bool on) { return LiftSWire{!on}; }); }},
    TextCommand{
        "belt", "belt on|off", "the accessory belt",
        [](TextBay& bay, TypedWords rest) { switch_on_or_off(bay, rest, [](bool on) { return TakeBeltOff{!on}; }); }},
    TextCommand{"plugs", "plugs out|in", "all spark plugs", take_plugs},
    TextCommand{"bar", "bar", "two turns of the engine by hand; it comes to rest elsewhere",
                [](TextBay& bay, TypedWords) {
                  if (bay.act(BarEngine{})) print_last_finding(bay);
                }},
    TextCommand{"wiggle", "wiggle COMPONENT", "does it give?",
                [](TextBay& bay, TypedWords rest) { disturb(bay, rest, Touch::wiggle); }},
    TextCommand{"press", "press COMPONENT", "press on it",
                [](TextBay& bay, TypedWords rest) { disturb(bay, rest, Touch::press); }},
    TextCommand{"tap", "tap COMPONENT", "with a soft hammer",
                [](TextBay& bay, TypedWords rest) { disturb(bay, rest, Touch::tap); }},
    TextCommand{"feel", "feel COMPONENT", "the back of a hand on it, key off; thermometer first", feel},
    TextCommand{"starter", "starter on|off", "take the starter off the engine, negative off first, or put it back",
                [](TextBay& bay, TypedWords rest) {
                  switch_on_or_off(bay, rest, [](bool on) { return TakeStarterOff{!on}; });
                }},
    TextCommand{"bench", "bench no_load|hold_in|clutch_torque|brush_length", "test the starter on the bench",
                test_on_bench},
    TextCommand{"strike", "strike FAULT", "strike it off your own list of suspects",
                [](TextBay& bay, TypedWords rest) { strike(bay, rest, true); }},
    TextCommand{"unstrike", "unstrike FAULT", "put it back on the list",
                [](TextBay& bay, TypedWords rest) { strike(bay, rest, false); }},
    TextCommand{"suspects", "suspects", "your own list", [](TextBay& bay, TypedWords) { list_suspects(bay); }},
};

}  // namespace

std::span<const TextCommand> hand_text_commands() {
  return commands;
}

}  // namespace voltfall
