#pragma once

#include <fmt/args.h>
#include <fmt/format.h>

#include <string>
#include <string_view>

#include "wording/wording.h"

namespace voltfall {

/// The text under a path of the language file with each `{name}` in it replaced by what `fmt::arg(name, ...)` gives.
/// A text need not use all that is given. Throws fmt::format_error for a name that nobody gives.
template <typename... Named>
std::string filled(const Wording& words, std::string_view path, const Named&... named) {
  return fmt::vformat(words.text(path), fmt::make_format_args(named...));
}

}  // namespace voltfall
