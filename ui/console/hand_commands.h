#pragma once

#include <span>

#include "console/bay_commands.h"

namespace voltfall {

/// The commands for hands, the bench and the learner's own list.
std::span<const TextCommand> hand_text_commands();

}  // namespace voltfall
