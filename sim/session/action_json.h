#pragma once

#include <nlohmann/json.hpp>

#include "session/actions.h"

namespace voltfall {

/// One action as an object with `act` and its own fields.
nlohmann::ordered_json json_of(const Action& action);

/// The action in `line`. Throws std::invalid_argument or a nlohmann exception, with what is wrong in words, when the
/// object holds no action this program knows.
Action action_in(const nlohmann::json& line);

}  // namespace voltfall
