#include <fmt/format.h>

#include <algorithm>

#include "faults/visible_signs.h"
#include "scenario/scenario_sections.h"

namespace voltfall {
namespace {

std::string with_look(const VisibleSign& sign) {
  return fmt::format("{}:{}", sign.component, sign.look);
}

}  // namespace

void read_decoys(const toml::table* table, Scenario& scenario, Mistakes& mistakes) {
  if (table == nullptr) return;
  // What lies open only on the bench is never seen without its cause.
  std::vector<std::string> texts;
  for (const VisibleSign& sign : all_visible_signs()) {
    const std::string text = with_look(sign);
    if (!sign.on_bench && std::find(texts.begin(), texts.end(), text) == texts.end()) texts.push_back(text);
  }
  const std::vector<std::string_view> names(texts.begin(), texts.end());
  Section section(table, "decoy", mistakes);
  section.require("looks");
  for (const std::size_t index : section.choices("looks", names)) {
    const std::size_t colon = texts[index].find(':');
    scenario.decoys.push_back({texts[index].substr(0, colon), texts[index].substr(colon + 1)});
  }
  section.finish();
}

}  // namespace voltfall
