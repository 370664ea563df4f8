#include "sweep/sweep.h"

#include <algorithm>
#include <cmath>
#include <exception>

#include "work/on_all_cores.h"

namespace voltfall {
namespace {

constexpr double close_enough = 0.01;

SweepCrank crank_once(const SweepSubject& subject) {
  SweepCrank crank;
  crank.refused = contradiction_in(subject.parameters);
  if (!crank.refused.empty()) return crank;
  try {
    const CrankResult result = run_crank(subject.parameters, subject.rest, LoadParameters{},
                                         {.for_s = subject.key_s, .headlamps = subject.headlamps});
    crank.state = result.settled.state;
    crank.engaged = result.engaged();
    crank.engaged_at_s = result.engaged_at_s;
    crank.crank_rpm = result.settled.crank_rpm.mean;
    crank.starter_V = result.settled.starter_V.mean;
    crank.loop_A = result.settled.loop_A.mean;
  } catch (const std::exception& error) {
    crank.refused = error.what();
  }
  return crank;
}

// One crank for each subject that `subject_at` makes; those before the first that a cancel left out.
template <typename SubjectAt>
std::vector<SweepCrank> crank_all(std::size_t count, const SubjectAt& subject_at, SweepProgress& progress) {
  std::vector<SweepCrank> cranks(count);
  std::vector<char> done(count, 0);
  on_all_cores(count, [&](std::size_t i) {
    if (progress.cancelled) return;
    cranks[i] = crank_once(subject_at(i));
    done[i] = 1;
    ++progress.cranks_done;
  });
  cranks.resize(static_cast<std::size_t>(std::find(done.begin(), done.end(), 0) - done.begin()));
  return cranks;
}

std::vector<double> values_along(const Knob& knob, double from_share, double to_share, int count) {
  std::vector<double> values;
  values.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) {
    values.push_back(knob.at(from_share + (to_share - from_share) * i / (count - 1)));
  }
  return values;
}

bool is_close(double one, double other, const Knob& knob) {
  const double larger = std::max(std::abs(one), std::abs(other));
  const double near_0 = 1.0e-4 * std::abs(knob.to - knob.from);
  return std::abs(one - other) <= std::max(close_enough * larger, near_0);
}

bool changes(const SweepCrank& one, const SweepCrank& next) {
  return one.refused.empty() && next.refused.empty() && one.engaged != next.engaged;
}

// Empty when cancelled, or when a refused vehicle lies between the two sides.
std::optional<Threshold> close_in(SweepCrank below, SweepCrank above, const SweepSubject& subject, const Knob& knob,
                                  SweepProgress& progress) {
  constexpr int inner_cranks = 4;  // tried at once between the two sides: two for each core of a small machine
  constexpr double apart = 1.0 / (inner_cranks + 1);
  while (!is_close(below.value, above.value, knob)) {
    const Knob between{knob.settable, below.value, above.value, knob.by_ratio};
    const std::vector<double> inner = values_along(between, apart, 1.0 - apart, inner_cranks);
    std::vector<SweepCrank> tried = crank_at(subject, *knob.settable, inner, progress);
    if (tried.size() < inner.size()) return std::nullopt;
    tried.insert(tried.begin(), below);
    tried.push_back(above);
    const auto change = std::adjacent_find(tried.begin(), tried.end(), changes);
    if (change == tried.end()) return std::nullopt;
    below = change[0];
    above = change[1];
  }
  return below.engaged ? Threshold{below.value, above.value} : Threshold{above.value, below.value};
}

}  // namespace

double Knob::at(double share) const {
  if (share <= 0.0) return from;
  if (share >= 1.0) return to;
  return by_ratio ? from * std::pow(to / from, share) : from + share * (to - from);
}

std::vector<SweepCrank> crank_at(const SweepSubject& subject, const Settable& settable,
                                 const std::vector<double>& values, SweepProgress& progress) {
  const auto subject_at = [&](std::size_t i) {
    SweepSubject turned = subject;
    settable.in(turned.parameters) = values[i];
    return turned;
  };
  std::vector<SweepCrank> cranks = crank_all(values.size(), subject_at, progress);
  for (std::size_t i = 0; i < cranks.size(); ++i) cranks[i].value = values[i];
  return cranks;
}

std::vector<SweepCrank> sweep(const SweepSubject& subject, const Knob& knob, int cranks, SweepProgress& progress) {
  return crank_at(subject, *knob.settable, values_along(knob, 0.0, 1.0, cranks), progress);
}

std::vector<Threshold> thresholds_in(const std::vector<SweepCrank>& swept, const SweepSubject& subject,
                                     const Knob& knob, SweepProgress& progress) {
  std::vector<Threshold> thresholds;
  for (std::size_t i = 0; i + 1 < swept.size(); ++i) {
    if (!changes(swept[i], swept[i + 1])) continue;
    if (const auto found = close_in(swept[i], swept[i + 1], subject, knob, progress)) thresholds.push_back(*found);
  }
  return thresholds;
}

EngagementMap map_engagement(const SweepSubject& subject, const Knob& across, int columns, const Knob& up, int rows,
                             SweepProgress& progress) {
  const std::vector<double> across_values = values_along(across, 0.0, 1.0, columns);
  const std::vector<double> up_values = values_along(up, 0.0, 1.0, rows);
  const auto column_of = [&](std::size_t i) { return i % across_values.size(); };
  const auto subject_at = [&](std::size_t i) {
    SweepSubject turned = subject;
    across.settable->in(turned.parameters) = across_values[column_of(i)];
    up.settable->in(turned.parameters) = up_values[i / across_values.size()];
    return turned;
  };
  const std::size_t count = across_values.size() * up_values.size();
  EngagementMap map{columns, rows, crank_all(count, subject_at, progress)};
  if (map.cells.size() < count) return {};
  for (std::size_t i = 0; i < count; ++i) map.cells[i].value = across_values[column_of(i)];
  return map;
}

}  // namespace voltfall
