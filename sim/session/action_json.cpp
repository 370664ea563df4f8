#include "session/action_json.h"

#include <fmt/format.h>

#include <array>
#include <map>
#include <stdexcept>
#include <string_view>

#include "text/nearest.h"

namespace voltfall {
namespace {

using Json = nlohmann::json;
using OrderedJson = nlohmann::ordered_json;

template <typename Value>
struct Word {
  Value value;
  std::string_view id;
};
template <typename Value>
Word(Value, std::string_view) -> Word<Value>;

constexpr std::array key_words{Word{KeyPosition::off, "off"}, Word{KeyPosition::on, "on"},
                               Word{KeyPosition::start, "start"}};
constexpr std::array gear_words{Word{Gear::park, "park"}, Word{Gear::neutral, "neutral"}, Word{Gear::drive, "drive"}};
constexpr std::array function_words{Word{MeterFunction::volts_dc, "volts_dc"}, Word{MeterFunction::ohms, "ohms"},
                                    Word{MeterFunction::continuity, "continuity"},
                                    Word{MeterFunction::amps_dc, "amps_dc"}};
constexpr std::array touch_words{Word{Touch::wiggle, "wiggle"}, Word{Touch::press, "press"}, Word{Touch::tap, "tap"}};
constexpr std::array hold_words{Word{MeterHold::none, "none"}, Word{MeterHold::lowest, "lowest"},
                                Word{MeterHold::highest, "highest"}};

template <typename Words, typename Value>
std::string_view word_for(const Words& words, Value value) {
  for (const auto& word : words) {
    if (word.value == value) return word.id;
  }
  return {};
}

template <typename Words>
auto value_of(const Words& words, const std::string& id) {
  std::vector<std::string_view> known;
  for (const auto& word : words) {
    if (word.id == id) return word.value;
    known.push_back(word.id);
  }
  throw std::invalid_argument(fmt::format("`{}` is not known here; nearest: `{}`", id, nearest_name(id, known)));
}

OrderedJson object(std::string_view act) {
  OrderedJson line;
  line["act"] = act;
  return line;
}

template <typename Value>
OrderedJson object(std::string_view act, const char* field, const Value& value) {
  OrderedJson line = object(act);
  line[field] = value;
  return line;
}

template <typename Id>
OrderedJson place_or_null(const std::optional<Id>& place) {
  return place ? OrderedJson(id_of(*place)) : OrderedJson(nullptr);
}

struct ToJson {
  OrderedJson operator()(const TurnKey& a) const { return object("turn_key", "to", word_for(key_words, a.to)); }
  OrderedJson operator()(const SwitchHeadlamps& a) const { return object("headlamps", "on", a.on); }
  OrderedJson operator()(const ShiftGear& a) const { return object("gear", "to", word_for(gear_words, a.to)); }
  OrderedJson operator()(const SetBrake& a) const { return object("brake", "on", a.on); }
  OrderedJson operator()(const DisableIgnition& a) const { return object("disable_ignition", "disabled", a.disabled); }
  OrderedJson operator()(const WearEyeProtection& a) const { return object("eye_protection", "on", a.on); }
  OrderedJson operator()(const ConnectNegative& a) const { return object("negative", "connected", a.connected); }
  OrderedJson operator()(const PutProbe& a) const {
    OrderedJson line = object("probe", "lead", a.red ? "red" : "black");
    line["at"] = place_or_null(a.at);
    return line;
  }
  OrderedJson operator()(const PutClamp& a) const { return object("clamp", "round", place_or_null(a.round)); }
  OrderedJson operator()(const ZeroClamp& /*a*/) const { return object("zero_clamp"); }
  OrderedJson operator()(const SetMeterFunction& a) const {
    return object("function", "to", word_for(function_words, a.to));
  }
  OrderedJson operator()(const SetMeterHold& a) const { return object("hold", "to", word_for(hold_words, a.to)); }
  OrderedJson operator()(const NoteReading& a) const { return object("note_reading", "from", id_of(a.from)); }
  OrderedJson operator()(const NoteObservation& a) const { return object("note_observation", "id", a.id); }
  OrderedJson operator()(const LookClosely& a) const { return object("look", "component", a.component); }
  OrderedJson operator()(const NameFault& a) const {
    OrderedJson line = object("name", "faults", a.fault_ids);
    line["evidence"] = a.evidence;
    return line;
  }
  OrderedJson operator()(const DoRepair& a) const { return object("repair", "id", a.repair_id); }
  OrderedJson operator()(const PassTime& a) const { return object("pass_time", "wait_s", a.wait_s); }
  OrderedJson operator()(const CloseJob& /*a*/) const { return object("close_job"); }
  OrderedJson operator()(const MoveClutchPedal& a) const { return object("clutch_pedal", "down", a.down); }
  OrderedJson operator()(const LiftSWire& a) const { return object("s_wire", "lifted", a.lifted); }
  OrderedJson operator()(const TakeBeltOff& a) const { return object("belt", "off", a.off); }
  OrderedJson operator()(const TakePlugsOut& a) const { return object("plugs", "out", a.out); }
  OrderedJson operator()(const BarEngine& /*a*/) const { return object("bar_engine"); }
  OrderedJson operator()(const DisturbPart& a) const {
    OrderedJson line = object("disturb", "how", word_for(touch_words, a.how));
    line["component"] = a.component;
    return line;
  }
  OrderedJson operator()(const FeelPart& a) const { return object("feel", "component", a.component); }
  OrderedJson operator()(const HangDevice& a) const {
    OrderedJson line = object("hang", "device", id_of(a.hung.device));
    line["first"] = id_of(a.hung.first);
    line["last"] = id_of(a.hung.last);
    return line;
  }
  OrderedJson operator()(const TakeDeviceOff& a) const { return object("take_off", "device", id_of(a.device)); }
  OrderedJson operator()(const PressRemote& a) const { return object("remote", "pressed", a.pressed); }
  OrderedJson operator()(const TurnLoadTester& a) const { return object("load_tester", "amps", a.amps); }
  OrderedJson operator()(const BridgeStuds& /*a*/) const { return object("bridge_studs"); }
  OrderedJson operator()(const DipHydrometer& a) const { return object("hydrometer", "cell", a.cell); }
  OrderedJson operator()(const TestConductance& /*a*/) const { return object("conductance"); }
  OrderedJson operator()(const ReplaceFuse& a) const { return object("replace_fuse", "in", id_of(a.in)); }
  OrderedJson operator()(const AimThermometer& a) const { return object("thermometer", "at", place_or_null(a.at)); }
  OrderedJson operator()(const PutRecorderChannel& a) const {
    OrderedJson line = object("recorder_channel", "channel", a.channel);
    line["red"] = place_or_null(a.red);
    line["black"] = place_or_null(a.black);
    line["round"] = place_or_null(a.round);
    return line;
  }
  OrderedJson operator()(const ArmRecorder& a) const {
    OrderedJson line = object("arm_recorder", "level", a.level);
    line["rising"] = a.rising;
    line["span_s"] = a.span_s;
    return line;
  }
  OrderedJson operator()(const TakeStarterOff& a) const { return object("starter", "off", a.off); }
  OrderedJson operator()(const TestOnBench& a) const { return object("bench", "test", id_of(a.test)); }
  OrderedJson operator()(const StrikeSuspect& a) const {
    OrderedJson line = object("suspect", "fault", a.fault_id);
    line["struck"] = a.struck;
    return line;
  }
};

std::string text_in(const Json& line, const char* field) {
  return line.at(field).get<std::string>();
}
bool truth_in(const Json& line, const char* field) {
  return line.at(field).get<bool>();
}

template <typename Id>
std::optional<Id> place_in(const Json& line, const char* field, std::optional<Id> (*named)(std::string_view)) {
  if (line.at(field).is_null()) return std::nullopt;
  const std::string id = text_in(line, field);
  const auto place = named(id);
  if (!place) throw std::invalid_argument(fmt::format("`{}` names no place on the vehicle", id));
  return place;
}

Action probe_in(const Json& line) {
  const std::string lead = text_in(line, "lead");
  if (lead != "red" && lead != "black") throw std::invalid_argument(fmt::format("`{}` is no lead; red or black", lead));
  return PutProbe{lead == "red", place_in<TestPoint>(line, "at", test_point_named)};
}

Action name_in(const Json& line) {
  return NameFault{line.at("faults").get<std::vector<std::string>>(), line.at("evidence").get<std::vector<int>>()};
}

template <typename Id>
Id id_in(const Json& line, const char* field, std::optional<Id> (*named)(std::string_view)) {
  const std::string id = text_in(line, field);
  const auto found = named(id);
  if (!found) throw std::invalid_argument(fmt::format("`{}` is not known under {}", id, field));
  return *found;
}

Action hung_in(const Json& line) {
  return HangDevice{{id_in<Device>(line, "device", device_named), id_in<TestPoint>(line, "first", test_point_named),
                     id_in<TestPoint>(line, "last", test_point_named)}};
}

Action channel_in(const Json& line) {
  return PutRecorderChannel{line.at("channel").get<int>(), place_in<TestPoint>(line, "red", test_point_named),
                            place_in<TestPoint>(line, "black", test_point_named),
                            place_in<HeavyCable>(line, "round", heavy_cable_named)};
}

using Reader = Action (*)(const Json&);

const std::map<std::string_view, Reader>& readers() {
  static const std::map<std::string_view, Reader> table{
      {"turn_key", [](const Json& j) -> Action { return TurnKey{value_of(key_words, text_in(j, "to"))}; }},
      {"headlamps", [](const Json& j) -> Action { return SwitchHeadlamps{truth_in(j, "on")}; }},
      {"gear", [](const Json& j) -> Action { return ShiftGear{value_of(gear_words, text_in(j, "to"))}; }},
      {"brake", [](const Json& j) -> Action { return SetBrake{truth_in(j, "on")}; }},
      {"disable_ignition", [](const Json& j) -> Action { return DisableIgnition{truth_in(j, "disabled")}; }},
      {"eye_protection", [](const Json& j) -> Action { return WearEyeProtection{truth_in(j, "on")}; }},
      {"negative", [](const Json& j) -> Action { return ConnectNegative{truth_in(j, "connected")}; }},
      {"probe", probe_in},
      {"clamp", [](const Json& j) -> Action { return PutClamp{place_in<HeavyCable>(j, "round", heavy_cable_named)}; }},
      {"zero_clamp", [](const Json&) -> Action { return ZeroClamp{}; }},
      {"function",
       [](const Json& j) -> Action { return SetMeterFunction{value_of(function_words, text_in(j, "to"))}; }},
      {"hold", [](const Json& j) -> Action { return SetMeterHold{value_of(hold_words, text_in(j, "to"))}; }},
      {"note_reading", [](const Json& j) -> Action { return NoteReading{id_in<Kit>(j, "from", kit_named)}; }},
      {"note_observation", [](const Json& j) -> Action { return NoteObservation{text_in(j, "id")}; }},
      {"look", [](const Json& j) -> Action { return LookClosely{text_in(j, "component")}; }},
      {"name", name_in},
      {"repair", [](const Json& j) -> Action { return DoRepair{text_in(j, "id")}; }},
      {"pass_time", [](const Json& j) -> Action { return PassTime{j.at("wait_s").get<double>()}; }},
      {"close_job", [](const Json&) -> Action { return CloseJob{}; }},
      {"clutch_pedal", [](const Json& j) -> Action { return MoveClutchPedal{truth_in(j, "down")}; }},
      {"s_wire", [](const Json& j) -> Action { return LiftSWire{truth_in(j, "lifted")}; }},
      {"belt", [](const Json& j) -> Action { return TakeBeltOff{truth_in(j, "off")}; }},
      {"plugs", [](const Json& j) -> Action { return TakePlugsOut{truth_in(j, "out")}; }},
      {"bar_engine", [](const Json&) -> Action { return BarEngine{}; }},
      {"disturb",
       [](const Json& j) -> Action {
         return DisturbPart{value_of(touch_words, text_in(j, "how")), text_in(j, "component")};
       }},
      {"feel", [](const Json& j) -> Action { return FeelPart{text_in(j, "component")}; }},
      {"hang", hung_in},
      {"take_off", [](const Json& j) -> Action { return TakeDeviceOff{id_in<Device>(j, "device", device_named)}; }},
      {"remote", [](const Json& j) -> Action { return PressRemote{truth_in(j, "pressed")}; }},
      {"load_tester", [](const Json& j) -> Action { return TurnLoadTester{j.at("amps").get<double>()}; }},
      {"bridge_studs", [](const Json&) -> Action { return BridgeStuds{}; }},
      {"hydrometer", [](const Json& j) -> Action { return DipHydrometer{j.at("cell").get<int>()}; }},
      {"conductance", [](const Json&) -> Action { return TestConductance{}; }},
      {"replace_fuse", [](const Json& j) -> Action { return ReplaceFuse{id_in<Kit>(j, "in", kit_named)}; }},
      {"thermometer",
       [](const Json& j) -> Action { return AimThermometer{place_in<TestPoint>(j, "at", test_point_named)}; }},
      {"recorder_channel", channel_in},
      {"arm_recorder",
       [](const Json& j) -> Action {
         return ArmRecorder{j.at("level").get<double>(), truth_in(j, "rising"), j.at("span_s").get<double>()};
       }},
      {"starter", [](const Json& j) -> Action { return TakeStarterOff{truth_in(j, "off")}; }},
      {"bench", [](const Json& j) -> Action { return TestOnBench{id_in<BenchTest>(j, "test", bench_test_named)}; }},
      {"suspect",
       [](const Json& j) -> Action {
         return StrikeSuspect{text_in(j, "fault"), truth_in(j, "struck")};
       }},
  };
  return table;
}

}  // namespace

bool makes_finding(const Action& action) {
  if (const auto* disturb = std::get_if<DisturbPart>(&action)) return disturb->how != Touch::tap;
  return std::holds_alternative<NoteReading>(action) || std::holds_alternative<NoteObservation>(action) ||
         std::holds_alternative<LookClosely>(action) || std::holds_alternative<BarEngine>(action) ||
         std::holds_alternative<FeelPart>(action) || std::holds_alternative<DipHydrometer>(action) ||
         std::holds_alternative<TestConductance>(action) || std::holds_alternative<TestOnBench>(action);
}

nlohmann::ordered_json json_of(const Action& action) {
  return std::visit(ToJson{}, action);
}

Action action_in(const Json& line) {
  const std::string act = text_in(line, "act");
  const auto reader = readers().find(act);
  if (reader != readers().end()) return reader->second(line);
  std::vector<std::string_view> known;
  for (const auto& [id, unused] : readers()) known.push_back(id);
  throw std::invalid_argument(fmt::format("`{}` is no action; nearest: `{}`", act, nearest_name(act, known)));
}

}  // namespace voltfall
