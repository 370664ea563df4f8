#pragma once

#include <string>

#include "diagnosis/question.h"
#include "wording/wording.h"

namespace voltfall {

/// What a test asks: `volts from bat. + post to + clamp, cranking`; `battery posts, at rest`.
std::string question_in_words(const Question& question, const Wording& words);

/// One of its answers: `over its limit`, `Rattle of clicks`.
std::string answer_words(const Question& question, int answer, const Wording& words);

}  // namespace voltfall
