#include "walks/walk_measures.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "hearing/crank_watch.h"

namespace voltfall {
namespace {

using Value = std::optional<WalkValue>;
using Outcome = const WalkOutcome&;

constexpr std::array<std::string_view, 2> yes_no{"yes", "no"};
constexpr std::array<std::string_view, 4> lamp_words{"off", "bright", "dim", "out"};  // in the order of LampLook

// A reading at rest has no state of cranking, and nothing here lets an engine run by itself.
const std::array<std::string_view, 7>& state_words() {
  static const std::array<std::string_view, 7> words{id_of(CrankState::cranking),   id_of(CrankState::labouring),
                                                     id_of(CrankState::stalled),    id_of(CrankState::not_engaged),
                                                     id_of(CrankState::chattering), id_of(CrankState::free_spin),
                                                     id_of(CrankState::no_relay)};
  return words;
}

Value figure(double value) {
  return std::isfinite(value) ? Value({value, {}}) : std::nullopt;
}

Value volts_between(Outcome outcome, TestPoint red, TestPoint black) {
  const auto& points = outcome.crank.settled.points;
  return figure(points[static_cast<std::size_t>(red)].mean - points[static_cast<std::size_t>(black)].mean);
}

Value engaged_after(Outcome outcome, TestPoint, TestPoint) {
  const std::optional<double> at_s = outcome.crank.engaged_at_s;
  return at_s ? figure(*at_s) : std::nullopt;
}

Value lamp_look(Outcome outcome, TestPoint, TestPoint) {
  const LampLook look = outcome.headlamps ? lamp_look_at(outcome.lamp_V) : LampLook::off;
  return WalkValue{0.0, lamp_words[static_cast<std::size_t>(look)]};
}

Value state(Outcome outcome, TestPoint, TestPoint) {
  const std::string_view word = id_of(outcome.crank.settled.state);
  const auto& words = state_words();
  if (std::find(words.begin(), words.end(), word) == words.end()) return std::nullopt;
  return WalkValue{0.0, word};
}

#define VOLTFALL_FIGURE(expression) ([](Outcome outcome, TestPoint, TestPoint) { return figure(outcome.expression); })

const std::array<WalkMeasure, 15>& table() {
  static const std::array<WalkMeasure, 15> rows{{
      {"volts", "V", 2, true, {}, volts_between},
      {"battery_posts_V", "V", 2, false, {}, VOLTFALL_FIGURE(crank.settled.battery_posts_V.mean)},
      {"lowest_battery_posts_V", "V", 2, false, {}, VOLTFALL_FIGURE(crank.lowest_battery_posts_V)},
      {"starter_V", "V", 2, false, {}, VOLTFALL_FIGURE(crank.settled.starter_V.mean)},
      {"lamp_V", "V", 2, false, {}, VOLTFALL_FIGURE(lamp_V)},
      {"loop_A", "A", 0, false, {}, VOLTFALL_FIGURE(crank.settled.loop_A.mean)},
      {"peak_loop_A", "A", 0, false, {}, VOLTFALL_FIGURE(crank.peak_loop_A)},
      {"first_surge_A", "A", 0, false, {}, VOLTFALL_FIGURE(crank.first_surge_A)},
      {"crank_rpm", "rpm", 0, false, {}, VOLTFALL_FIGURE(crank.settled.crank_rpm.mean)},
      {"motor_rpm", "rpm", 0, false, {}, VOLTFALL_FIGURE(crank.settled.motor_rpm.mean)},
      {"closings_per_s", "/s", 0, false, {}, VOLTFALL_FIGURE(crank.settled.closings_per_s)},
      {"engaged_after_s", "s", 3, false, {}, engaged_after},
      {"engaged", "", 0, false, yes_no,
       [](Outcome outcome, TestPoint, TestPoint) {
         return Value({0.0, yes_no[outcome.crank.engaged() ? 0 : 1]});
       }},
      {"lamps", "", 0, false, lamp_words, lamp_look},
      {"state", "", 0, false, state_words(), state},
  }};
  return rows;
}

#undef VOLTFALL_FIGURE

}  // namespace

double WalkMeasure::count() const {
  return std::pow(10.0, -decimals);
}

std::span<const WalkMeasure> all_walk_measures() {
  return table();
}

const WalkMeasure* walk_measure_named(std::string_view id) {
  const auto found =
      std::find_if(table().begin(), table().end(), [&](const WalkMeasure& measure) { return measure.id == id; });
  return found == table().end() ? nullptr : &*found;
}

}  // namespace voltfall
