#include "wording/question_words.h"

#include "wording/filled.h"

namespace voltfall {
namespace {

bool is_across_posts(const Question& question) {
  const auto is_post = [](std::optional<TestPoint> point) {
    return point == TestPoint::battery_positive_post || point == TestPoint::negative_post;
  };
  return is_post(question.red) && is_post(question.black);
}

std::string_view path_of(const Question& question) {
  using enum Finding::Kind;
  switch (question.kind) {
    case volts:
      return is_across_posts(question) ? "question.posts" : "question.volts";
    case ohms:
      return "question.ohms";
    case amps:
      return "question.amps";
    case heard_or_seen:
      return question.about.empty()      ? "question.sound"
             : question.about == "lamps" ? "question.lamps"
                                         : "question.one_word";
    case looked:
      return "question.looked";
    case felt:
      if (is_cranking(question.condition)) return "question.warmth";
      return question.about == "engine" ? "question.barred" : "question.felt";
    case gravity:
      return "question.gravity";
    case cold_amps:
      return "question.cold_amps";
    case load_volts:
      return "question.load_volts";
    case temperature:
      return "question.temperature";
    case speed:
      return "question.speed";
    case lamp:
      return "question.lamp";
    case bench:
      return "question.bench";
    case trace:
      return "question.trace";
  }
  return "";
}

}  // namespace

std::string question_in_words(const Question& question, const Wording& words) {
  const auto point = [&](std::optional<TestPoint> at) { return at ? words.point_short(*at) : std::string_view(); };
  return filled(words, path_of(question), fmt::arg("red", point(question.red)),
                fmt::arg("black", point(question.black)),
                fmt::arg("when", words.text("condition." + std::string(id_of(question.condition)))),
                fmt::arg("cable", question.clamp ? words.cable(*question.clamp) : std::string_view()),
                fmt::arg("cell", question.cell), fmt::arg("part", words.component(question.about)),
                fmt::arg("word", words.observation(question.about)), fmt::arg("test", words.bench(question.about)));
}

std::string answer_words(const Question& question, int answer, const Wording& words) {
  const std::string id(answer_in_words(question, answer));
  const std::string path = "answer." + id;
  return std::string(words.has(path) ? words.text(path) : words.observation(id));
}

}  // namespace voltfall
