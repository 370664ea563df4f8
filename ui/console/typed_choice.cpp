#include "console/typed_choice.h"

#include <fmt/format.h>
#include <fmt/ostream.h>

#include "console/typed_words.h"
#include "text/nearest.h"

namespace voltfall {

void say_unknown(TextBay& bay, std::string_view kind, std::string_view typed, const Ids& ids) {
  fmt::print(bay.out(), "No {} `{}`. Nearest: {}\n", kind, typed, nearest_name(typed, ids));
}

std::optional<std::string> id_among(TextBay& bay, std::string_view kind, TypedWords words, const Ids& ids) {
  const std::string typed = id_from(words);
  if (const auto id = meant_among(typed, ids)) return std::string(*id);
  say_unknown(bay, kind, typed, ids);
  return std::nullopt;
}

std::optional<bool> on_or_off(TextBay& bay, TypedWords words) {
  const Ids ids{"on", "off"};
  const auto id = id_among(bay, "choice", words, ids);
  return id ? std::optional(*id == "on") : std::nullopt;
}

std::optional<TestPoint> point_among(TextBay& bay, TypedWords words) {
  const std::string typed = id_from(words);
  if (const auto point = point_meant(typed)) return point;
  Ids ids;
  for (const TestPoint point : all_test_points()) ids.push_back(id_of(point));
  say_unknown(bay, "test point", typed, ids);
  return std::nullopt;
}

std::optional<double> number_among(TextBay& bay, TypedWords words, double lowest, double highest,
                                   std::string_view what) {
  const auto number = words.empty() ? std::nullopt : number_within(words.front(), lowest, highest);
  if (!number) fmt::print(bay.out(), "{}: {:g} to {:g}\n", what, lowest, highest);
  return number;
}

}  // namespace voltfall
