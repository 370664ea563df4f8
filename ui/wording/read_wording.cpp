#include <fmt/format.h>

#include "scenario/toml.h"
#include "wording/wording.h"

namespace voltfall {
namespace {

using Texts = std::map<std::string, std::string, std::less<>>;
using Lists = std::map<std::string, std::vector<std::string>, std::less<>>;

/// Takes a tree of tables apart into texts and lists of texts by their dotted path.
class Flattening {
 public:
  Flattening(std::string file, Texts& texts, Lists& lists, std::vector<Problem>& problems)
      : file_(std::move(file)), texts_(texts), lists_(lists), problems_(problems) {}

  void take(const toml::table& table, const std::string& above) {
    for (const auto& [key, node] : table) {
      const std::string path = above.empty() ? std::string(key.str()) : fmt::format("{}.{}", above, key.str());
      if (const toml::table* inner = node.as_table()) {
        take(*inner, path);
      } else if (const toml::array* list = node.as_array()) {
        take_list(*list, path);
      } else if (const auto text = node.value_exact<std::string>()) {
        texts_[path] = *text;
      } else {
        refuse(node, path);
      }
    }
  }

 private:
  void take_list(const toml::array& list, const std::string& path) {
    for (const toml::node& entry : list) {
      if (const auto text = entry.value_exact<std::string>()) {
        lists_[path].push_back(*text);
      } else {
        refuse(entry, path);
      }
    }
  }

  void refuse(const toml::node& node, const std::string& path) {
    const toml::source_position at = node.source().begin;
    problems_.push_back({file_, static_cast<int>(at.line), static_cast<int>(at.column),
                         fmt::format("{} is no text; allowed: a text or a list of texts", path)});
  }

  std::string file_;
  Texts& texts_;
  Lists& lists_;
  std::vector<Problem>& problems_;
};

}  // namespace

Wording Wording::read(const std::filesystem::path& file, std::vector<Problem>& problems) {
  Wording words;
  const std::string name = file.string();
  try {
    const toml::table root = toml::parse_file(name);
    Flattening(name, words.texts_, words.lists_, problems).take(root, "");
  } catch (const toml::parse_error& error) {
    const toml::source_position at = error.source().begin;
    problems.push_back({name, static_cast<int>(at.line), static_cast<int>(at.column),
                        fmt::format("{}; allowed: a language file in TOML", error.description())});
  }
  return words;
}

}  // namespace voltfall
