#include "diagnosis/judging.h"

#include <algorithm>
#include <cmath>

#include "limits/limits.h"

namespace voltfall {
namespace {

using Kind = Finding::Kind;

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

// What else stands at the other points warms by itself: windings, the relay's coil, thin wires.
bool is_power_joint(TestPoint point) {
  using enum TestPoint;
  constexpr std::array joints{battery_positive_post, positive_clamp,  relay_battery_lug, relay_battery_stud,
                              relay_motor_stud,      relay_motor_lug, starter_lug,       starter_terminal,
                              engine_block,          block_lug,       negative_clamp,    negative_post};
  return std::find(joints.begin(), joints.end(), point) != joints.end();
}

}  // namespace

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
    case Kind::temperature:
      if (!is_power_joint(*question.red)) return std::nullopt;
      return expected_by("joint_rise", scenario);
    default:
      return std::nullopt;
  }
}

int judged(const Expected& expected, double value, double loop_A) {
  const bool in_range = loop_A >= expected.from_A && (expected.to_A <= 0.0 || loop_A <= expected.to_A);
  const double telling = expected.kind == Expected::Kind::band || in_range ? 1.0 : 0.0;
  const auto share = shares(expected, loop_A, telling, [&](double x) { return value < x ? 1.0 : 0.0; });
  return static_cast<int>(std::max_element(share.begin(), share.end()) - share.begin());
}

namespace {

// No two looks at a cranking engine show the same: compression beats in the current, the battery tires and recovers.
// Over the shipped jobs a reading strays by about a twentieth of what the current brings about.
double cranking_deviation(const Expected& expected, double figure, double loop_A) {
  constexpr double cranks_from_A = 40.0, strays_by = 0.05, rested_V = 12.6;
  if (std::abs(loop_A) < cranks_from_A) return 0.0;
  const bool volts_left = expected.kind == Expected::Kind::floor;
  return strays_by * (volts_left ? std::max(0.0, rested_V - figure) : figure);
}

}  // namespace

std::array<double, reading_answers> foretold(const Expected& expected, double figure, double loop_A) {
  const double deviation = std::hypot(0.5 * expected.near, cranking_deviation(expected, figure, loop_A));
  return shares(expected, loop_A, telling_chance(expected, loop_A),
                [&](double x) { return normal_below(x, figure, deviation); });
}

int no_load_answer(double amps, double rpm, const Scenario& scenario) {
  const Expected current = expected_by("no_load_current", scenario);
  const Expected speed = expected_by("no_load_speed", scenario);
  const int amps_step = amps < current.lowest - current.near ? 0 : amps > current.highest + current.near ? 2 : 1;
  return 2 * amps_step + (rpm < speed.lowest ? 0 : 1);
}

}  // namespace voltfall
