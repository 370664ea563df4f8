#include "walks/walk_table.h"

#include <fmt/format.h>

#include <algorithm>

namespace voltfall {

WalkTable::WalkTable(const toml::table& table, std::string_view name, Mistakes& mistakes)
    : table_(table), name_(name), mistakes_(mistakes) {}

std::string WalkTable::path_of(std::string_view key) const {
  return name_.empty() ? std::string(key) : fmt::format("{}.{}", name_, key);
}

WalkLine WalkTable::place() const {
  const toml::source_position& begin = table_.source().begin;
  return {static_cast<int>(begin.line), static_cast<int>(begin.column)};
}

const toml::node* WalkTable::at(std::string_view key) {
  known_.push_back(key);
  return table_.get(key);
}

std::optional<std::string> WalkTable::text(std::string_view key, std::size_t longest) {
  const toml::node* node = at(key);
  if (node == nullptr) return std::nullopt;
  if (!node->is_string()) {
    mistakes_.add(*node, fmt::format("{} is {}; allowed: a text in quotes", path_of(key), kind_of(*node)));
    return std::nullopt;
  }
  std::string value = *node->value<std::string>();
  const std::size_t length = characters_in(value);
  if (is_blank(value)) {
    mistakes_.add(*node, fmt::format("{} is empty; allowed: a text of at least one word", path_of(key)));
  } else if (length > longest) {
    mistakes_.add(*node, fmt::format("{} has {} characters; allowed: at most {}", path_of(key), length, longest));
  }
  return value;
}

std::optional<double> WalkTable::number(std::string_view key, const Range& range) {
  const toml::node* node = at(key);
  return node != nullptr ? number_in(*node, path_of(key), range, mistakes_) : std::nullopt;
}

std::optional<bool> WalkTable::flag(std::string_view key) {
  const toml::node* node = at(key);
  if (node == nullptr) return std::nullopt;
  if (node->is_boolean()) return *node->value<bool>();
  mistakes_.add(*node, fmt::format("{} is {}; allowed: true or false", path_of(key), kind_of(*node)));
  return std::nullopt;
}

std::optional<std::size_t> WalkTable::choice(std::string_view key, std::span<const std::string_view> names) {
  const toml::node* node = at(key);
  if (node == nullptr) return std::nullopt;
  const std::string value = node->value<std::string>().value_or("");
  const auto found = std::find(names.begin(), names.end(), value);
  if (node->is_string() && found != names.end()) return static_cast<std::size_t>(found - names.begin());
  if (node->is_string()) {
    mistakes_.add(*node, not_a_name(value, fmt::format("a {}", path_of(key)), names));
  } else {
    mistakes_.add(*node, fmt::format("{} is {}; allowed: {}", path_of(key), kind_of(*node), listed(names)));
  }
  return std::nullopt;
}

const toml::table* WalkTable::table(std::string_view key, bool needed) {
  if (needed && !require(key)) return nullptr;
  const toml::node* node = at(key);
  if (node == nullptr || node->is_table()) return node != nullptr ? node->as_table() : nullptr;
  mistakes_.add(*node, fmt::format("{0} is {1}; allowed: a section [{0}]", path_of(key), kind_of(*node)));
  return nullptr;
}

bool WalkTable::require(std::string_view key) {
  if (table_.contains(key)) return true;
  known_.push_back(key);
  mistakes_.add(table_, fmt::format("{} is missing; every {} needs it", path_of(key), name_.empty() ? "walk" : name_));
  return false;
}

std::string WalkTable::needed_text(std::string_view key, std::size_t longest) {
  return require(key) ? text(key, longest).value_or("") : std::string();
}

double WalkTable::needed_number(std::string_view key, const Range& range) {
  return require(key) ? number(key, range).value_or(range.lowest) : range.lowest;
}

std::size_t WalkTable::needed_choice(std::string_view key, std::span<const std::string_view> names) {
  return require(key) ? choice(key, names).value_or(0) : 0;
}

void WalkTable::finish() {
  const std::string kind = name_.empty() ? "a key of a walk" : fmt::format("a key of [{}]", name_);
  for (const auto& [key, node] : table_) {
    if (std::find(known_.begin(), known_.end(), key.str()) != known_.end()) continue;
    mistakes_.add(key.source().begin, not_a_name(key.str(), kind, known_));
  }
}

}  // namespace voltfall
