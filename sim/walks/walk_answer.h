#pragma once

#include <optional>
#include <string>
#include <vector>

#include "scenario/problem.h"
#include "walks/walk.h"

namespace voltfall {

/// What the model says to a question.
struct WalkAnswer {
  std::optional<WalkValue> value;                       ///< what the choices are held against; empty when there is none
  std::optional<WalkValue> trial_value, compare_value;  ///< the two trials' own, where one is held against the other
  std::optional<std::size_t> right;                     ///< index of the right choice
  std::string doubt;  ///< why no choice is right, or why the right one is too close a call; else empty
};

/// Turns the key of the vehicle and waits until the trial's time is over. Throws when the vehicle can't be.
WalkOutcome try_out(const WalkTrial& trial, const RestingPlace& rest = {});

/// Runs the model. Never throws: a vehicle that can't be worked out is a doubt.
WalkAnswer answer(const WalkQuestion& question, const RestingPlace& rest = {});

/// A figure as a learner reads it: `0.02 V`, `1.35 times`; of a word its id, `chattering`.
std::string text_of(const WalkQuestion& question, const WalkValue& value);

/// Every question answered and every sight tried: what an author has to know before anybody walks it. An answer has to
/// hold wherever the engine was left, too, for the bench may show another place. Empty when the model bears the walk
/// out.
std::vector<Problem> prove(const BenchWalk& walk);

}  // namespace voltfall
