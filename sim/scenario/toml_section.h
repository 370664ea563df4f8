#pragma once

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "scenario/problem.h"
#include "scenario/toml.h"

namespace voltfall {

/// Gathers every mistake of one file.
class Mistakes {
 public:
  explicit Mistakes(std::string_view file) : file_(file) {}

  void add(const toml::source_position& where, std::string what);
  void add(const toml::node& node, std::string what) { add(node.source().begin, std::move(what)); }
  void add_for_file(std::string what) { add(toml::source_position{}, std::move(what)); }

  /// All of them in the order of the file; those that mean the file as a whole come first.
  std::vector<Problem> in_file_order() const;
  bool none() const { return problems_.empty(); }

 private:
  std::string file_;
  std::vector<Problem> problems_;
};

/// `a, b, c`
std::string listed(std::span<const std::string_view> names);

/// `'wrong' is not a KIND; allowed: a, b, c; nearest: b`, the list left out when it is long.
std::string not_a_name(std::string_view wrong, std::string_view kind, std::span<const std::string_view> allowed);

/// `is 3 V; allowed: 0 to 2 V`
std::string out_of_range(double value, double lowest, double highest, std::string_view unit);

/// The words for what stands there: `a text`, `a number`, ...
std::string_view kind_of(const toml::node& node);

struct Range {
  double lowest, highest;
  std::string_view unit{};
};

/// Every table of an array of tables; what else stands there is reported as a mistake.
void for_each_table(const toml::node& node, std::string_view name, Mistakes& mistakes,
                    const std::function<void(const toml::table&)>& read);

/// What `key` might have been meant for, when another section has such a key: `; [kit] has a key of that name`. Else
/// empty.
std::string belongs_to(std::string_view key, std::string_view section);

/// One table of the file. Every getter notes the key as known and reports what is wrong with its value; what nobody
/// asked for is an unknown key, reported by `finish`. What a key may be stands in the format's table (format.h); only
/// families of keys, such as prices by repair, bring their own range.
class Section {
 public:
  /// @param table null when the file has no such section: then every needed key is reported as missing.
  Section(const toml::table* table, std::string_view name, Mistakes& mistakes);

  /// What stands there; null when nothing does.
  const toml::node* at(std::string_view key);
  std::optional<std::string> text(std::string_view key);
  std::optional<double> number(std::string_view key);
  std::optional<double> number(std::string_view key, const Range& range);
  std::optional<int> whole(std::string_view key);
  /// Index of the chosen name.
  std::optional<std::size_t> choice(std::string_view key, std::span<const std::string_view> names);
  /// Indices of the chosen names, each once.
  std::vector<std::size_t> choices(std::string_view key, std::span<const std::string_view> names);

  std::string needed_text(std::string_view key);

  void require(std::string_view key);
  void finish();

 private:
  std::string path_of(std::string_view key) const;

  const toml::table* table_;
  std::string name_;
  Mistakes& mistakes_;
  std::vector<std::string_view> known_;
};

/// The documented range of that key. Throws std::logic_error when the format has no such key.
Range range_of(std::string_view section, std::string_view key);

/// The number in a node, whole or not; reports and returns nothing when it is no number or out of range.
std::optional<double> number_in(const toml::node& node, std::string_view name, const Range& range, Mistakes& mistakes);

}  // namespace voltfall
