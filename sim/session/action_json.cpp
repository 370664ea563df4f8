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
constexpr std::array function_words{Word{MeterFunction::volts_dc, "volts_dc"}, Word{MeterFunction::ohms, "ohms"}};
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
  OrderedJson operator()(const NoteReading& a) const { return object("note_reading", "clamp", a.clamp); }
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
      {"note_reading", [](const Json& j) -> Action { return NoteReading{truth_in(j, "clamp")}; }},
      {"note_observation", [](const Json& j) -> Action { return NoteObservation{text_in(j, "id")}; }},
      {"look", [](const Json& j) -> Action { return LookClosely{text_in(j, "component")}; }},
      {"name", name_in},
      {"repair", [](const Json& j) -> Action { return DoRepair{text_in(j, "id")}; }},
      {"pass_time", [](const Json& j) -> Action { return PassTime{j.at("wait_s").get<double>()}; }},
      {"close_job", [](const Json&) -> Action { return CloseJob{}; }},
  };
  return table;
}

}  // namespace

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
