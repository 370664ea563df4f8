#include "walks/walk_answer.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <exception>
#include <stdexcept>
#include <utility>

#include "rig/rig.h"

namespace voltfall {
namespace {

constexpr double lamp_window_s = 1.0 / 3.0;  // as hearing/crank_watch.h looks at the lamps

/// The mean of the lamp feed towards the end of a trial.
class LampMean {
 public:
  explicit LampMean(double trial_s) : from_s_(trial_s - lamp_window_s) {}
  void watch(const Readings& now) {
    if (now.time_s < from_s_) return;
    sum_V_ += now.lamp_V;
    ++steps_;
  }
  double mean_V() const { return steps_ > 0 ? sum_V_ / steps_ : 0.0; }

 private:
  double from_s_, sum_V_ = 0.0;
  int steps_ = 0;
};

/// With the key off nothing is cranked: what the probes find is there at once and stays.
CrankResult left_at_rest(const RigParameters& parameters, const WalkTrial& trial, LampMean& lamps) {
  Rig rig(parameters);
  Controls controls = ready_to_crank(parameters);
  controls.headlamps = trial.headlamps;
  CrankResult result;
  const auto steps = std::lround(trial.key_s / Rig::step_s);
  for (long step = 0; step < steps; ++step) {
    rig.step(controls);
    lamps.watch(rig.readings());
  }
  const Readings& end = rig.readings();
  const auto steady = [](double value) { return Spread{value, value, value}; };
  for (std::size_t i = 0; i < test_point_count; ++i) result.settled.points[i] = steady(end.node_V[i]);
  const double posts_V = end.volts_at(TestPoint::battery_positive_post) - end.volts_at(TestPoint::negative_post);
  result.settled.battery_posts_V = steady(posts_V);
  result.settled.starter_V = steady(end.volts_at(TestPoint::starter_terminal) - end.volts_at(TestPoint::starter_case));
  result.settled.loop_A = steady(end.loop_A);
  result.settled.state = CrankState::at_rest;
  result.peak_loop_A = result.first_surge_A = end.loop_A;
  result.lowest_battery_posts_V = posts_V;
  result.ran_s = end.time_s;
  return result;
}

/// The measure's value of one trial; throws with the reason when there is none.
WalkValue value_of(const WalkTrial& trial, const WalkMeasured& measured, const RestingPlace& rest) {
  const WalkOutcome outcome = try_out(trial, rest);
  const auto value = measured.measure->of(outcome, measured.red.value_or(TestPoint::negative_post),
                                          measured.black.value_or(TestPoint::negative_post));
  if (value) return *value;
  throw std::runtime_error(fmt::format("this trial gives no {}", measured.measure->id));
}

WalkValue held_against(const WalkQuestion& question, double figure, double other) {
  if (question.against == WalkAgainst::difference) return {figure - other, {}};
  if (std::abs(other) < question.compare_measured.measure->count()) {
    throw std::runtime_error("the compared figure is next to nothing and no ratio can be had");
  }
  return {figure / other, {}};
}

bool holds(const WalkChoice& choice, const WalkQuestion& question, const WalkValue& value) {
  if (!question.measured.measure->in_words()) return value.figure >= choice.from && value.figure < choice.to;
  return std::find(choice.is.begin(), choice.is.end(), value.word) != choice.is.end();
}

double count_of(const WalkQuestion& question) {
  constexpr double hundredth = 0.01;  // ratios are told to two places
  return question.against == WalkAgainst::ratio ? hundredth : question.measured.measure->count();
}

/// Two counts of the display keep apart what a learner reads and what the band says, the margin what a small change of
/// the model might tip over.
std::string too_close(const WalkQuestion& question, const WalkChoice& choice, const WalkValue& value) {
  if (question.measured.measure->in_words()) return {};
  for (const double edge : {choice.from, choice.to}) {
    if (!std::isfinite(edge)) continue;
    const double needed =
        std::max(question.margin * std::max(std::abs(edge), std::abs(value.figure)), 2.0 * count_of(question));
    if (std::abs(value.figure - edge) >= needed) continue;
    return fmt::format("the model gives {}, which lies too near to the edge at {:g}; allowed: at least {:.2g} from it",
                       text_of(question, value), edge, needed);
  }
  return {};
}

std::string no_band(const WalkQuestion& question, const WalkValue& value) {
  return fmt::format("the model gives {}, for which no choice is right; allowed: one choice that takes it in",
                     text_of(question, value));
}

/// Empty when the same choice is right wherever the engine was left: teeth face to face or free to enter, before a
/// compression or in it.
std::string not_everywhere(const WalkQuestion& question, std::size_t right) {
  constexpr std::array<RestingPlace, 3> elsewhere{{{0.0, 0.0}, {135.0, 0.5}, {300.0, 0.8}}};
  if (!question.trial.key_at_start) return {};
  for (const RestingPlace& rest : elsewhere) {
    const WalkAnswer found = answer(question, rest);
    if (found.right == right) continue;
    if (!found.value) return found.doubt;
    return fmt::format(
        "with the engine left at {:g} degrees the model gives {}, for which this choice is not right; "
        "allowed: a question with one answer for every resting place",
        rest.crank_angle_deg, text_of(question, *found.value));
  }
  return {};
}

void add_doubt(const WalkQuestion& question, const std::string& file, std::vector<Problem>& problems) {
  const WalkAnswer found = answer(question);
  std::string doubt = found.doubt;
  if (doubt.empty()) doubt = not_everywhere(question, *found.right);
  if (!doubt.empty()) problems.push_back({file, question.at.line, question.at.column, std::move(doubt)});
}

void try_sight(const WalkSight& sight, const std::string& file, std::vector<Problem>& problems) {
  try {
    try_out(sight.trial);
  } catch (const std::exception& error) {
    problems.push_back({file, sight.at.line, sight.at.column, error.what()});
  }
}

}  // namespace

WalkOutcome try_out(const WalkTrial& trial, const RestingPlace& rest) {
  const RigParameters parameters = set_up(*trial.vehicle, trial.setup);
  if (const std::string wrong = contradiction_in(parameters); !wrong.empty()) throw std::runtime_error(wrong);
  LampMean lamps(trial.key_s);
  WalkOutcome outcome;
  outcome.headlamps = trial.headlamps;
  outcome.crank = trial.key_at_start
                      ? run_crank(parameters, rest, {}, {.for_s = trial.key_s, .headlamps = trial.headlamps},
                                  [&](const Readings& now) { lamps.watch(now); })
                      : left_at_rest(parameters, trial, lamps);
  outcome.lamp_V = lamps.mean_V();
  return outcome;
}

WalkAnswer answer(const WalkQuestion& question, const RestingPlace& rest) {
  WalkAnswer found;
  try {
    found.value = found.trial_value = value_of(question.trial, question.measured, rest);
    if (question.against != WalkAgainst::nothing) {
      found.compare_value = value_of(question.compare_trial, question.compare_measured, rest);
      found.value = held_against(question, found.trial_value->figure, found.compare_value->figure);
    }
  } catch (const std::exception& error) {
    found.value = std::nullopt;
    found.doubt = fmt::format("the question can't be worked out: {}", error.what());
    return found;
  }
  for (std::size_t i = 0; i < question.choices.size() && !found.right; ++i) {
    if (holds(question.choices[i], question, *found.value)) found.right = i;
  }
  found.doubt =
      found.right ? too_close(question, question.choices[*found.right], *found.value) : no_band(question, *found.value);
  return found;
}

std::string text_of(const WalkQuestion& question, const WalkValue& value) {
  const WalkMeasure& measure = *question.measured.measure;
  if (measure.in_words()) return std::string(value.word);
  if (question.against == WalkAgainst::ratio) return fmt::format("{:.2f} times", value.figure);
  // A zero of the model may carry a sign that no meter would show.
  const double shown = std::abs(value.figure) < 0.5 * measure.count() ? 0.0 : value.figure;
  const std::string_view sign = question.against == WalkAgainst::difference && shown > 0.0 ? "+" : "";
  return fmt::format("{}{:.{}f} {}", sign, shown, measure.decimals, measure.unit);
}

std::vector<Problem> prove(const BenchWalk& walk) {
  std::vector<Problem> problems;
  for (const WalkPage& page : walk.pages) {
    if (page.question) add_doubt(*page.question, walk.file, problems);
    if (page.repeat) add_doubt(*page.repeat, walk.file, problems);
    for (const WalkSight& sight : page.sights) try_sight(sight, walk.file, problems);
  }
  return problems;
}

}  // namespace voltfall
