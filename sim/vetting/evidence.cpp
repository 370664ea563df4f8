#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "decision/suspects.h"
#include "diagnosis/judging.h"
#include "job/findings.h"
#include "limits/limits.h"
#include "vetting/accuracy.h"
#include "vetting/vet_parts.h"

namespace voltfall::vetting {

double outside(const Expected& limit, double figure) {
  const double above = limit.highest > 0.0 ? figure - limit.highest : -INFINITY;
  const double below = limit.lowest > 0.0 ? limit.lowest - figure : -INFINITY;
  return std::max(above, below);
}

namespace {

/// A proof that a meter's own error could undo is none (the project's rule: twice the accuracy).
constexpr double least_margin = 2.0;

bool shows_hidden(const Vehicle& vehicle, const Question& question, int answer) {
  const auto& faults = vehicle.scenario.faults;
  if (faults.empty()) return clears_battery_under_load(question, answer);
  return std::any_of(faults.begin(), faults.end(), [&](const HiddenFault& hidden) {
    return shows_itself(*fault_named(hidden.id), question, answer);
  });
}

/// The gates hold a proof against the limit declared for its own two points, which may be wider than what whole sides
/// leave over.
Expected limit_for_proof(const Vehicle& vehicle, const Question& question, Expected limit) {
  for (const HiddenFault& hidden : vehicle.scenario.faults) {
    for (const ProvingPair& pair : fault_named(hidden.id)->proof) {
      const bool same = (question.red == pair.first && question.black == pair.second) ||
                        (question.red == pair.second && question.black == pair.first);
      if (!same) continue;
      const Limit& declared = limit_in_force(pair.limit, vehicle.scenario).figures;
      if (declared.highest > 0.0) limit.highest = std::max(limit.highest, declared.highest);
      if (declared.lowest > 0.0) limit.lowest = std::min(limit.lowest, declared.lowest);
    }
  }
  return limit;
}

int likeliest(const std::vector<float>& chances) {
  return static_cast<int>(std::max_element(chances.begin(), chances.end()) - chances.begin());
}

int answer_of(const Question& question, const Scenario& scenario, const Signature& shows,
              const RigParameters& vehicle) {
  return likeliest(Foretelling(question, scenario).chances(shows, vehicle));
}

std::optional<VetReading> reading_of(const Vehicle& vehicle, const Question& question, int answer) {
  const auto limit = expected_for(question, vehicle.scenario);
  const double faulty = limit ? figure_in(question, vehicle.faulty_shows) : -1.0;
  if (faulty < 0.0) return std::nullopt;
  VetReading reading{.question = question,
                     .healthy = figure_in(question, vehicle.healthy_shows),
                     .faulty = faulty,
                     .limit = *limit,
                     .answer = answer,
                     .accuracy = accuracy_of(question, faulty),
                     .left = {}};
  reading.shows_fault = shows_hidden(vehicle, question, answer);
  if (reading.shows_fault) reading.limit = limit_for_proof(vehicle, question, *limit);
  if (reading.accuracy > 0.0) reading.margin = outside(reading.limit, faulty) / reading.accuracy;
  return reading;
}

void sort_by_worth(std::vector<VetReading>& readings) {
  std::stable_sort(readings.begin(), readings.end(), [](const VetReading& one, const VetReading& other) {
    return std::tuple(one.left, -one.margin) < std::tuple(other.left, -other.margin);
  });
}

void collect(const Vehicle& vehicle, VetReport& report) {
  const Scenario& scenario = vehicle.scenario;
  for (const Question& question : sensible_questions(scenario)) {
    const int faulty = answer_of(question, scenario, vehicle.faulty_shows, vehicle.faulty);
    const int healthy = answer_of(question, scenario, vehicle.healthy_shows, vehicle.healthy);
    const bool shows = shows_hidden(vehicle, question, faulty);
    if (faulty == healthy && !shows) continue;
    if (auto reading = reading_of(vehicle, question, faulty)) {
      report.readings.push_back(std::move(*reading));
    } else if (shows) {
      report.signs.push_back({question, faulty});
    }
  }
  sort_by_worth(report.readings);
}

/// Each hidden thing by itself: two faults need two proofs.
void judge_proof(const HiddenFault& hidden, VetReport& report) {
  const Fault& fault = *fault_named(hidden.id);
  double best = -INFINITY;
  for (const VetReading& reading : report.readings) {
    // A limit that a sound one breaks as well proves nothing, and no repair would ever be proved by it.
    const bool sound_keeps_it = outside(reading.limit, reading.healthy) <= 0.0;
    if (sound_keeps_it && shows_itself(fault, reading.question, reading.answer)) best = std::max(best, reading.margin);
  }
  const bool sign = std::any_of(report.signs.begin(), report.signs.end(),
                                [&](const VetSign& one) { return shows_itself(fault, one.question, one.answer); });
  if (sign || best >= least_margin) return;
  if (best == -INFINITY) {
    return add_remark(
        report, true, "no_proof",
        fmt::format("no reading, look or sound that this kit allows is a failing of the {} itself: a "
                    "naming of {} could never be supported; add what shows it to kit.instruments, or raise "
                    "the severity",
                    plain_words(fault.component), hidden.id));
  }
  add_remark(
      report, true, "proof_at_the_limit",
      fmt::format("the clearest proof of {} lies {:.1f} times the instrument's accuracy outside its limit; at least "
                  "{:g} are asked, so raise the severity or declare a tighter limit",
                  hidden.id, best, least_margin));
}

void judge_groups(const Subject& subject, VetReport& report) {
  const Diagnosis& diagnosis = subject.diagnosis;
  const int own = diagnosis.problem().candidate_of[static_cast<std::size_t>(diagnosis.truth())];
  const auto group =
      decision::candidates_in(diagnosis.problem(), decision::group_of(diagnosis.problem(), diagnosis.truth()));
  std::string names;
  for (const int candidate : group) {
    if (candidate == own) continue;
    const auto& ids = diagnosis.hypotheses().candidates[static_cast<std::size_t>(candidate)].fault_ids;
    report.not_told_apart.push_back(ids);
    names += fmt::format("{}{}", names.empty() ? "" : ", ",
                         ids.empty() ? "nothing wrong" : fmt::format("{}", fmt::join(ids, " with ")));
  }
  if (names.empty()) return;
  add_remark(report, false, "not_told_apart",
             fmt::format("this kit can't tell it from: {}; a naming of any of them counts", names));
}

}  // namespace

void judge_evidence(const Vehicle& vehicle, VetReport& report) {
  collect(vehicle, report);
  for (const HiddenFault& hidden : vehicle.scenario.faults) judge_proof(hidden, report);
}

void judge_what_is_left(const Subject& subject, VetReport& report) {
  const Diagnosis& diagnosis = subject.diagnosis;
  // Of what every hypothesis answers alike nothing can be learnt, however this one vehicle scatters.
  std::erase_if(report.readings, [&](const VetReading& one) { return diagnosis.test_of(one.question) < 0; });
  std::erase_if(report.signs, [&](const VetSign& one) { return diagnosis.test_of(one.question) < 0; });
  for (VetReading& reading : report.readings) {
    const decision::Seen seen{diagnosis.test_of(reading.question), reading.answer};
    const auto explain = decision::consistent_candidates(diagnosis.problem(), std::span(&seen, 1));
    reading.left = static_cast<int>(explain.size());
  }
  sort_by_worth(report.readings);
  judge_groups(subject, report);
}

}  // namespace voltfall::vetting
