#include "scenario/write_scenario.h"

#include <fmt/format.h>

#include <algorithm>

namespace voltfall {
namespace {

/// What no quotes can hold as it is: control characters, by their number (TOML 1.0.0, "String").
std::string escaped(char letter) {
  switch (letter) {
    case '"':
      return "\\\"";
    case '\\':
      return "\\\\";
    case '\n':
      return "\\n";
    case '\t':
      return "\\t";
    default:
      break;
  }
  const auto code = static_cast<unsigned char>(letter);
  constexpr unsigned char first_printed = 0x20, rubbed_out = 0x7f;
  return code < first_printed || code == rubbed_out ? fmt::format("\\u{:04x}", code) : std::string(1, letter);
}

std::string line(std::string_view key, std::string_view text) {
  return fmt::format("{} = {}\n", key, toml_quoted(text));
}

std::string fault_lines(const HiddenFault& hidden) {
  const Fault* fault = fault_named(hidden.id);
  std::string text = "\n[[fault]]\n" + line("id", hidden.id);
  if (fault != nullptr && fault->has_degrees()) {
    text +=
        fmt::format("severity = {}  # {:g} to {:g} {}\n", hidden.severity, fault->lowest, fault->highest, fault->unit);
  }
  if (hidden.when != When::always) text += line("when", all_when_ids()[static_cast<std::size_t>(hidden.when)]);
  return text;
}

template <typename Items, typename Name>
std::string list(std::string_view key, const Items& items, const Name& name) {
  std::string inside;
  for (const auto& item : items) inside += (inside.empty() ? "" : ", ") + toml_quoted(name(item));
  return fmt::format("{} = [{}]\n", key, inside);
}

}  // namespace

std::string toml_quoted(std::string_view text) {
  // The reader takes a line crowded with dots for an attack: those of a long text are written by their number.
  constexpr std::ptrdiff_t most_dots = 30;
  const bool crowded = std::count(text.begin(), text.end(), '.') > most_dots;
  std::string quoted = "\"";
  for (const char letter : text) quoted += crowded && letter == '.' ? "\\u002e" : escaped(letter);
  return quoted + "\"";
}

std::string scenario_text(const NewScenario& scenario) {
  std::string text = "# A job. `voltfall vet` says what is wrong with it; scenarios/FORMAT.md tells of every key.\n\n";
  text += "# The work order: all that the learner is told.\n[job]\n" + line("title", scenario.title);
  if (scenario.sheet > 0) text += fmt::format("sheet = {}\n", scenario.sheet);
  text += line("setting", scenario.setting) + line("complaint", scenario.complaint);
  text += line("level", id_of(scenario.level));
  text += "\n# The vehicle before anything went wrong.\n[vehicle]\n" + line("type", scenario.vehicle_type) +
          line("name", scenario.vehicle_name);
  if (!scenario.faults.empty()) text += "\n# What is wrong.";
  for (const HiddenFault& fault : scenario.faults) text += fault_lines(fault);
  if (!scenario.decoys.empty()) {
    text += "\n# What a close look shows although it is harmless.\n[decoy]\n" +
            list("looks", scenario.decoys,
                 [](const DecoyLook& decoy) { return fmt::format("{}:{}", decoy.component, decoy.look); });
  }
  text += "\n# What the learner may use.\n[kit]\n" +
          list("instruments", scenario.kit, [](Kit kit) { return std::string(id_of(kit)); });
  return text + "\n# What to take home.\n[debrief]\n" + line("text", scenario.debrief);
}

}  // namespace voltfall
