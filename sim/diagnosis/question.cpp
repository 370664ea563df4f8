#include "diagnosis/question.h"

#include <algorithm>

#include "diagnosis/answer_words.h"
#include "job/looks.h"

namespace voltfall {
namespace {

using Kind = Finding::Kind;

}  // namespace

int index_in(std::span<const std::string_view> words, std::string_view word) {
  const auto found = std::find(words.begin(), words.end(), word);
  return found == words.end() ? -1 : static_cast<int>(found - words.begin());
}

std::span<const std::string_view> words_for(const Question& question) {
  switch (question.kind) {
    case Kind::looked:
      return look_answers;
    case Kind::felt:
      if (is_of_warmth(question)) return warmth_words;
      if (question.about == engine_about) return bar_words;
      return wiggle_words;
    case Kind::lamp:
      return glow_words;
    case Kind::bench:
      if (question.about == no_load_about) return no_load_words;
      return judgements;
    case Kind::heard_or_seen:
      if (question.about.empty()) return sounds;
      if (question.about == lamps_about) return lamp_words;
      return yes_or_no;
    default:
      return judgements;
  }
}

bool is_of_warmth(const Question& question) {
  return question.kind == Kind::felt && is_cranking(question.condition);
}

int look_answer(std::string_view look) {
  if (look == "clean" || look == "nothing_to_see") return 0;
  return look_proves(look) ? 2 : 1;
}

bool Question::operator==(const Question& other) const {
  const bool same_points = (red == other.red && black == other.black) || (red == other.black && black == other.red);
  return kind == other.kind && condition == other.condition && same_points && clamp == other.clamp &&
         cell == other.cell && about == other.about;
}

std::span<const std::string_view> sound_words() {
  return sounds;
}

int answers_to(const Question& question) {
  return static_cast<int>(words_for(question).size());
}

std::string_view answer_in_words(const Question& question, int answer) {
  return words_for(question)[static_cast<std::size_t>(answer)];
}

}  // namespace voltfall
