#include "debrief/debrief_parts.h"
#include "desktop/rail/rail_text.h"
#include "faults/catalogue.h"
#include "faults/limit_keys.h"
#include "wording/filled.h"

namespace voltfall {
namespace {

CheckRow row_of(std::string what, std::string_view limit, const Scenario& scenario) {
  const auto declared = scenario.limits.find(std::string(limit));
  const LimitKey* key = limit_key_named(limit);
  const bool known = declared != scenario.limits.end() && key != nullptr;
  return {std::move(what), known ? limit_text(*key, declared->second) : std::string()};
}

}  // namespace

void add_check(const Session& session, const Wording& words, DebriefContents& contents) {
  for (const std::string_view step : words.list("debrief.check_steps")) contents.check_steps.emplace_back(step);
  for (const std::string_view caution : words.cautions()) contents.cautions.emplace_back(caution);
  const Scenario& scenario = session.scenario();
  for (const std::string_view limit : {"battery_rest", "battery_cranking", "insulated_side", "ground_side"}) {
    contents.check_rows.push_back(row_of(std::string(words.limit(limit)), limit, scenario));
  }
  for (const HiddenFault& hidden : scenario.faults) {
    for (const ProvingPair& pair : fault_named(hidden.id)->proof) {
      const std::string what = fmt::format("{} to {}", words.point(pair.first), words.point(pair.second));
      contents.check_rows.push_back(row_of(what, pair.limit, scenario));
      contents.check_rows.push_back(
          row_of(filled(words, "debrief.check_again", fmt::arg("what", what)), pair.limit, scenario));
    }
  }
}

}  // namespace voltfall
