#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "session/session.h"

namespace voltfall {

/// What the learner has answered in the walk so far.
struct WalkAnswers {
  std::optional<int> predicted;  ///< index of the choice for post to clamp
};

/// One step of "Ten minutes on a healthy car": what to do, and how the sheet knows that it was done.
struct WalkStep {
  std::string_view title, words;
  bool (*done)(const Session& session, const WalkAnswers& answers);
  bool asks_prediction = false;
  bool next_vehicle = false;      ///< after this step the same car comes back with a bad clamp
  bool shows_prediction = false;  ///< what was foretold stands beside what was measured
};

std::span<const WalkStep> walk_steps();

/// The choices offered for post to clamp, cranking.
std::span<const std::string_view> prediction_choices();

}  // namespace voltfall
