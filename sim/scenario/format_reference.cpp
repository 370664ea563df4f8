#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "faults/catalogue.h"
#include "faults/hidden_faults.h"
#include "faults/limit_keys.h"
#include "faults/visible_signs.h"
#include "hearing/crank_watch.h"
#include "instruments/kit.h"
#include "rig/settable.h"
#include "scenario/format.h"
#include "vehicles/vehicle_types.h"

// The page is written, not kept: whatever the tables hold stands on it.

namespace voltfall {
namespace {

constexpr std::string_view head = R"(# The scenario file

A job is one text file in TOML, its name ending in `.toml`. This page is made by `voltfall format` from the tables that the
reader itself uses; a test keeps it up to date. Start from `template/new_job.toml`, and ask `voltfall vet FILE` what it
makes of yours.

The smallest file there can be:

```toml
[job]
title = "One morning"
setting = "a yard, 20 °C"
complaint = "It will not start."

[vehicle]
name = "The yard's pickup"

[[fault]]
id = "block_lug_rusted"

[kit]
instruments = ["multimeter"]

[debrief]
text = "A drop shows only while current flows."
```

Mistakes are told as `FILE:LINE:COLUMN: what is wrong; what is allowed; nearest name`, all of them at once. A file may have
1 MiB.

## Sections and keys
)";

std::string range_of(const FormatKey& key) {
  if (key.lowest == key.highest) return key.unit.empty() ? "" : std::string(key.unit);
  return fmt::format("{:g} to {:g}{}{}", key.lowest, key.highest, key.unit.empty() ? "" : " ", key.unit);
}

std::string section_of(const FormatSection& section) {
  const std::string brackets = section.many ? fmt::format("[[{}]]", section.name) : fmt::format("[{}]", section.name);
  std::string text = fmt::format("\n### {}{}\n\n{}\n\n", brackets, section.needed ? ", needed" : "", section.meaning);
  text += "| key | is | range, unit | left out | means | example |\n| --- | --- | --- | --- | --- | --- |\n";
  for (const FormatKey& key : all_format_keys()) {
    if (key.section != section.name) continue;
    text += fmt::format("| {} | {} | {} | {} | {} | `{}` |\n", key.key, key.kind, range_of(key), key.otherwise,
                        key.meaning, key.example);
  }
  return text;
}

std::string faults() {
  std::string text =
      "\n## Faults\n\n| id | class | part | severity | usual | mended by | only with |\n"
      "| --- | --- | --- | --- | --- | --- | --- |\n";
  for (const Fault& fault : all_faults()) {
    const std::string range =
        fault.has_degrees() ? fmt::format("{:g} to {:g} {}", fault.lowest, fault.highest, fault.unit) : "none";
    const std::string_view gearbox = !fault.gearbox                      ? ""
                                     : *fault.gearbox == Gearbox::manual ? "manual gearbox"
                                                                         : "automatic gearbox";
    text += fmt::format("| {} | {} | {} | {} | {} | {} | {} |\n", fault.id, id_of(fault.fault_class), fault.component,
                        range, fault.has_degrees() ? fmt::format("{:g}", fault.usual) : "", fault.repair, gearbox);
  }
  return text;
}

/// `name` in backticks, as many as there are, in one paragraph.
template <typename Names>
std::string names_of(std::string_view heading, const Names& names) {
  std::string text;
  for (const auto& name : names) text += fmt::format("{}`{}`", text.empty() ? "" : ", ", name);
  return fmt::format("\n## {}\n\n{}\n", heading, text);
}

std::string kit() {
  std::vector<std::string_view> ids;
  for (const Kit one : all_kit()) ids.push_back(id_of(one));
  return names_of("Kit", ids);
}

std::string looks() {
  std::set<std::string> looks;
  for (const VisibleSign& sign : all_visible_signs()) {
    if (!sign.on_bench) looks.insert(fmt::format("{}:{}", sign.component, sign.look));
  }
  return names_of("Looks of decoys", looks);
}

std::string symptoms() {
  std::vector<std::string_view> ids;
  for (const Observation& observation : all_observations()) ids.push_back(observation.id);
  return names_of("Symptoms", ids);
}

std::string_view measured_at(const LimitKey& key) {
  switch (key.measured_at) {
    case MeasuredAt::rest:
      return "at rest";
    case MeasuredAt::key_start:
      return "cranking";
    case MeasuredAt::power_off:
      return "negative clamp off";
    case MeasuredAt::load_test:
      return "under the load tester";
    case MeasuredAt::bench:
      return "on the bench";
  }
  return "";
}

std::string limits() {
  std::string text =
      "\n## Limits\n\nThe figures are called `lowest_UNIT` and `highest_UNIT` (`lowest` and `highest` where there "
      "is no unit, `Nm` for N·m).\n\n| id | lowest | highest | unit | from, to A | of | read |\n"
      "| --- | --- | --- | --- | --- | --- | --- |\n";
  const auto figure = [](double value) { return value > 0.0 ? fmt::format("{:g}", value) : std::string(); };
  for (const LimitKey& key : all_limit_keys()) {
    text += fmt::format("| {} | {} | {} | {} | {:g}, {:g} | {} | {} |\n", key.id, figure(key.lowest),
                        figure(key.highest), key.unit, key.from_A, key.to_A, key.meaning, measured_at(key));
  }
  return text;
}

std::string repairs() {
  std::string text = "\n## Repairs\n\n| id | part | minutes | price |\n| --- | --- | --- | --- |\n";
  for (const Repair& repair : all_repairs()) {
    text += fmt::format("| {} | {} | {:g} | {:g} |\n", repair.id, repair.component, repair.minutes, repair.parts_price);
  }
  return text;
}

std::string vehicle_values() {
  std::string text = "\n## Values of the vehicle\n\n| path | unit | range |";
  std::string rule = "| --- | --- | --- |";
  for (const VehicleType& type : all_vehicle_types()) {
    text += fmt::format(" {} |", type.id);
    rule += " --- |";
  }
  text += " means |\n" + rule + " --- |\n";
  for (const Settable& settable : all_settables()) {
    text += fmt::format("| {} | {} | {:g} to {:g} |", settable.path, settable.unit, settable.lowest, settable.highest);
    for (const VehicleType& type : all_vehicle_types()) text += fmt::format(" {:g} |", settable.value_in(type.healthy));
    text += fmt::format(" {} |\n", settable.meaning);
  }
  return text;
}

}  // namespace

std::string format_reference() {
  std::string text(head);
  for (const FormatSection& section : all_format_sections()) text += section_of(section);
  std::vector<std::string_view> types;
  for (const VehicleType& type : all_vehicle_types()) types.push_back(type.id);
  text += names_of("Vehicle types", types);
  text += names_of("When a fault is there", all_when_ids());
  return text + faults() + kit() + symptoms() + looks() + limits() + repairs() + vehicle_values();
}

}  // namespace voltfall
