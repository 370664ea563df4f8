#include "console/bay_commands.h"

#include <fmt/format.h>
#include <fmt/ostream.h>

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

#include "console/bay_text.h"
#include "console/hand_commands.h"
#include "console/kit_commands.h"
#include "console/text_report.h"
#include "console/told_table.h"
#include "console/typed_choice.h"
#include "console/typed_words.h"
#include "debrief/debrief_report.h"
#include "debrief/still_possible.h"
#include "faults/catalogue.h"
#include "text/nearest.h"
#include "wording/wording.h"

namespace voltfall {
namespace {

void put_probe(TextBay& bay, TypedWords rest, bool red) {
  if (id_from(rest) == "off") {
    bay.act(PutProbe{red, std::nullopt});
    return;
  }
  const auto point = point_among(bay, rest);
  if (point && bay.act(PutProbe{red, *point})) print_displays(bay.out(), bay.session());
}

void turn_key(TextBay& bay, TypedWords rest) {
  const auto id = id_among(bay, "key position", rest, {"off", "on", "start"});
  if (!id) return;
  bay.act(TurnKey{*id == "off" ? KeyPosition::off : *id == "on" ? KeyPosition::on : KeyPosition::start});
}

void shift(TextBay& bay, TypedWords rest) {
  const auto id = id_among(bay, "gear", rest, {"park", "neutral", "drive"});
  if (id) bay.act(ShiftGear{*id == "park" ? Gear::park : *id == "neutral" ? Gear::neutral : Gear::drive});
}

void disable_ignition(TextBay& bay, TypedWords rest) {
  const auto id = id_among(bay, "choice", rest, {"off", "live"});
  if (id) bay.act(DisableIgnition{*id == "off"});
}

void crank(TextBay& bay, TypedWords rest) {
  const auto hold_s = rest.empty() ? std::optional(2.0) : number_within(rest.front(), 0.1, 60.0);
  if (!hold_s) {
    fmt::print(bay.out(), "`{}` is no time to hold the key: 0.1 to 60 seconds\n", rest.front());
    return;
  }
  const auto noted = noted_after(bay, rest.empty() ? rest : rest.subspan(1));
  if (noted) bay.crank(TurnKey{KeyPosition::start}, TurnKey{KeyPosition::off}, *hold_s, *noted);
}

void wait(TextBay& bay, TypedWords rest) {
  const auto wait_s = rest.empty() ? std::nullopt : number_within(rest.front(), 0.1, 60.0);
  if (!wait_s) {
    fmt::print(bay.out(), "wait needs 0.1 to 60 seconds\n");
    return;
  }
  bay.run(*wait_s);
  print_displays(bay.out(), bay.session());
}

void pass_time(TextBay& bay, TypedWords rest) {
  const auto minutes = rest.empty() ? std::nullopt : number_within(rest.front(), 1.0, 720.0);
  if (!minutes) {
    fmt::print(bay.out(), "rest needs 1 to 720 minutes\n");
    return;
  }
  bay.act(PassTime{*minutes * 60.0});
}

void set_function(TextBay& bay, MeterFunction function) {
  if (bay.act(SetMeterFunction{function})) print_displays(bay.out(), bay.session());
}

void set_hold(TextBay& bay, TypedWords rest) {
  const auto id = id_among(bay, "hold", rest, {"lowest", "highest", "off"});
  if (!id) return;
  bay.act(SetMeterHold{*id == "off" ? MeterHold::none : *id == "lowest" ? MeterHold::lowest : MeterHold::highest});
}

void put_clamp(TextBay& bay, TypedWords rest) {
  const auto id = id_among(bay, "cable", rest, {"positive", "starter", "negative", "body_strap", "off"});
  if (!id) return;
  if (bay.act(PutClamp{heavy_cable_named(*id)})) print_displays(bay.out(), bay.session());
}

void note(TextBay& bay, TypedWords rest) {
  const auto kit = rest.empty() ? std::optional(Kit::multimeter) : display_among(bay, rest);
  if (kit && bay.act(NoteReading{*kit})) print_finding(bay.out(), bay.session().findings().back());
}

void hear(TextBay& bay, TypedWords rest) {
  Ids ids;
  for (const Observation& observation : all_observations()) ids.push_back(observation.id);
  const auto id = id_among(bay, "observation", rest, ids);
  if (id && bay.act(NoteObservation{*id})) print_finding(bay.out(), bay.session().findings().back());
}

void look(TextBay& bay, TypedWords rest) {
  const Ids ids(all_components().begin(), all_components().end());
  const auto id = id_among(bay, "component", rest, ids);
  if (id && bay.act(LookClosely{*id})) print_finding(bay.out(), bay.session().findings().back());
}

std::vector<std::string> names_in(TypedWords words) {
  std::vector<std::string> names;
  std::string name;
  for (const std::string& word : words) {
    if (word == "+") {
      names.push_back(std::exchange(name, {}));
    } else {
      name += (name.empty() ? "" : " ") + word;
    }
  }
  names.push_back(std::move(name));
  return names;
}

// An id, a whole name, or words that only one name holds; anything else gives an answer with what it could mean.
std::optional<std::string> fault_meant(TextBay& bay, const std::string& typed) {
  const std::vector<Nameable> known = english().namings();
  Ids ids;
  for (const Nameable& choice : known) ids.push_back(choice.id);
  const std::string as_id = id_from(split_words(typed));
  if (std::find(ids.begin(), ids.end(), as_id) != ids.end()) return as_id;
  if (auto id = english().meant_by(typed)) return id;
  const std::vector<Nameable> possible = english().complete(typed);
  if (possible.size() == 1) return possible.front().id;
  for (const Nameable& choice : possible) fmt::print(bay.out(), "Could be: {}\n", choice.name);
  if (possible.empty()) say_unknown(bay, "fault", typed, ids);
  return std::nullopt;
}

/// In a guided job at once, elsewhere in the debrief.
void say_what_is_open(TextBay& bay) {
  const Session& session = bay.session();
  if (session.scenario().level != Level::guided) return;
  const std::string open = still_possible(session.scenario(), session.findings(), session.namings().back(),
                                          told_tables()(session.scenario()), english());
  if (!open.empty()) fmt::print(bay.out(), "{}\n", open);
}

void name(TextBay& bay, TypedWords rest) {
  const auto split = std::find(rest.begin(), rest.end(), "evidence");
  NameFault naming;
  for (const std::string& typed : names_in(rest.first(static_cast<std::size_t>(split - rest.begin())))) {
    const auto id = fault_meant(bay, typed);
    if (!id) return;
    naming.fault_ids.push_back(*id);
  }
  for (auto word = split; word != rest.end(); ++word) {
    if (word == split) continue;
    const auto number = number_within(*word, 1, 9999);
    if (!number) {
      fmt::print(bay.out(), "`{}` is no finding number\n", *word);
      return;
    }
    naming.evidence.push_back(static_cast<int>(*number));
  }
  if (!bay.act(naming)) return;
  for (const std::string& id : naming.fault_ids) fmt::print(bay.out(), "Named: {}\n", english().fault(id));
  say_what_is_open(bay);
}

void repair(TextBay& bay, TypedWords rest) {
  Ids ids;
  for (const Repair& one : all_repairs()) ids.push_back(one.id);
  const auto id = id_among(bay, "repair", rest, ids);
  if (id) bay.act(DoRepair{*id});
}

// Everything that has to be in force before a crank, one action each.
void make_safe(TextBay& bay) {
  for (const Action& action : std::initializer_list<Action>{WearEyeProtection{true}, SetBrake{true},
                                                            ShiftGear{Gear::park}, DisableIgnition{true}}) {
    bay.act(action);
  }
  print_vehicle(bay.out(), bay.session());
}

void close_job(TextBay& bay) {
  if (!bay.act(CloseJob{})) return;
  if (!bay.session().score()) return fmt::print(bay.out(), "{}\n", english().text("sealed.not_released"));
  print_score(bay.out(), bay.session());
  fmt::print(bay.out(), "Debrief: {}\n", bay.session().scenario().debrief);
}

void debrief(TextBay& bay) {
  if (!bay.session().closed()) {
    fmt::print(bay.out(), "The job is not closed yet\n");
    return;
  }
  if (!bay.session().score()) return fmt::print(bay.out(), "{}\n", english().text("sealed.not_released"));
  print_debrief(bay.out(), debrief_contents(bay.session(), english()));
}

void list_points(TextBay& bay) {
  for (const TestPoint point : all_test_points()) {
    fmt::print(bay.out(), "{} {}: {}\n", number_of(point), id_of(point), english().point(point));
  }
}

void list_words(TextBay& bay, TypedWords rest) {
  const auto id = id_among(bay, "list", rest, {"points", "components", "observations", "faults", "repairs"});
  if (!id) return;
  std::ostream& out = bay.out();
  if (*id == "points") list_points(bay);
  if (*id == "components") {
    for (const std::string_view one : all_components()) fmt::print(out, "{}: {}\n", one, english().component(one));
  }
  if (*id == "observations") {
    for (const Observation& one : all_observations())
      fmt::print(out, "{}: {}\n", one.id, english().observation(one.id));
  }
  if (*id == "faults") {
    for (const Nameable& one : english().namings()) fmt::print(out, "{}: {}\n", one.id, one.name);
  }
  if (*id == "repairs") {
    for (const Repair& one : all_repairs()) {
      fmt::print(out, "{}: {}, {:.0f} min{}\n", one.id, english().repair(one.id), one.minutes,
                 one.needs_negative_off ? ", negative clamp off first" : "");
    }
  }
}

void list_findings(TextBay& bay) {
  if (bay.session().findings().empty()) fmt::print(bay.out(), "Nothing noted yet\n");
  for (const Finding& finding : bay.session().findings()) print_finding(bay.out(), finding);
}

void help(TextBay& bay) {
  for (const TextCommand& command : all_text_commands()) {
    fmt::print(bay.out(), "{}: {}\n", command.usage, command.meaning);
  }
  fmt::print(bay.out(), "leave: stop here; the record can be gone on with later\n");
}

constexpr std::array commands{
    TextCommand{"help", "help", "this list", [](TextBay& bay, TypedWords) { help(bay); }},
    TextCommand{"order", "order", "the work order again",
                [](TextBay& bay, TypedWords) { print_work_order(bay.out(), bay.session().scenario()); }},
    TextCommand{"list", "list points|components|observations|faults|repairs", "what can be named", list_words},
    TextCommand{"safe", "safe", "eye protection on, brake on, park, ignition disabled",
                [](TextBay& bay, TypedWords) { make_safe(bay); }},
    TextCommand{"eyes", "eyes on|off", "eye protection",
                [](TextBay& bay, TypedWords rest) {
                  switch_on_or_off(bay, rest, [](bool on) { return WearEyeProtection{on}; });
                }},
    TextCommand{
        "brake", "brake on|off", "parking brake",
        [](TextBay& bay, TypedWords rest) { switch_on_or_off(bay, rest, [](bool on) { return SetBrake{on}; }); }},
    TextCommand{"gear", "gear park|neutral|drive", "shift lever", shift},
    TextCommand{"ignition", "ignition off|live", "disable spark and fuel for cranking tests, or restore them",
                disable_ignition},
    TextCommand{"negative", "negative off|on", "negative clamp: off first, on last",
                [](TextBay& bay, TypedWords rest) {
                  switch_on_or_off(bay, rest, [](bool on) { return ConnectNegative{on}; });
                }},
    TextCommand{"lamps", "lamps on|off", "headlamps",
                [](TextBay& bay, TypedWords rest) {
                  switch_on_or_off(bay, rest, [](bool on) { return SwitchHeadlamps{on}; });
                }},
    TextCommand{"key", "key off|on|start", "with the key at start, time goes by only with wait", turn_key},
    TextCommand{"crank", "crank SECONDS [note [DISPLAY...]]", "hold the key, report, note what these show, let go",
                crank},
    TextCommand{"wait", "wait SECONDS", "let the vehicle run on as it stands", wait},
    TextCommand{"rest", "rest MINUTES", "let it cool, key off", pass_time},
    TextCommand{"red", "red NUMBER|NAME|off", "put the red lead on a test point",
                [](TextBay& bay, TypedWords rest) { put_probe(bay, rest, true); }},
    TextCommand{"black", "black NUMBER|NAME|off", "put the black lead on a test point",
                [](TextBay& bay, TypedWords rest) { put_probe(bay, rest, false); }},
    TextCommand{"volts", "volts", "meter on volts DC",
                [](TextBay& bay, TypedWords) { set_function(bay, MeterFunction::volts_dc); }},
    TextCommand{"ohms", "ohms", "meter on ohms",
                [](TextBay& bay, TypedWords) { set_function(bay, MeterFunction::ohms); }},
    TextCommand{"continuity", "continuity", "meter on its lowest ohm range, with a buzzer",
                [](TextBay& bay, TypedWords) { set_function(bay, MeterFunction::continuity); }},
    TextCommand{"amps", "amps", "meter on amperes DC, through its fuse: never across the battery",
                [](TextBay& bay, TypedWords) { set_function(bay, MeterFunction::amps_dc); }},
    TextCommand{"hold", "hold lowest|highest|off", "hold the extreme of 50 ms means", set_hold},
    TextCommand{"clamp", "clamp positive|starter|negative|body_strap|off", "clamp meter round a cable", put_clamp},
    TextCommand{"zero", "zero", "zero the clamp meter", [](TextBay& bay, TypedWords) { bay.act(ZeroClamp{}); }},
    TextCommand{"read", "read", "what the displays show",
                [](TextBay& bay, TypedWords) { print_displays(bay.out(), bay.session()); }},
    TextCommand{"note", "note [DISPLAY]",
                "note the meter's reading, or another display's; only noted ones are evidence", note},
    TextCommand{"hear", "hear OBSERVATION", "note what the latest crank sounded or looked like", hear},
    TextCommand{"look", "look COMPONENT", "look closely: a minute", look},
    TextCommand{"findings", "findings", "what is noted", [](TextBay& bay, TypedWords) { list_findings(bay); }},
    TextCommand{"state", "state", "vehicle, safety, minutes and money",
                [](TextBay& bay, TypedWords) { print_vehicle(bay.out(), bay.session()); }},
    TextCommand{"name", "name FAULT [+ FAULT] evidence NUMBER...", "name what is wrong; sealed once said", name},
    TextCommand{"repair", "repair REPAIR", "do a repair; power joints need the negative clamp off", repair},
    TextCommand{"close", "close", "hand the vehicle back: the score", [](TextBay& bay, TypedWords) { close_job(bay); }},
    TextCommand{"debrief", "debrief", "once handed back: every step, what it could tell, par, suspects",
                [](TextBay& bay, TypedWords) { debrief(bay); }},
    TextCommand{"timeline", "timeline", "what was done, with minutes and money",
                [](TextBay& bay, TypedWords) { print_timeline(bay.out(), bay.session()); }},
};

}  // namespace

std::span<const TextCommand> all_text_commands() {
  static const std::vector<TextCommand> all = [] {
    std::vector<TextCommand> joined(commands.begin(), commands.end());
    for (const auto more : {kit_text_commands(), hand_text_commands()})
      joined.insert(joined.end(), more.begin(), more.end());
    return joined;
  }();
  return all;
}

}  // namespace voltfall
