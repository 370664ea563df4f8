#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "console/bay_commands.h"
#include "console/bay_text.h"
#include "rig/test_points.h"

namespace voltfall {

using Ids = std::vector<std::string_view>;

// What a learner typed, held against what there is. An empty answer has been explained to them already.

void say_unknown(TextBay& bay, std::string_view kind, std::string_view typed, const Ids& ids);

/// The id meant by these words, or an answer with the nearest one.
std::optional<std::string> id_among(TextBay& bay, std::string_view kind, TypedWords words, const Ids& ids);

std::optional<bool> on_or_off(TextBay& bay, TypedWords words);

/// A test point by number or name, or an answer with the nearest one.
std::optional<TestPoint> point_among(TextBay& bay, TypedWords words);

/// A number within the bounds, or an answer with what is allowed.
std::optional<double> number_among(TextBay& bay, TypedWords words, double lowest, double highest,
                                   std::string_view what);

template <typename Change>
void switch_on_or_off(TextBay& bay, TypedWords words, Change change) {
  if (const auto on = on_or_off(bay, words)) bay.act(change(*on));
}

}  // namespace voltfall
