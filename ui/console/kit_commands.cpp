#include "console/kit_commands.h"

#include <fmt/format.h>
#include <fmt/ostream.h>

#include <algorithm>
#include <array>
#include <string>

#include "console/bay_text.h"
#include "console/text_report.h"
#include "console/typed_choice.h"
#include "console/typed_words.h"

namespace voltfall {
namespace {

template <typename Things>
Ids ids_of(const Things& things) {
  Ids ids;
  for (const auto& thing : things) ids.push_back(id_of(thing));
  return ids;
}

struct TwoPoints {
  TestPoint first, last;
};

// `ONE to OTHER`, each a number or a name of one word or several.
std::optional<TwoPoints> points_joined(TextBay& bay, TypedWords words) {
  const auto to = static_cast<std::size_t>(std::find(words.begin(), words.end(), "to") - words.begin());
  if (to == words.size()) {
    fmt::print(bay.out(), "Two points are needed: POINT to POINT, the last one connected last\n");
    return std::nullopt;
  }
  const auto first = point_among(bay, words.first(to));
  const auto last = first ? point_among(bay, words.subspan(to + 1)) : std::nullopt;
  return last ? std::optional(TwoPoints{*first, *last}) : std::nullopt;
}

std::optional<Device> device_among(TextBay& bay, TypedWords words) {
  const auto id = id_among(bay, "device", words, ids_of(all_devices()));
  return id ? device_named(*id) : std::nullopt;
}

void hang(TextBay& bay, TypedWords rest) {
  const auto device = device_among(bay, rest.first(std::min<std::size_t>(rest.size(), 1)));
  if (!device) return;
  const auto points = points_joined(bay, rest.subspan(1));
  if (points && bay.act(HangDevice{{*device, points->first, points->last}})) print_kit(bay.out(), bay.session());
}

void take(TextBay& bay, TypedWords rest) {
  if (const auto device = device_among(bay, rest)) bay.act(TakeDeviceOff{*device});
}

void press_remote(TextBay& bay, TypedWords rest) {
  const auto hold_s = number_among(bay, rest, 0.1, 60.0, "remote: seconds to hold it");
  if (!hold_s) return;
  if (const auto noted = noted_after(bay, rest.subspan(1))) {
    bay.crank(PressRemote{true}, PressRemote{false}, *hold_s, *noted);
  }
}

// With seconds the pile is let go again after them; without it stays on.
void load(TextBay& bay, TypedWords rest) {
  const auto amps = number_among(bay, rest, 0.0, LoadTester::most_A, "load: amperes");
  if (!amps) return;
  const bool timed = rest.size() > 1;
  const auto hold_s = timed ? number_among(bay, rest.subspan(1), 0.1, 60.0, "load: seconds") : std::nullopt;
  if (timed && !hold_s) return;
  const auto noted = noted_after(bay, timed ? rest.subspan(2) : rest.subspan(1));
  if (!noted || !bay.act(TurnLoadTester{*amps}) || !timed) return;
  bay.run(*hold_s);
  print_kit(bay.out(), bay.session());
  for (const Kit kit : *noted) {
    if (bay.act(NoteReading{kit})) print_finding(bay.out(), bay.session().findings().back());
  }
  bay.act(TurnLoadTester{0.0});
}

void replace_fuse(TextBay& bay, TypedWords rest) {
  const auto id = id_among(bay, "fuse", rest, {"meter", "jumper"});
  if (id) bay.act(ReplaceFuse{*id == "meter" ? Kit::multimeter : Kit::fused_jumper});
}

void act_and_print_finding(TextBay& bay, const Action& action) {
  if (bay.act(action)) print_finding(bay.out(), bay.session().findings().back());
}

void dip(TextBay& bay, TypedWords rest) {
  const auto cell = number_among(bay, rest, 1.0, 6.0, "cell: from the + end");
  if (cell) act_and_print_finding(bay, DipHydrometer{static_cast<int>(*cell)});
}

void aim(TextBay& bay, TypedWords rest) {
  if (id_from(rest) == "off") {
    bay.act(AimThermometer{});
    return;
  }
  const auto point = point_among(bay, rest);
  if (point && bay.act(AimThermometer{*point})) print_kit(bay.out(), bay.session());
}

void clip_channel(TextBay& bay, TypedWords rest) {
  const auto channel = number_among(bay, rest, 1.0, 2.0, "channel: number");
  if (!channel) return;
  PutRecorderChannel clip{static_cast<int>(*channel), {}, {}, {}};
  const TypedWords where = rest.subspan(1);
  if (const auto cable = heavy_cable_named(id_from(where))) {
    clip.round = cable;
  } else if (id_from(where) != "off") {
    const auto points = points_joined(bay, where);
    if (!points) return;
    clip.red = points->first;
    clip.black = points->last;
  }
  bay.act(clip);
}

void arm(TextBay& bay, TypedWords rest) {
  const auto level = number_among(bay, rest, -2000.0, 2000.0, "arm: level in V or A");
  if (!level) return;
  const auto slope =
      id_among(bay, "slope", rest.subspan(1, std::min<std::size_t>(rest.size() - 1, 1)), {"rising", "falling"});
  if (!slope) return;
  const auto span_s =
      number_among(bay, rest.subspan(2), Recorder::shortest_span_s, Recorder::longest_span_s, "arm: seconds");
  if (span_s) bay.act(ArmRecorder{*level, *slope == "rising", *span_s});
}

constexpr std::array commands{
    TextCommand{"kit", "kit", "what is in this job's kit, where it hangs, what it shows",
                [](TextBay& bay, TypedWords) { print_kit(bay.out(), bay.session()); }},
    TextCommand{"hang", "hang DEVICE POINT to POINT", "hang it across two points; the second is connected last", hang},
    TextCommand{"take", "take DEVICE", "take it off again", take},
    TextCommand{"remote", "remote SECONDS [note [DISPLAY...]]", "hold the remote switch, report, note, let go",
                press_remote},
    TextCommand{"load", "load AMPS [SECONDS [note DISPLAY...]]",
                "turn the load tester up; with seconds, down again after", load},
    TextCommand{"bridge", "bridge", "lay a tool across the relay's heavy studs",
                [](TextBay& bay, TypedWords) { bay.act(BridgeStuds{}); }},
    TextCommand{"fuse", "fuse meter|jumper", "a new fuse, where one has blown", replace_fuse},
    TextCommand{"cell", "cell NUMBER", "hydrometer in one cell, 1 to 6 from the + end", dip},
    TextCommand{"conductance", "conductance", "conductance tester on the posts, battery at rest",
                [](TextBay& bay, TypedWords) { act_and_print_finding(bay, TestConductance{}); }},
    TextCommand{"aim", "aim POINT|off", "infrared thermometer at a point; bright metal reads low", aim},
    TextCommand{"channel", "channel 1|2 POINT to POINT|CABLE|off", "what the recorder's channel is clipped to",
                clip_channel},
    TextCommand{"arm", "arm LEVEL rising|falling SECONDS", "recorder: wait for channel 1 to cross the level", arm},
    TextCommand{"trace", "trace", "the recorder's capture in figures",
                [](TextBay& bay, TypedWords) { print_trace(bay.out(), bay.session()); }},
};

}  // namespace

std::span<const TextCommand> kit_text_commands() {
  return commands;
}

std::optional<Kit> display_among(TextBay& bay, TypedWords words) {
  const Ids ids = ids_of(std::array{Kit::multimeter, Kit::clamp_meter, Kit::load_tester, Kit::test_lamp,
                                    Kit::thermometer, Kit::tachometer, Kit::recorder});
  const auto id = id_among(bay, "display", words, ids);
  return id ? kit_named(*id) : std::nullopt;
}

std::optional<std::vector<Kit>> noted_after(TextBay& bay, TypedWords words) {
  if (words.empty()) return std::vector<Kit>{};
  if (words.front() != "note") {
    say_unknown(bay, "word here", words.front(), {"note"});
    return std::nullopt;
  }
  if (words.size() == 1) return std::vector<Kit>{Kit::multimeter};
  std::vector<Kit> noted;
  for (std::size_t i = 1; i < words.size(); ++i) {
    const auto kit = display_among(bay, words.subspan(i, 1));
    if (!kit) return std::nullopt;
    noted.push_back(*kit);
  }
  return noted;
}

}  // namespace voltfall
