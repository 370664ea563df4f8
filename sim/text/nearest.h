#pragma once

#include <span>
#include <string_view>

namespace voltfall {

/// Insertions, deletions and substitutions that turn one word into the other (the Levenshtein distance).
int edit_distance(std::string_view one, std::string_view other);

/// The candidate most like `wrong`, for messages; the first of equals. Empty when there are no candidates.
std::string_view nearest_name(std::string_view wrong, std::span<const std::string_view> candidates);

}  // namespace voltfall
