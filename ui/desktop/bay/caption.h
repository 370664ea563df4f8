#pragma once

#include <string>

#include "session/session.h"

namespace voltfall {

/// What is heard and seen at the vehicle now, as a person beside it would say it.
struct Caption {
  std::string words;
  std::string advice;  ///< what to do about it; empty when nothing presses
  bool danger = false;
  bool chattering = false;
};
Caption caption_of(const Session& session);

/// Above this the starter or a joint is too hot to go on.
inline constexpr double hot_C = 90.0, smoking_C = 110.0;
bool is_hot(const Session& session);

}  // namespace voltfall
