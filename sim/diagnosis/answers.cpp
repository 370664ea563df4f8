#include <algorithm>
#include <cmath>

#include "diagnosis/answer_words.h"
#include "diagnosis/judging.h"
#include "limits/limits.h"

// Findings as answers to questions, and whether an answer is a failing of the faulty thing itself.

namespace voltfall {
namespace {

using Kind = Finding::Kind;

/// The reading is the one that the pair's limit is about.
bool asks_about(const Question& question, const ProvingPair& pair) {
  const LimitKey& key = *limit_key_named(pair.limit);
  switch (question.kind) {
    case Kind::volts:
    case Kind::ohms: {
      const bool same = (question.red == pair.first && question.black == pair.second) ||
                        (question.red == pair.second && question.black == pair.first);
      const bool power_off = question.condition == Condition::power_off;
      const bool cranking = is_cranking(question.condition);
      return same && power_off == (key.measured_at == MeasuredAt::power_off) &&
             cranking == (key.measured_at == MeasuredAt::key_start);
    }
    case Kind::amps:
      return key.id == "cranking_current";
    case Kind::speed:
      return key.id == "cranking_speed";
    case Kind::load_volts:
      return key.id == "battery_load_test";
    case Kind::gravity:
      return key.id == "battery_gravity";
    case Kind::cold_amps:
      return key.id == "battery_cold_amps";
    case Kind::bench:
      return key.id == bench_limit(question.about);
    default:
      return false;
  }
}

std::optional<Answered> answered_word(const Finding& finding, Condition condition, bool sound_noted_before) {
  Question question{Kind::heard_or_seen, condition, {}, {}, {}, 0, {}};
  const int lamp = index_in(lamp_words, finding.observation);
  if (lamp >= 0) {
    question.about = lamps_about;
    return Answered{question, lamp};
  }
  const int sound = index_in(sounds, finding.observation);
  if (sound >= 0 && !sound_noted_before) return Answered{question, sound};
  question.about = finding.observation;
  return Answered{question, 1};
}

/// A hand that felt for warmth. Cold tells all the more after long cranking and nothing after hardly any; warm is the
/// other way about ("after a few seconds of cranking", trade.md: meter craft).
std::optional<Answered> answered_warmth(const Finding& finding, const Question& question, int answer) {
  constexpr double cold_from_s = 0.5 * warmed_s, warm_to_s = 2.0 * warmed_s;
  const bool cold = answer == 0;
  const bool tells =
      cold ? finding.cranked_s >= cold_from_s : finding.cranked_s > 0.0 && finding.cranked_s <= warm_to_s;
  return tells ? std::optional(Answered{question, answer}) : std::nullopt;
}

std::optional<Answered> answered_feel(const Finding& finding) {
  const Question warmth{Kind::felt, Condition::cranking, {}, {}, {}, 0, finding.component};
  if (const int answer = index_in(warmth_words, finding.observation); answer >= 0) {
    return answered_warmth(finding, warmth, answer);
  }
  const Question question{Kind::felt, Condition::rest, {}, {}, {}, 0, finding.component};
  const int answer = index_in(words_for(question), finding.observation);
  return answer < 0 ? std::nullopt : std::optional(Answered{question, answer});
}

/// The test lamp's glow, and the bench run with its two figures.
std::optional<Answered> answered_glance(const Finding& finding, Condition condition, const Scenario& scenario) {
  Question question{finding.kind, condition, finding.red, finding.black, {}, 0, {}};
  if (finding.kind == Kind::lamp) return Answered{question, index_in(glow_words, finding.observation)};
  question.about = finding.observation;
  return Answered{question, no_load_answer(finding.shown.base_value(), finding.also_shown.base_value(), scenario)};
}

std::optional<Answered> answered_reading(const Finding& finding, Condition condition, const Scenario& scenario) {
  const bool between_points = finding.kind == Kind::volts || finding.kind == Kind::ohms;
  Question question{finding.kind, condition, {}, {}, finding.clamp, finding.cell, {}};
  if (between_points) question.red = finding.red, question.black = finding.black;
  if (finding.kind == Kind::bench) question.about = finding.observation;
  const std::optional<Expected> expected =
      finding.hold == MeterHold::none ? expected_for(question, scenario) : std::nullopt;
  const bool has_figure = finding.shown.kind == MeterDisplay::Kind::value;
  const bool ohms = finding.kind == Kind::ohms || finding.kind == Kind::bench;
  if (ohms && finding.shown.kind == MeterDisplay::Kind::overload && expected) {
    return Answered{question, static_cast<int>(Answer::above)};
  }
  if (!expected || !has_figure) return Answered{question, static_cast<int>(Answer::not_telling)};
  const double loop_A = std::abs(finding.loop_A);
  return Answered{question, judged(*expected, measured_value(finding, scenario), loop_A)};
}

/// Above the air, as it would be after `warmed_s` of cranking. After hardly any it tells nothing.
std::optional<Answered> answered_temperature(const Finding& finding, const Scenario& scenario) {
  constexpr double few_s = 3.0;
  const Question question{Kind::temperature, Condition::cranking, finding.red, {}, {}, 0, {}};
  const std::optional<Expected> expected = expected_for(question, scenario);
  if (!expected || finding.cranked_s < few_s) return std::nullopt;
  const double rise_K = finding.shown.base_value() - scenario.typical.ambient_C;
  return Answered{question, judged(*expected, rise_K * warmed_s / finding.cranked_s, 0.0)};
}

/// A trace says what the meter would have said once it had settled; its extremes are held against no limit.
std::optional<Answered> answered_trace(const Finding& finding, Condition condition, const Scenario& scenario) {
  if (finding.settled.kind != MeterDisplay::Kind::value) return std::nullopt;
  Finding as_read = finding;
  as_read.kind = finding.clamp ? Kind::amps : Kind::volts;
  as_read.shown = finding.settled;
  return answered_reading(as_read, condition, scenario);
}

}  // namespace

std::optional<Answered> answered_by(const Finding& finding, const Scenario& scenario, bool sound_noted_before) {
  const std::optional<Condition> condition = condition_of(finding, scenario.typical);
  if (finding.kind == Kind::looked) {
    const Question question{Kind::looked, Condition::rest, {}, {}, {}, 0, finding.component};
    return Answered{question, look_answer(finding.observation)};
  }
  if (finding.kind == Kind::felt) return answered_feel(finding);
  if (finding.kind == Kind::temperature) return answered_temperature(finding, scenario);
  if (!condition) return std::nullopt;
  if (finding.kind == Kind::heard_or_seen) return answered_word(finding, *condition, sound_noted_before);
  if (finding.kind == Kind::trace) return answered_trace(finding, *condition, scenario);
  if (finding.kind == Kind::lamp || (finding.kind == Kind::bench && finding.observation == no_load_about)) {
    return answered_glance(finding, *condition, scenario);
  }
  return answered_reading(finding, *condition, scenario);
}

bool shows_itself(const Fault& fault, const Question& question, int answer) {
  const std::string_view word = answer_in_words(question, answer);
  const auto& signs = fault.signs;
  if (question.kind == Kind::looked) return question.about == fault.component && word == look_answers.back();
  if (std::find(signs.begin(), signs.end(), word) != signs.end()) {
    return question.kind == Kind::heard_or_seen || question.about == fault.component;
  }
  const bool outside = answer == static_cast<int>(Answer::below) || answer == static_cast<int>(Answer::above);
  if (words_for(question).data() != judgements.data() || !outside) return false;
  return std::any_of(fault.proof.begin(), fault.proof.end(),
                     [&](const ProvingPair& pair) { return asks_about(question, pair); });
}

bool clears_battery_under_load(const Question& question, int answer) {
  static const Question posts{
      Kind::volts, Condition::cranking, TestPoint::battery_positive_post, TestPoint::negative_post, {}, 0, {}};
  return question == posts && answer == static_cast<int>(Answer::inside);
}

}  // namespace voltfall
