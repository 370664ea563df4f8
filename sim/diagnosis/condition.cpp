#include "diagnosis/condition.h"

#include <algorithm>
#include <array>

namespace voltfall {
namespace {

using enum TestPoint;

struct Row {
  Condition condition;
  std::string_view id;
  ElectricalState state;
  bool headlamps = false;
  std::optional<Hung> hung = std::nullopt;
};

constexpr auto off = ElectricalState::at_rest;
constexpr auto on = ElectricalState::key_on;
constexpr auto start = ElectricalState::cranking;

// The order is that of the enum.
const std::array<Row, condition_count>& rows() {
  static const std::array<Row, condition_count> table{{
      {Condition::rest, "rest", off},
      {Condition::rest_lamps, "rest_lamps", off, true},
      {Condition::key_on, "key_on", on},
      {Condition::cranking, "cranking", start},
      {Condition::cranking_lamps, "cranking_lamps", start, true},
      {Condition::cranking_other_gear, "cranking_other_gear", start},
      {Condition::remote_start, "remote_start", start, false,
       Hung{Device::remote_switch, relay_battery_stud, s_terminal}},
      {Condition::case_jumped, "case_jumped", start, false, Hung{Device::fused_jumper, relay_case, engine_block}},
      {Condition::ground_lead, "ground_lead", start, false, Hung{Device::heavy_lead_1, negative_post, starter_case}},
      {Condition::feed_lead, "feed_lead", start, false,
       Hung{Device::heavy_lead_1, battery_positive_post, relay_battery_stud}},
      {Condition::belt_off, "belt_off", start},
      {Condition::plugs_out, "plugs_out", start},
      {Condition::power_off, "power_off", off},
      {Condition::load_test, "load_test", off},
      {Condition::bench, "bench", off},
  }};
  return table;
}

const Row& row_of(Condition condition) {
  return rows().at(static_cast<std::size_t>(condition));
}

bool is_manual(const RigParameters& parameters) {
  return gearbox_of(parameters) == Gearbox::manual;
}

/// Which way round a thing hangs makes no difference to what flows, and of two heavy leads either will do.
bool same_hanging(const Hung& one, const Hung& other) {
  const bool same_points =
      (one.first == other.first && one.last == other.last) || (one.first == other.last && one.last == other.first);
  return same_points && kit_of(one.device) == kit_of(other.device);
}

/// What hangs there and makes a difference: a lamp that is itself the reading, a pile turned down and a switch not
/// pressed make none.
std::vector<Hung> telling(const Finding& finding) {
  std::vector<Hung> hung = finding.around.hung;
  std::erase_if(hung, [&](const Hung& one) {
    return one.device == Device::load_tester ||
           (one.device == Device::test_lamp && finding.kind == Finding::Kind::lamp) ||
           (one.device == Device::remote_switch && !finding.around.remote_pressed);
  });
  return hung;
}

bool hangs_as(Condition condition, const Finding& finding) {
  const std::vector<Hung> hung = telling(finding);
  const bool loaded = finding.kind == Finding::Kind::load_volts;
  if (loaded || condition == Condition::load_test) return loaded && condition == Condition::load_test && hung.empty();
  const std::optional<Hung> wanted = row_of(condition).hung;
  if (!wanted) return hung.empty();
  return hung.size() == 1 && same_hanging(hung.front(), *wanted);
}

bool switched_as(Condition condition, const Finding& finding, const RigParameters& parameters) {
  const Controls controls = controls_in(condition, parameters);
  const Around& around = finding.around;
  if (around.starter_off != (condition == Condition::bench)) return false;
  if (finding.battery_connected != controls.battery_connected && condition != Condition::bench) return false;
  if (!around.s_wire_on || around.belt_off != controls.belt_off || around.plugs_out != controls.plugs_out) return false;
  if (around.remote_pressed != (condition == Condition::remote_start)) return false;
  // The gear and the pedal matter while the starter circuit is asked to work.
  if (!is_cranking(condition)) return around.gear != Gear::drive;
  return around.gear == controls.gear && around.clutch_pedal_down == controls.clutch_pedal_down;
}

}  // namespace

std::span<const Condition> all_conditions() {
  static const auto table = [] {
    std::array<Condition, condition_count> all{};
    for (std::size_t i = 0; i < condition_count; ++i) all[i] = rows()[i].condition;
    return all;
  }();
  return table;
}

std::string_view id_of(Condition condition) {
  return row_of(condition).id;
}

bool is_cranking(Condition condition) {
  return row_of(condition).state == ElectricalState::cranking;
}

Controls controls_in(Condition condition, const RigParameters& parameters) {
  const Row& row = row_of(condition);
  Controls controls;
  const bool key_start = row.state == start && condition != Condition::remote_start;
  controls.key = key_start ? KeyPosition::start : row.state == on ? KeyPosition::on : KeyPosition::off;
  controls.headlamps = row.headlamps;
  controls.clutch_pedal_down = is_manual(parameters) && key_start;
  const bool neutral = is_manual(parameters) || condition == Condition::cranking_other_gear;
  controls.gear = neutral ? Gear::neutral : Gear::park;
  controls.battery_connected = condition != Condition::power_off;
  controls.belt_off = condition == Condition::belt_off;
  controls.plugs_out = condition == Condition::plugs_out;
  return controls;
}

std::optional<Condition> condition_of(const Finding& finding, const RigParameters& parameters) {
  for (const Row& row : rows()) {
    if (!exists_on(row.condition, parameters)) continue;
    const bool same = row.state == finding.state && row.headlamps == finding.headlamps &&
                      switched_as(row.condition, finding, parameters) && hangs_as(row.condition, finding);
    if (same) return row.condition;
  }
  return std::nullopt;
}

std::optional<Hung> hung_in(Condition condition) {
  return row_of(condition).hung;
}

bool exists_on(Condition condition, const RigParameters& parameters) {
  return condition != Condition::cranking_other_gear || !is_manual(parameters);
}

}  // namespace voltfall
