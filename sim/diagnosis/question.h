#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "diagnosis/expected.h"
#include "diagnosis/signature_table.h"

namespace voltfall {

/// What a test asks: one reading, sound or look in one condition. A learner's finding answers one, and the planner
/// chooses among them.
struct Question {
  Finding::Kind kind = Finding::Kind::volts;
  Condition condition = Condition::rest;
  std::optional<TestPoint> red, black;  ///< volts, ohms; `red` alone for a temperature after cranking
  std::optional<HeavyCable> clamp;      ///< amps
  int cell = 0;                         ///< gravity
  /// looked: the component. felt: the component, wiggled or barred; at `cranking`, felt for warmth afterwards.
  /// heard_or_seen: empty for "what does it sound like?", `lamps` for "how do the lamps burn?", else one observation
  /// asked by itself. bench: the bench test.
  std::string about;

  /// The leads may be either way round.
  bool operator==(const Question& other) const;
};

/// Answers to a question are counted from 0. For a reading they are these; a competent person sees no more than them.
enum class Answer {
  not_telling,  ///< no limit applies: other state, or too little current for a drop to show
  below,
  near,  ///< to a limit: instrument and healthy scatter could explain it either way
  inside,
  above
};
inline constexpr int reading_answers = 5;

/// The words there are for the sound of a crank, likeliest named first.
std::span<const std::string_view> sound_words();

/// How many answers the question has.
int answers_to(const Question& question);

/// The word or judgement for the debrief: `inside`, `chatter`, `crust`.
std::string_view answer_in_words(const Question& question, int answer);

/// A finding as the answer to a question. `asked_before`: whether the sound of that condition has been noted already,
/// so that this word is asked by itself. Empty when no condition of the table is the one it was taken in.
struct Answered {
  Question question;
  int answer = 0;
};
std::optional<Answered> answered_by(const Finding& finding, const Scenario& scenario, bool sound_noted_before);

/// The answer is a failing of the faulty thing itself: one of its proving readings out of limits, one of its signs
/// heard or felt, or what a look can't mistake.
bool shows_itself(const Fault& fault, const Question& question, int answer);

/// The battery gives its posts enough while the starter pulls: what a naming of "nothing wrong" asks for.
bool clears_battery_under_load(const Question& question, int answer);

/// How likely each answer to a question is. What no hypothesis changes is worked out once.
class Foretelling {
 public:
  /// Both have to outlive it.
  Foretelling(const Question& question, const Scenario& scenario);

  /// Chance of every answer if the hypothesis were true: from what its signature would show, with the width of "near"
  /// as two standard deviations, and a fiftieth shared out for all that is not foreseen.
  std::vector<float> chances(const Signature& signature, const RigParameters& faulty) const;

 private:
  const Question& question_;
  const Scenario& scenario_;
  std::optional<Expected> expected_;
};

}  // namespace voltfall
