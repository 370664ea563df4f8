#include "dealing/variant.h"

#include <fmt/format.h>

#include <sstream>

#include "scenario/toml.h"

namespace voltfall {
namespace {

toml::table fault_table(const HiddenFault& hidden) {
  toml::table table;
  table.insert("id", hidden.id);
  const Fault* fault = fault_named(hidden.id);
  if (fault != nullptr && fault->has_degrees()) table.insert("severity", hidden.severity);
  if (hidden.when != When::always) {
    table.insert("when", std::string(all_when_ids()[static_cast<std::size_t>(hidden.when)]));
  }
  return table;
}

}  // namespace

std::string variant_text(std::string_view source_text, const Variant& variant) {
  toml::table root = toml::parse(source_text);
  root.erase("deal");
  root.erase("fault");
  root.erase("decoy");
  toml::array faults;
  for (const HiddenFault& fault : variant.faults) faults.push_back(fault_table(fault));
  if (!faults.empty()) root.insert("fault", std::move(faults));
  toml::array looks;
  for (const DecoyLook& decoy : variant.decoys) looks.push_back(fmt::format("{}:{}", decoy.component, decoy.look));
  if (!looks.empty()) root.insert("decoy", toml::table{{"looks", std::move(looks)}});
  root.insert_or_assign("scatter", toml::table{{"seed", static_cast<std::int64_t>(variant.scatter_seed)}});
  root.insert_or_assign("debrief", toml::table{{"text", variant.debrief}});
  std::ostringstream text;
  text << root << '\n';
  return std::move(text).str();
}

}  // namespace voltfall
