#include "scenario/read_scenario.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <fstream>

#include "rig/settable.h"
#include "scenario/format.h"
#include "scenario/scenario_sections.h"
#include "scenario/toml_slips.h"

namespace voltfall {
namespace {

constexpr std::size_t largest_bytes = std::size_t{1} << 20;

ReadScenario refused(std::string_view file, std::string what) {
  return {std::nullopt, {{std::string(file), 0, 0, std::move(what)}}};
}

/// The named section, or nothing with the mistake noted when something else stands under its name.
const toml::table* section_at(const toml::table& root, std::string_view name, Mistakes& mistakes) {
  const toml::node* node = root.get(name);
  if (node == nullptr || node->is_table()) return node != nullptr ? node->as_table() : nullptr;
  mistakes.add(*node, fmt::format("{} is {}; allowed: a section [{}]", name, kind_of(*node), name));
  return nullptr;
}

void refuse_unknown_sections(const toml::table& root, Mistakes& mistakes) {
  std::vector<std::string_view> names;
  for (const FormatSection& section : all_format_sections()) names.push_back(section.name);
  for (const auto& [key, node] : root) {
    if (std::find(names.begin(), names.end(), key.str()) != names.end()) continue;
    mistakes.add(key.source().begin, not_a_name(key.str(), "a section", names) + belongs_to(key.str(), ""));
  }
}

Scenario read_sections(const toml::table& root, Mistakes& mistakes) {
  Scenario scenario;
  refuse_unknown_sections(root, mistakes);
  read_job(section_at(root, "job", mistakes), scenario, mistakes);
  read_vehicle(section_at(root, "vehicle", mistakes), scenario, mistakes);
  read_rest(section_at(root, "rest", mistakes), scenario, mistakes);
  read_scatter(section_at(root, "scatter", mistakes), scenario, mistakes);
  read_faults(root.get("fault"), scenario, mistakes);
  read_pairs(root.get("pair"), scenario, mistakes);
  read_deal(section_at(root, "deal", mistakes), scenario, mistakes);
  read_decoys(section_at(root, "decoy", mistakes), scenario, mistakes);
  read_kit(section_at(root, "kit", mistakes), scenario, mistakes);
  read_limits(section_at(root, "limits", mistakes), scenario, mistakes);
  read_prices(section_at(root, "prices", mistakes), scenario, mistakes);
  read_priors(section_at(root, "priors", mistakes), scenario, mistakes);
  read_scoring(section_at(root, "scoring", mistakes), scenario, mistakes);
  read_debrief(section_at(root, "debrief", mistakes), scenario, mistakes);
  if (std::string wrong = contradiction_in(scenario.faulty()); !wrong.empty()) mistakes.add_for_file(std::move(wrong));
  return scenario;
}

}  // namespace

ReadText read_small_file(const std::filesystem::path& path, std::size_t largest_bytes, std::string_view kind) {
  const std::string name = path.string();
  const auto refuse = [&](std::string what) { return ReadText{{}, Problem{name, 0, 0, std::move(what)}}; };
  std::error_code failed;
  if (std::filesystem::is_directory(path, failed)) return refuse(fmt::format("is a folder; allowed: {}", kind));
  std::ifstream file(path, std::ios::binary);
  if (!file) return refuse(fmt::format("can't be opened; allowed: {} that may be read", kind));
  // A little more than allowed is enough to know that it is too large.
  std::string text;
  for (std::array<char, 16384> block; file && text.size() <= largest_bytes;) {
    file.read(block.data(), block.size());
    text.append(block.data(), static_cast<std::size_t>(file.gcount()));
  }
  if (file.bad()) return refuse(fmt::format("can't be read to its end; allowed: {}", kind));
  if (text.size() <= largest_bytes) return {std::move(text), std::nullopt};
  return refuse(fmt::format("is larger than {0} MiB; allowed: at most {0} MiB", largest_bytes >> 20));
}

ReadScenario read_scenario(const std::filesystem::path& path) {
  ReadText read = read_small_file(path, largest_bytes, "a scenario file (.toml)");
  if (read.problem) return {std::nullopt, {std::move(*read.problem)}};
  return read_scenario_text(read.text, path.string());
}

ReadScenario read_scenario_text(std::string_view text, std::string_view name) {
  if (text.size() > largest_bytes) return refused(name, "is larger than 1 MiB; allowed: at most 1 MiB");
  Mistakes mistakes(name);
  refuse_crowded_lines(text, mistakes);
  if (!mistakes.none()) return {std::nullopt, mistakes.in_file_order()};
  try {
    const toml::table root = toml::parse(text);
    Scenario scenario = read_sections(root, mistakes);
    if (!mistakes.none()) return {std::nullopt, mistakes.in_file_order()};
    scenario.id = std::filesystem::path(name).stem().string();
    scenario.source_text = text;
    return {std::move(scenario), {}};
  } catch (const toml::parse_error& error) {
    mistakes.add(error.source().begin,
                 fmt::format("{}; allowed: TOML{}", error.description(), slip_in(text, error.source().begin)));
    return {std::nullopt, mistakes.in_file_order()};
  }
}

}  // namespace voltfall
