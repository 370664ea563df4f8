#pragma once

#include <span>
#include <string_view>

#include "desktop/style/hands.h"

namespace voltfall {

/// What a key of the keyboard does on a screen.
struct KeyUse {
  std::string_view key, use;
};

/// The list of them on a page of its own over the middle of a picture. True in the frame it is put away.
/// @param back  the words of the key that puts it away; Esc does too
bool draw_key_list(Hands& hands, std::span<const KeyUse> uses, std::string_view back, const Rect& picture);

}  // namespace voltfall
