#include "console/typed_words.h"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <sstream>

namespace voltfall {

std::vector<std::string> split_words(std::string_view line) {
  std::istringstream stream{std::string(line)};
  std::vector<std::string> words;
  for (std::string word; stream >> word;) words.push_back(word);
  return words;
}

std::string id_from(std::span<const std::string> words) {
  std::string id;
  for (const std::string& word : words) id += (id.empty() ? "" : "_") + word;
  std::transform(id.begin(), id.end(), id.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return id;
}

std::optional<std::string_view> meant_among(std::string_view typed, std::span<const std::string_view> ids) {
  if (typed.empty()) return std::nullopt;
  std::vector<std::string_view> beginning;
  for (const std::string_view id : ids) {
    if (id == typed) return id;
    if (id.starts_with(typed)) beginning.push_back(id);
  }
  return beginning.size() == 1 ? std::optional(beginning.front()) : std::nullopt;
}

std::optional<TestPoint> point_meant(std::string_view typed) {
  if (const auto number = number_within(typed, 1, test_point_count)) {
    return test_point_numbered(static_cast<int>(*number));
  }
  std::vector<std::string_view> ids;
  for (const TestPoint point : all_test_points()) ids.push_back(id_of(point));
  const auto id = meant_among(typed, ids);
  return id ? test_point_named(*id) : std::nullopt;
}

std::optional<double> number_within(std::string_view typed, double lowest, double highest) {
  double number = 0.0;
  const char* end = typed.data() + typed.size();
  const auto [stop, error] = std::from_chars(typed.data(), end, number);
  if (error != std::errc() || stop != end || !(number >= lowest && number <= highest)) return std::nullopt;
  return number;
}

}  // namespace voltfall
