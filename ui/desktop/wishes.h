#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "session/session.h"

namespace voltfall {

/// What a panel would like to happen. A panel changes no job itself: the screen hands each action to the session.
struct Wishes {
  std::vector<Action> actions;
  bool leave = false;                    ///< back to the start page
  std::optional<std::size_t> see_again;  ///< play the record to this entry of the log

  void act(Action action) { actions.push_back(std::move(action)); }
};

}  // namespace voltfall
