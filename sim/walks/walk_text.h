#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace voltfall {

// How long a text may be, in characters: what a tired eye takes in at one go.
inline constexpr std::size_t longest_walk_text = 220, longest_walk_sight = 200, longest_walk_line = 160,
                             longest_walk_title = 40, longest_walk_choice = 90;

/// Characters, not bytes.
std::size_t characters_in(std::string_view text);

/// At most so many characters of it, never half a one.
std::string cut_to(std::string_view text, std::size_t characters);

bool is_blank(std::string_view text);

}  // namespace voltfall
