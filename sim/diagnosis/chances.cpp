#include <algorithm>
#include <cmath>

#include "diagnosis/answer_words.h"
#include "diagnosis/judging.h"
#include "hearing/crank_watch.h"
#include "instruments/thermometer.h"
#include "job/looks.h"
#include "job/touch.h"

// How likely each answer to a question is under a signature.

namespace voltfall {
namespace {

using Kind = Finding::Kind;

constexpr double unforeseen = 0.02;

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

}  // namespace

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
    case Kind::temperature:
      return seen_share(*question.red) * signature.rise_K[static_cast<std::size_t>(*question.red)];
    default:
      return -1.0;
  }
}

namespace {

std::vector<float> reading_chances(const Question& question, const Signature& signature,
                                   const std::optional<Expected>& expected) {
  const double figure = expected ? figure_in(question, signature) : -1.0;
  std::array<double, reading_answers> share{1.0};
  if (figure >= 0.0) {
    const double loop_A = std::abs(static_cast<double>(signature.at(question.condition).loop_A));
    share = foretold(*expected, figure, loop_A);
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

/// Appearance is not proof: crust may lie on a sound joint, and a bad one may look clean (common practice).
std::vector<float> look_chances(const Question& question, const RigParameters& faulty, const Scenario& scenario) {
  switch (look_answer(look_at(question.about, faulty, scenario.typical))) {
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
  const std::string_view word = question.about == engine_about
                                    ? barred(faulty, scenario.typical, controls_in(question.condition, faulty))
                                    : wiggled(question.about, faulty, scenario.typical);
  const auto words = words_for(question);
  return only(index_in(words, word), words.size());
}

// Whoever feels for warmth has cranked some ten seconds, or half of that, or twice.
std::vector<float> warmth_chances(const Question& question, const Signature& signature, double air_C) {
  double rise_K = 0.0;
  for (const TestPoint point : points_of_part(question.about)) {
    rise_K = std::max(rise_K, static_cast<double>(signature.rise_K[static_cast<std::size_t>(point)]));
  }
  std::vector<float> chance(warmth_words.size(), 0.0F);
  for (const double longer : {0.5, 1.0, 2.0}) {
    const int word = index_in(warmth_words, felt(air_C + longer * rise_K, air_C));
    chance.at(static_cast<std::size_t>(word)) += 1.0F;
  }
  return chance;
}

/// Common practice, as the session judges the lamp's glow: bright down to some 9 V, dark below 3 V.
int glow_answer(double volts) {
  constexpr double bright_from_V = 9.0, glows_from_V = 3.0;
  return volts >= bright_from_V ? 0 : volts >= glows_from_V ? 1 : 2;
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

}  // namespace

Foretelling::Foretelling(const Question& question, const Scenario& scenario)
    : question_(question), scenario_(scenario), expected_(expected_for(question, scenario)) {}

std::vector<float> Foretelling::chances(const Signature& signature, const RigParameters& faulty) const {
  const Question& question = question_;
  const Snapshot& shot = signature.at(question.condition);
  switch (question.kind) {
    case Kind::looked:
      return with_unforeseen(look_chances(question, faulty, scenario_));
    case Kind::felt:
      if (is_of_warmth(question)) {
        return with_unforeseen(warmth_chances(question, signature, scenario_.typical.ambient_C));
      }
      return with_unforeseen(felt_chances(question, faulty, scenario_));
    case Kind::lamp: {
      const double volts = std::abs(shot.volts_between(*question.red, *question.black));
      return with_unforeseen(only(glow_answer(volts), glow_words.size()));
    }
    case Kind::heard_or_seen:
      if (question.about.empty() || question.about == lamps_about) {
        return with_unforeseen(word_chances(words_for(question), shot));
      }
      return with_unforeseen(only(says(shot, question.about) ? 1 : 0, yes_or_no.size()));
    default:
      if (question.kind == Kind::bench && question.about == no_load_about) {
        return with_unforeseen(no_load_chances(signature.bench, scenario_));
      }
      return with_unforeseen(reading_chances(question, signature, expected_));
  }
}

}  // namespace voltfall
