#include "scenario/toml_section.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "scenario/format.h"
#include "text/nearest.h"

namespace voltfall {
namespace {

// A name longer than this is no slip of the finger, and comparing it with every valid name would take its time.
constexpr std::size_t longest_quoted = 60;
// More names than this would hide the message they belong to.
constexpr std::size_t most_listed = 16;

std::string quoted(std::string_view name) {
  if (name.size() <= longest_quoted) return fmt::format("'{}'", name);
  return fmt::format("'{}...'", name.substr(0, longest_quoted));
}

}  // namespace

void Mistakes::add(const toml::source_position& where, std::string what) {
  problems_.push_back({file_, static_cast<int>(where.line), static_cast<int>(where.column), std::move(what)});
}

std::vector<Problem> Mistakes::in_file_order() const {
  std::vector<Problem> ordered = problems_;
  std::stable_sort(ordered.begin(), ordered.end(), [](const Problem& a, const Problem& b) {
    return std::tie(a.line, a.column) < std::tie(b.line, b.column);
  });
  return ordered;
}

std::string listed(std::span<const std::string_view> names) {
  return fmt::format("{}", fmt::join(names.begin(), names.end(), ", "));
}

std::string not_a_name(std::string_view wrong, std::string_view kind, std::span<const std::string_view> allowed) {
  std::string what = fmt::format("{} is not {}", quoted(wrong), kind);
  if (allowed.size() <= most_listed) what += fmt::format("; allowed: {}", listed(allowed));
  what += fmt::format("; nearest: {}", nearest_name(wrong.substr(0, longest_quoted), allowed));
  return what;
}

std::string out_of_range(double value, double lowest, double highest, std::string_view unit) {
  const std::string_view space = unit.empty() ? "" : " ";
  return fmt::format("is {:g}{}{}; allowed: {:g} to {:g}{}{}", value, space, unit, lowest, highest, space, unit);
}

std::string_view kind_of(const toml::node& node) {
  switch (node.type()) {
    case toml::node_type::table:
      return "a table";
    case toml::node_type::array:
      return "a list";
    case toml::node_type::string:
      return "a text";
    case toml::node_type::integer:
    case toml::node_type::floating_point:
      return "a number";
    case toml::node_type::boolean:
      return "true or false";
    default:
      return "a date or time";
  }
}

std::optional<double> number_in(const toml::node& node, std::string_view name, const Range& range, Mistakes& mistakes) {
  if (!node.is_number()) {
    mistakes.add(node, fmt::format("{} is {}; allowed: a number from {:g} to {:g}{}{}", name, kind_of(node),
                                   range.lowest, range.highest, range.unit.empty() ? "" : " ", range.unit));
    return std::nullopt;
  }
  const double value = *node.value<double>();
  if (value >= range.lowest && value <= range.highest) return value;  // not so for a number that is none
  mistakes.add(node, fmt::format("{} {}", name, out_of_range(value, range.lowest, range.highest, range.unit)));
  return std::nullopt;
}

std::string belongs_to(std::string_view key, std::string_view section) {
  for (const FormatKey& row : all_format_keys()) {
    if (row.key == key && row.section != section) return fmt::format("; [{}] has a key of that name", row.section);
  }
  return {};
}

Range range_of(std::string_view section, std::string_view key) {
  const FormatKey& row = format_key(section, key);
  return {row.lowest, row.highest, row.unit == "points" ? std::string_view{} : row.unit};
}

void for_each_table(const toml::node& node, std::string_view name, Mistakes& mistakes,
                    const std::function<void(const toml::table&)>& read) {
  const toml::array* list = node.as_array();
  if (list == nullptr) {
    mistakes.add(node, fmt::format("{0} is {1}; allowed: [[{0}]], once for each {0}", name, kind_of(node)));
    return;
  }
  for (const toml::node& entry : *list) {
    if (const toml::table* table = entry.as_table()) {
      read(*table);
    } else {
      mistakes.add(entry, fmt::format("{0} holds {1}; allowed: [[{0}]], once for each {0}", name, kind_of(entry)));
    }
  }
}

Section::Section(const toml::table* table, std::string_view name, Mistakes& mistakes)
    : table_(table), name_(name), mistakes_(mistakes) {}

std::string Section::path_of(std::string_view key) const {
  return fmt::format("{}.{}", name_, key);
}

const toml::node* Section::at(std::string_view key) {
  known_.push_back(key);
  return table_ != nullptr ? table_->get(key) : nullptr;
}

std::optional<std::string> Section::text(std::string_view key) {
  format_key(name_, key);
  const toml::node* node = at(key);
  if (node == nullptr) return std::nullopt;
  if (!node->is_string()) {
    mistakes_.add(*node, fmt::format("{} is {}; allowed: a text in quotes", path_of(key), kind_of(*node)));
    return std::nullopt;
  }
  std::string value = *node->value<std::string>();
  if (value.find_first_not_of(" \t\r\n") != std::string::npos) return value;
  mistakes_.add(*node, fmt::format("{} is empty; allowed: a text of at least one word", path_of(key)));
  return std::nullopt;
}

std::optional<double> Section::number(std::string_view key) {
  return number(key, range_of(name_, key));
}

std::optional<double> Section::number(std::string_view key, const Range& range) {
  const toml::node* node = at(key);
  return node != nullptr ? number_in(*node, path_of(key), range, mistakes_) : std::nullopt;
}

std::optional<int> Section::whole(std::string_view key) {
  const Range range = range_of(name_, key);
  const std::optional<double> value = number(key, range);
  if (!value || std::trunc(*value) == *value) return value ? std::optional(static_cast<int>(*value)) : std::nullopt;
  mistakes_.add(*table_->get(key), fmt::format("{} is {:g}; allowed: a whole number from {:g} to {:g}", path_of(key),
                                               *value, range.lowest, range.highest));
  return std::nullopt;
}

std::optional<std::size_t> Section::choice(std::string_view key, std::span<const std::string_view> names) {
  const std::optional<std::string> value = text(key);
  if (!value) return std::nullopt;
  const auto found = std::find(names.begin(), names.end(), *value);
  if (found != names.end()) return static_cast<std::size_t>(found - names.begin());
  mistakes_.add(*table_->get(key), not_a_name(*value, fmt::format("a {}", path_of(key)), names));
  return std::nullopt;
}

std::vector<std::size_t> Section::choices(std::string_view key, std::span<const std::string_view> names) {
  format_key(name_, key);
  std::vector<std::size_t> chosen;
  const toml::node* node = at(key);
  if (node == nullptr) return chosen;
  const toml::array* list = node->as_array();
  if (list == nullptr) {
    mistakes_.add(*node, fmt::format("{} is {}; allowed: a list of {}", path_of(key), kind_of(*node), listed(names)));
    return chosen;
  }
  if (list->empty()) {
    mistakes_.add(*node, fmt::format("{} is empty; allowed: at least one of {}", path_of(key), listed(names)));
  }
  for (const toml::node& entry : *list) {
    const std::string name = entry.value<std::string>().value_or("");
    const auto found = std::find(names.begin(), names.end(), name);
    const auto index = static_cast<std::size_t>(found - names.begin());
    if (!entry.is_string()) {
      mistakes_.add(entry, fmt::format("{} holds {}; allowed: {}", path_of(key), kind_of(entry), listed(names)));
    } else if (found == names.end()) {
      mistakes_.add(entry, not_a_name(name, fmt::format("one of {}", path_of(key)), names));
    } else if (std::find(chosen.begin(), chosen.end(), index) != chosen.end()) {
      mistakes_.add(entry, fmt::format("{} names '{}' twice; allowed: once", path_of(key), name));
    } else {
      chosen.push_back(index);
    }
  }
  return chosen;
}

void Section::require(std::string_view key) {
  if (table_ != nullptr && table_->contains(key)) return;
  std::string what = fmt::format("{} is missing; every scenario needs it", path_of(key));
  if (table_ != nullptr) {
    mistakes_.add(*table_, std::move(what));
  } else {
    mistakes_.add_for_file(std::move(what));
  }
}

std::string Section::needed_text(std::string_view key) {
  require(key);
  return text(key).value_or("");
}

void Section::finish() {
  if (table_ == nullptr) return;
  for (const auto& [key, node] : *table_) {
    if (std::find(known_.begin(), known_.end(), key.str()) != known_.end()) continue;
    mistakes_.add(key.source().begin,
                  not_a_name(key.str(), fmt::format("a key of [{}]", name_), known_) + belongs_to(key.str(), name_));
  }
}

}  // namespace voltfall
