#pragma once

#include <array>
#include <optional>

#include "diagnosis/expected.h"
#include "diagnosis/question.h"

namespace voltfall {

/// The band a reading that answers the question is held against; empty where no limit applies.
std::optional<Expected> expected_for(const Question& question, const Scenario& scenario);

/// The figure that the instrument would show under a signature, its sign left out; negative when the signature holds
/// none.
double figure_in(const Question& question, const Signature& signature);

/// How a displayed figure stands to it: an Answer.
int judged(const Expected& expected, double value, double loop_A);

/// Chance of each Answer for a figure foretold: `near` is taken as two standard deviations of the instrument and the
/// next car, and a cranking engine adds its own.
std::array<double, reading_answers> foretold(const Expected& expected, double figure, double loop_A);

/// Amperes and revolutions of the no-load run together: an index into `no_load_words`.
int no_load_answer(double amps, double rpm, const Scenario& scenario);

}  // namespace voltfall
