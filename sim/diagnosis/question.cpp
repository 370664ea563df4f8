#include "diagnosis/question.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "hearing/crank_watch.h"
#include "job/looks.h"
#include "job/touch.h"
#include "limits/limits.h"

namespace voltfall {
namespace {

using Kind = Finding::Kind;

constexpr std::string_view lamps = "lamps";
constexpr double unforeseen = 0.02;

// What a person names first: the odd before the plain.
constexpr std::array<std::string_view, 14> sounds{
    "runs_on",        "chatter", "silence",   "whirr",     "thud_and_stop", "kicks_back",   "grind",
    "shoe_drops_out", "hum",     "one_clunk", "one_click", "slow_crank",    "uneven_crank", "normal_crank"};
constexpr std::array<std::string_view, 3> lamp_words{"lamps_bright", "lamps_dim", "lamps_out"};
constexpr std::array<std::string_view, 2> yes_or_no{"no", "yes"};
constexpr std::array<std::string_view, reading_answers> judgements{"not_telling", "below", "near", "inside", "above"};
constexpr std::array<std::string_view, 3> look_answers{"nothing", "a_sign", "plain_to_see"};
constexpr std::array<std::string_view, 6> bar_words{"bar_free",        "bar_hard",       "bar_one_soft",
                                                    "bar_stops_solid", "bar_liquid_out", "bar_locked"};
constexpr std::array<std::string_view, 2> wiggle_words{"firm", "moves"};
constexpr std::array<std::string_view, 3> glow_words{"lamp_bright", "lamp_dim", "lamp_dark"};
// Amperes by revolutions, as the trade's bench table sorts them (trade.md B step 13).
constexpr std::array<std::string_view, 6> no_load_words{"low_A_slow",   "low_A_fast",  "usual_A_slow",
                                                        "usual_A_fast", "high_A_slow", "high_A_fast"};
constexpr std::string_view engine = "engine", no_load = "no_load";

int index_in(std::span<const std::string_view> words, std::string_view word) {
  const auto found = std::find(words.begin(), words.end(), word);
  return found == words.end() ? -1 : static_cast<int>(found - words.begin());
}

/// The words a question is answered in; the judgements of a reading for one that has none of its own.
std::span<const std::string_view> words_for(const Question& question) {
  switch (question.kind) {
    case Kind::looked:
      return look_answers;
    case Kind::felt:
      if (question.about == engine) return bar_words;
      return wiggle_words;
    case Kind::lamp:
      return glow_words;
    case Kind::bench:
      if (question.about == no_load) return no_load_words;
      return judgements;
    case Kind::heard_or_seen:
      if (question.about.empty()) return sounds;
      if (question.about == lamps) return lamp_words;
      return yes_or_no;
    default:
      return judgements;
  }
}

// ---- what is expected, and how a figure stands to it ---------------------------------------------------------------

std::optional<Expected> expected_for(const Question& question, const Scenario& scenario) {
  switch (question.kind) {
    case Kind::volts:
      return expected_volts(*question.red, *question.black, question.condition, scenario);
    case Kind::ohms:
      if (question.condition != Condition::power_off) return std::nullopt;
      return expected_ohms(*question.red, *question.black, scenario);
    case Kind::amps:
      if (!is_cranking(question.condition) || question.clamp == HeavyCable::body_strap) return std::nullopt;
      return expected_by("cranking_current", scenario);
    case Kind::speed:
      if (!is_cranking(question.condition)) return std::nullopt;
      return expected_by("cranking_speed", scenario);
    case Kind::load_volts:
      return expected_by("battery_load_test", scenario);
    case Kind::gravity:
      return expected_by("battery_gravity", scenario);
    case Kind::cold_amps:
      return expected_by("battery_cold_amps", scenario);
    case Kind::bench:
      return expected_by(bench_limit(question.about), scenario);
    default:
      return std::nullopt;
  }
}

/// Where a figure lies, given how sure one may be of it: `sure(x)` is the chance that the reading is below x.
template <typename Below>
std::array<double, reading_answers> shares(const Expected& expected, double loop_A, double telling,
                                           const Below& below) {
  double highest = expected.highest;
  // Above the range a drop's limit grows with the current.
  if (expected.kind == Expected::Kind::drop && expected.to_A > 0.0) highest *= std::max(1.0, loop_A / expected.to_A);
  const double near = expected.near;
  std::array<double, reading_answers> share{};
  const auto add = [&](Answer answer, double chance) { share[static_cast<std::size_t>(answer)] += chance; };
  double low = 0.0, high = 0.0;
  if (expected.lowest > 0.0) {
    low = below(expected.lowest - near);
    add(Answer::below, low);
    add(Answer::near, below(expected.lowest + near) - low);
    low = below(expected.lowest + near);
  }
  if (highest > 0.0) {
    high = 1.0 - below(highest + near);
    add(Answer::above, high);
    add(Answer::near, below(highest + near) - below(highest - near));
    high = 1.0 - below(highest - near);
  }
  const double inside = std::max(0.0, 1.0 - low - high);
  add(Answer::inside, inside * telling);
  add(Answer::not_telling, inside * (1.0 - telling));
  return share;
}

double normal_below(double x, double mean, double deviation) {
  return 0.5 * std::erfc((mean - x) / (deviation * std::sqrt(2.0)));
}

/// Chance that the loop current is one the limit is meant for: the clamp and the next car differ by a few per cent.
double telling_chance(const Expected& expected, double loop_A) {
  if (expected.kind == Expected::Kind::band) return 1.0;
  const double deviation = 1.0 + 0.03 * std::abs(loop_A);
  const double enough = expected.from_A > 0.0 ? 1.0 - normal_below(expected.from_A, loop_A, deviation) : 1.0;
  const double not_too_much = expected.to_A > 0.0 ? normal_below(expected.to_A, loop_A, deviation) : 1.0;
  return enough * not_too_much;
}

int judged(const Expected& expected, double value, double loop_A) {
  const bool in_range = loop_A >= expected.from_A && (expected.to_A <= 0.0 || loop_A <= expected.to_A);
  const double telling = expected.kind == Expected::Kind::band || in_range ? 1.0 : 0.0;
  const auto share = shares(expected, loop_A, telling, [&](double x) { return value < x ? 1.0 : 0.0; });
  return static_cast<int>(std::max_element(share.begin(), share.end()) - share.begin());
}

// ---- what a signature would show -----------------------------------------------------------------------------------

double ohms_in(const Question& question, const Signature& signature) {
  const auto pairs = ohm_pairs();
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    const bool same = (pairs[i].red == question.red && pairs[i].black == question.black) ||
                      (pairs[i].red == question.black && pairs[i].black == question.red);
    if (same) return signature.ohms[i];
  }
  return -1.0;
}

double bench_figure(std::string_view test, const BenchFigures& bench) {
  if (test == "hold_in") return bench.hold_in_ohm;
  return test == "clutch_torque" ? bench.clutch_Nm : bench.brush_mm;
}

/// The figure the instrument would show; negative when the signature holds none.
double figure_in(const Question& question, const Signature& signature) {
  const Snapshot& shot = signature.at(question.condition);
  switch (question.kind) {
    case Kind::volts:
      return std::abs(shot.volts_between(*question.red, *question.black));
    case Kind::ohms:
      return ohms_in(question, signature);
    case Kind::amps:
      return std::abs(static_cast<double>(shot.cable_A[static_cast<std::size_t>(*question.clamp)]));
    case Kind::speed:
      return std::abs(static_cast<double>(shot.crank_rpm));
    case Kind::load_volts:
      return signature.load_test_V;
    case Kind::gravity:
      return signature.gravity[static_cast<std::size_t>(question.cell - 1)];
    case Kind::cold_amps:
      return signature.cold_amps_share;
    case Kind::bench:
      return bench_figure(question.about, signature.bench);
    default:
      return -1.0;
  }
}

std::vector<float> reading_chances(const Question& question, const Signature& signature, const Scenario& scenario) {
  const std::optional<Expected> expected = expected_for(question, scenario);
  const double figure = expected ? figure_in(question, signature) : -1.0;
  std::array<double, reading_answers> share{1.0};
  if (figure >= 0.0) {
    const double loop_A = std::abs(static_cast<double>(signature.at(question.condition).loop_A));
    const double deviation = 0.5 * expected->near;
    share = shares(*expected, loop_A, telling_chance(*expected, loop_A),
                   [&](double x) { return normal_below(x, figure, deviation); });
  }
  return {share.begin(), share.end()};
}

bool says(const Snapshot& shot, std::string_view word) {
  const auto observations = all_observations();
  for (std::size_t i = 0; i < observations.size(); ++i) {
    if (observations[i].id == word) return ((shot.words >> i) & 1U) != 0;
  }
  return false;
}

/// The first word that holds is what most would say; another that holds too is fair.
std::vector<float> word_chances(std::span<const std::string_view> words, const Snapshot& shot) {
  constexpr float first_word = 1.0F, other_word = 0.25F;
  std::vector<float> chance(words.size(), 0.0F);
  bool any = false;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (!says(shot, words[i])) continue;
    chance[i] = any ? other_word : first_word;
    any = true;
  }
  if (!any) std::fill(chance.begin(), chance.end(), 1.0F);
  return chance;
}

int look_answer(std::string_view look) {
  if (look == "clean" || look == "nothing_to_see") return 0;
  return look_proves(look) ? 2 : 1;
}

/// Appearance is not proof: crust may lie on a sound joint, and a bad one may look clean (common practice).
std::vector<float> look_chances(const Question& question, const RigParameters& faulty, const Scenario& scenario) {
  switch (look_answer(look_at(question.about, faulty, scenario.healthy))) {
    case 0:
      return {0.9F, 0.1F, 0.0F};
    case 1:
      return {0.1F, 0.9F, 0.0F};
    default:
      return {0.0F, 0.0F, 1.0F};
  }
}

/// One answer, as sure as can be.
std::vector<float> only(int answer, std::size_t of) {
  std::vector<float> chance(of, 0.0F);
  chance.at(static_cast<std::size_t>(std::max(answer, 0))) = 1.0F;
  return chance;
}

std::vector<float> felt_chances(const Question& question, const RigParameters& faulty, const Scenario& scenario) {
  const std::string_view word = question.about == engine
                                    ? barred(faulty, scenario.healthy, controls_in(question.condition, faulty))
                                    : wiggled(question.about, faulty, scenario.healthy);
  const auto words = words_for(question);
  return only(index_in(words, word), words.size());
}

/// Common practice, as the session judges the lamp's glow: bright down to some 9 V, dark below 3 V.
int glow_answer(double volts) {
  constexpr double bright_from_V = 9.0, glows_from_V = 3.0;
  return volts >= bright_from_V ? 0 : volts >= glows_from_V ? 1 : 2;
}

int no_load_answer(double amps, double rpm, const Scenario& scenario) {
  const Expected current = expected_by("no_load_current", scenario);
  const Expected speed = expected_by("no_load_speed", scenario);
  const int amps_step = amps < current.lowest - current.near ? 0 : amps > current.highest + current.near ? 2 : 1;
  return 2 * amps_step + (rpm < speed.lowest ? 0 : 1);
}

/// Next to a limit either word may come.
std::vector<float> no_load_chances(const BenchFigures& bench, const Scenario& scenario) {
  std::vector<float> chance(no_load_words.size(), 0.0F);
  for (const double amps : {0.97 * bench.no_load_A, 1.03 * bench.no_load_A}) {
    for (const double rpm : {0.97 * bench.no_load_rpm, 1.03 * bench.no_load_rpm}) {
      chance.at(static_cast<std::size_t>(no_load_answer(amps, rpm, scenario))) += 0.25F;
    }
  }
  return chance;
}

std::vector<float> with_unforeseen(std::vector<float> chance) {
  double sum = 0.0;
  for (const float one : chance) sum += one;
  const double even = unforeseen / static_cast<double>(chance.size());
  for (float& one : chance) one = static_cast<float>(even + (1.0 - unforeseen) * one / sum);
  return chance;
}

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

// ---- findings as answers -------------------------------------------------------------------------------------------

std::optional<Answered> answered_word(const Finding& finding, Condition condition, bool sound_noted_before) {
  Question question{Kind::heard_or_seen, condition, {}, {}, {}, 0, {}};
  const int lamp = index_in(lamp_words, finding.observation);
  if (lamp >= 0) {
    question.about = lamps;
    return Answered{question, lamp};
  }
  const int sound = index_in(sounds, finding.observation);
  if (sound >= 0 && !sound_noted_before) return Answered{question, sound};
  question.about = finding.observation;
  return Answered{question, 1};
}

std::optional<Answered> answered_feel(const Finding& finding) {
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

}  // namespace

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

std::optional<Answered> answered_by(const Finding& finding, const Scenario& scenario, bool sound_noted_before) {
  const std::optional<Condition> condition = condition_of(finding, scenario.healthy);
  if (finding.kind == Kind::looked) {
    const Question question{Kind::looked, Condition::rest, {}, {}, {}, 0, finding.component};
    return Answered{question, look_answer(finding.observation)};
  }
  if (finding.kind == Kind::felt) return answered_feel(finding);
  if (!condition) return std::nullopt;
  if (finding.kind == Kind::heard_or_seen) return answered_word(finding, *condition, sound_noted_before);
  if (finding.kind == Kind::lamp || (finding.kind == Kind::bench && finding.observation == no_load)) {
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

std::vector<float> chances(const Question& question, const Signature& signature, const RigParameters& faulty,
                           const Scenario& scenario) {
  const Snapshot& shot = signature.at(question.condition);
  switch (question.kind) {
    case Kind::looked:
      return with_unforeseen(look_chances(question, faulty, scenario));
    case Kind::felt:
      return with_unforeseen(felt_chances(question, faulty, scenario));
    case Kind::lamp: {
      const double volts = std::abs(shot.volts_between(*question.red, *question.black));
      return with_unforeseen(only(glow_answer(volts), glow_words.size()));
    }
    case Kind::heard_or_seen:
      if (question.about.empty() || question.about == lamps) {
        return with_unforeseen(word_chances(words_for(question), shot));
      }
      return with_unforeseen(only(says(shot, question.about) ? 1 : 0, yes_or_no.size()));
    default:
      if (question.kind == Kind::bench && question.about == no_load) {
        return with_unforeseen(no_load_chances(signature.bench, scenario));
      }
      return with_unforeseen(reading_chances(question, signature, scenario));
  }
}

}  // namespace voltfall
