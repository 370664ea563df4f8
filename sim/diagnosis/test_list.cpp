#include "diagnosis/test_list.h"

#include <algorithm>
#include <array>

#include "job/job_log.h"

namespace voltfall {
namespace {

using enum TestPoint;
using Kind = Finding::Kind;

struct Pair {
  TestPoint red, black;
};

// Whole sides, then their legs, then what is left for the starter and the coil: the drops of a trade procedure.
constexpr std::array power_pairs{
    Pair{battery_positive_post, negative_post},
    Pair{battery_positive_post, relay_battery_stud},
    Pair{battery_positive_post, starter_terminal},
    Pair{starter_case, negative_post},
    Pair{battery_positive_post, positive_clamp},
    Pair{positive_clamp, relay_battery_lug},
    Pair{relay_battery_lug, relay_battery_stud},
    Pair{relay_battery_stud, relay_motor_stud},
    Pair{relay_motor_stud, relay_motor_lug},
    Pair{relay_motor_lug, starter_lug},
    Pair{starter_lug, starter_terminal},
    Pair{starter_case, engine_block},
    Pair{engine_block, block_lug},
    Pair{block_lug, negative_clamp},
    Pair{negative_clamp, negative_post},
    Pair{engine_block, negative_post},
    Pair{starter_terminal, starter_case},
    Pair{relay_motor_stud, negative_post},
};
constexpr std::array control_pairs{
    Pair{battery_positive_post, s_terminal},
    Pair{s_terminal, negative_post},
    Pair{s_terminal, relay_case},
    Pair{relay_battery_stud, fusible_link_out},
    Pair{fusible_link_out, ignition_feed},
    Pair{ignition_feed, ignition_start_output},
    Pair{ignition_start_output, neutral_switch_output},
    Pair{neutral_switch_output, s_wire_end},
    Pair{s_wire_end, s_terminal},
    Pair{relay_case, body},
    Pair{relay_case, negative_post},
    Pair{body, engine_block},
    Pair{body, negative_post},
    Pair{neutral_switch_output, negative_post},
    Pair{ignition_start_output, negative_post},
};
// Where a lamp shows at a glance whether a feed is there.
constexpr std::array lamp_pairs{
    Pair{s_wire_end, engine_block},
    Pair{fusible_link_out, engine_block},
    Pair{neutral_switch_output, engine_block},
    Pair{relay_battery_stud, engine_block},
};
constexpr std::array<std::string_view, 4> bench_tests{"no_load", "hold_in", "clutch_torque", "brush_length"};
constexpr std::array rest_pairs{
    Pair{battery_positive_post, negative_post}, Pair{relay_battery_stud, negative_post},
    Pair{fusible_link_out, negative_post},      Pair{ignition_feed, negative_post},
    Pair{relay_motor_stud, negative_post},      Pair{s_terminal, negative_post},
};

bool has(const Scenario& scenario, Kit kit) {
  return std::find(scenario.kit.begin(), scenario.kit.end(), kit) != scenario.kit.end();
}

bool is_behind_dash(std::optional<TestPoint> point) {
  return point == ignition_feed || point == ignition_start_output || point == dash_feed;
}

template <typename Pairs>
void add_volts(std::vector<Question>& questions, const Pairs& pairs, Condition condition) {
  for (const Pair& pair : pairs) {
    questions.push_back({Kind::volts, condition, pair.red, pair.black, {}, 0, {}});
  }
}

void add_meter_questions(std::vector<Question>& questions) {
  add_volts(questions, rest_pairs, Condition::rest);
  add_volts(questions, rest_pairs, Condition::key_on);
  for (const Condition condition : {Condition::cranking, Condition::cranking_lamps}) {
    add_volts(questions, power_pairs, condition);
    add_volts(questions, control_pairs, condition);
  }
  for (const OhmPair& pair : ohm_pairs()) {
    questions.push_back({Kind::ohms, Condition::power_off, pair.red, pair.black, {}, 0, {}});
  }
}

void add_battery_questions(std::vector<Question>& questions, const Scenario& scenario) {
  if (has(scenario, Kit::load_tester)) {
    questions.push_back({Kind::load_volts, Condition::load_test, {}, {}, {}, 0, {}});
  }
  if (has(scenario, Kit::conductance_tester))
    questions.push_back({Kind::cold_amps, Condition::rest, {}, {}, {}, 0, {}});
  if (!has(scenario, Kit::hydrometer)) return;
  for (int cell = 1; cell <= battery_cells; ++cell) {
    questions.push_back({Kind::gravity, Condition::rest, {}, {}, {}, cell, {}});
  }
}

void add_lamp_questions(std::vector<Question>& questions) {
  for (const Condition condition : {Condition::rest, Condition::cranking}) {
    for (const Pair& pair : lamp_pairs) {
      questions.push_back({Kind::lamp, condition, pair.red, pair.black, {}, 0, {}});
    }
  }
}

bool may_be_made(Condition condition, const Scenario& scenario) {
  if (!exists_on(condition, scenario.typical)) return false;
  const auto hung = hung_in(condition);
  return !hung || has(scenario, kit_of(hung->device));
}

void add_cranks(std::vector<Question>& questions, const Scenario& scenario) {
  for (const Condition condition : all_conditions()) {
    if (!is_cranking(condition) || !may_be_made(condition, scenario)) continue;
    questions.push_back({Kind::heard_or_seen, condition, {}, {}, {}, 0, {}});
  }
  questions.push_back({Kind::heard_or_seen, Condition::cranking_lamps, {}, {}, {}, 0, "lamps"});
  if (has(scenario, Kit::tachometer)) questions.push_back({Kind::speed, Condition::cranking, {}, {}, {}, 0, {}});
  if (has(scenario, Kit::clamp_meter)) {
    questions.push_back({Kind::amps, Condition::cranking, {}, {}, HeavyCable::positive, 0, {}});
  }
}

double setup_minutes(Condition condition) {
  switch (condition) {
    case Condition::remote_start:
      return job_minutes::remote_switch_hung;
    case Condition::case_jumped:
      return job_minutes::jumper_hung;
    case Condition::ground_lead:
    case Condition::feed_lead:
      return job_minutes::heavy_lead_hung;
    case Condition::load_test:
      return job_minutes::load_tester_hung;
    default:
      return is_cranking(condition) ? job_minutes::crank : 0.0;
  }
}

}  // namespace

std::vector<double> access_minutes() {
  return {job_minutes::behind_dash,
          2.0 * job_minutes::negative_clamp,
          job_minutes::belt_off,
          job_minutes::plugs_out,
          job_minutes::starter_off + job_minutes::first_bench_test - job_minutes::next_bench_test,
          job_minutes::first_crank - job_minutes::crank};
}

decision::AccessSet bit_of(Access access) {
  return decision::AccessSet{1} << static_cast<unsigned>(access);
}

std::vector<Question> sensible_questions(const Scenario& scenario) {
  std::vector<Question> questions;
  add_cranks(questions, scenario);
  if (has(scenario, Kit::multimeter)) add_meter_questions(questions);
  add_battery_questions(questions, scenario);
  if (has(scenario, Kit::test_lamp)) add_lamp_questions(questions);
  for (const std::string_view component : all_components()) {
    questions.push_back({Kind::looked, Condition::rest, {}, {}, {}, 0, std::string(component)});
    questions.push_back({Kind::felt, Condition::rest, {}, {}, {}, 0, std::string(component)});
  }
  for (const std::string_view test : bench_tests) {
    questions.push_back({Kind::bench, Condition::bench, {}, {}, {}, 0, std::string(test)});
  }
  return questions;
}

double minutes_for(const Question& question) {
  const double setup = setup_minutes(question.condition);
  switch (question.kind) {
    case Kind::looked:
      return job_minutes::look;
    case Kind::heard_or_seen:
      return std::max(setup, job_minutes::crank);
    case Kind::amps:
      return setup + job_minutes::clamp_reading;
    case Kind::speed:
      return setup + job_minutes::tachometer_reading;
    case Kind::load_volts:
      return setup + job_minutes::load_reading;
    case Kind::cold_amps:
      return job_minutes::conductance_test;
    case Kind::gravity:
      return (job_minutes::first_cell + 5.0 * job_minutes::next_cell) / battery_cells;
    case Kind::lamp:
      return setup + job_minutes::test_lamp_hung + job_minutes::lamp_reading;
    case Kind::temperature:
      return setup + job_minutes::thermometer_reading;
    case Kind::felt:
      if (is_cranking(question.condition)) return setup + job_minutes::part_felt;
      return question.about == "engine" ? job_minutes::engine_barred : job_minutes::part_disturbed;
    case Kind::bench:
      return job_minutes::next_bench_test;
    default:
      return setup + (is_cranking(question.condition) ? job_minutes::reading_under_load : job_minutes::reading_at_rest);
  }
}

decision::AccessSet access_for(const Question& question) {
  decision::AccessSet access = 0;
  if (is_cranking(question.condition)) access |= bit_of(Access::complaint);
  if (is_behind_dash(question.red) || is_behind_dash(question.black)) access |= bit_of(Access::behind_dash);
  if (question.condition == Condition::power_off) access |= bit_of(Access::negative_off);
  if (question.condition == Condition::belt_off) access |= bit_of(Access::belt_off);
  if (question.condition == Condition::plugs_out) access |= bit_of(Access::plugs_out);
  if (question.condition == Condition::bench) access |= bit_of(Access::starter_off);
  return access;
}

}  // namespace voltfall
