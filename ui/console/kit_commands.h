#pragma once

#include <optional>
#include <span>
#include <vector>

#include "console/bay_commands.h"
#include "instruments/kit.h"

namespace voltfall {

/// The commands for devices and instruments beyond meter and clamp.
std::span<const TextCommand> kit_text_commands();

/// The instrument with a display that these words mean, or an answer with the nearest one.
std::optional<Kit> display_among(TextBay& bay, TypedWords words);

/// After `note`: the displays named, the meter when none is; without `note` none at all. Empty when a name was wrong.
std::optional<std::vector<Kit>> noted_after(TextBay& bay, TypedWords words);

}  // namespace voltfall
