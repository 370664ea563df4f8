#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "rig/test_points.h"

namespace voltfall {

/// A typed line cut at spaces.
std::vector<std::string> split_words(std::string_view line);

/// Words from `first` on, joined as an id: lower case, underscores between.
std::string id_from(std::span<const std::string> words);

/// The id among `ids` that `typed` means: the id itself, or the only one that begins with it. Else empty.
std::optional<std::string_view> meant_among(std::string_view typed, std::span<const std::string_view> ids);

/// A test point by its number or id.
std::optional<TestPoint> point_meant(std::string_view typed);

/// A number typed by a person; empty when it is none or not within the bounds.
std::optional<double> number_within(std::string_view typed, double lowest, double highest);

}  // namespace voltfall
