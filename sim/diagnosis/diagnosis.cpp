#include "diagnosis/diagnosis.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "job/job_log.h"

namespace voltfall {
namespace {

constexpr double fitted_from_share = 0.8;  ///< no part before the named group holds this share

/// The same instrument at the same place while the starter is fed, however it is fed.
bool same_witness(const Question& one, const Question& other) {
  if (one == other) return true;
  if (one.kind == Finding::Kind::heard_or_seen || !is_cranking(one.condition) || !is_cranking(other.condition))
    return false;
  const auto plain = [](Condition condition) {
    return condition == Condition::cranking || condition == Condition::cranking_lamps ||
           condition == Condition::cranking_other_gear;
  };
  if (!plain(one.condition) || !plain(other.condition)) return false;
  Question elsewhere = one;
  elsewhere.condition = other.condition;
  return elsewhere == other;
}

std::vector<std::string> sorted(std::span<const std::string> ids) {
  std::vector<std::string> in_order(ids.begin(), ids.end());
  std::sort(in_order.begin(), in_order.end());
  return in_order;
}

double price_of(const Repair& repair, const Scenario& scenario) {
  const auto own = scenario.part_prices.find(std::string(repair.id));
  return own == scenario.part_prices.end() ? repair.parts_price : own->second;
}

double labour_per_minute(const Scenario& scenario) {
  return scenario.labour_per_hour > 0.0 ? scenario.labour_per_hour / 60.0 : 1.0;
}

bool takes_starter_off(const std::vector<std::string>& ids) {
  return std::any_of(ids.begin(), ids.end(), [](const std::string& id) {
    const std::string_view component = repair_named(id)->component;
    return component == "starter" || component == "mounting_face";
  });
}

// The same reading again, and a crank.
constexpr double proof_minutes = job_minutes::repeated_reading + job_minutes::crank;

}  // namespace

Diagnosis::Diagnosis(const Scenario& scenario, std::shared_ptr<const SignatureTable> table,
                     std::span<const Question> asked_besides)
    : table_(std::move(table)), problem_(std::make_unique<decision::Problem>()) {
  add_hypotheses(scenario);
  for (const Question& question : sensible_questions(scenario)) add_test(question, scenario, true);
  for (const Question& question : asked_besides) add_test(question, scenario, false);
  add_repairs(scenario);
  problem_->access_minutes = access_minutes();
  problem_->repair_from_share = fitted_from_share;
  planner_ = std::make_unique<decision::Planner>(*problem_);
}

// Those of the table, then the truth, then all else. A vehicle between two severities of the table may behave like
// neither, and what is rightly read of it must not count against the right name: the truth is one of its candidate's
// severities, with no larger share than any.
void Diagnosis::add_hypotheses(const Scenario& scenario) {
  const Hypotheses& known = hypotheses();
  std::vector<std::string> hidden;
  for (const HiddenFault& fault : scenario.faults) hidden.push_back(fault.id);
  const int true_candidate = candidate_of(hidden);
  std::vector<double> ways(known.candidates.size(), 0.0);
  for (const Hypothesis& hypothesis : known.all) ways[static_cast<std::size_t>(hypothesis.candidate)] += 1.0;
  if (true_candidate >= 0) ways[static_cast<std::size_t>(true_candidate)] += 1.0;
  const auto add = [&](int candidate, std::vector<HiddenFault> faults, const RigParameters& vehicle,
                       const Signature& signature) {
    faults_.push_back(std::move(faults));
    const auto index = static_cast<std::size_t>(candidate);
    problem_->prior.push_back(candidate >= 0 ? known.candidates[index].prior / ways[index] : 0.0);
    problem_->candidate_of.push_back(candidate);
    vehicles_.push_back(vehicle);
    signatures_.push_back(&signature);
  };
  for (std::size_t i = 0; i < known.all.size(); ++i) {
    const Hypothesis& hypothesis = known.all[i];
    add(hypothesis.candidate, hypothesis.faults, parameters_under(hypothesis, scenario.typical), table_->signatures[i]);
  }
  truth_ = static_cast<int>(problem_->prior.size());
  add(true_candidate, scenario.faults, scenario.typical_faulty(), table_->truth);
  problem_->unknown = static_cast<int>(problem_->prior.size());
  problem_->prior.push_back(known.candidates.back().prior);
  problem_->candidate_of.push_back(known.unknown_candidate());
}

// The same answer whatever is wrong: nothing anybody would ask here.
void Diagnosis::add_test(const Question& question, const Scenario& scenario, bool only_if_telling) {
  const Foretelling foretelling(question, scenario);
  std::vector<std::vector<float>> rows;
  for (std::size_t i = 0; i < vehicles_.size(); ++i) {
    rows.push_back(foretelling.chances(*signatures_[i], vehicles_[i]));
  }
  const bool idle = std::all_of(rows.begin(), rows.end(), [&](const auto& row) { return row == rows.front(); });
  if (idle && only_if_telling) return;
  decision::Test test;
  test.minutes = minutes_for(question);
  test.access = access_for(question);
  test.outcomes = answers_to(question);
  std::vector<double> of_any(static_cast<std::size_t>(test.outcomes), 0.0);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    test.likelihood.insert(test.likelihood.end(), rows[i].begin(), rows[i].end());
    for (std::size_t answer = 0; answer < rows[i].size(); ++answer) {
      of_any[answer] += problem_->prior[i] * rows[i][answer];
    }
  }
  // What nobody has foreseen answers as any vehicle that is brought in would: to ask just anything tells nothing of it.
  const double known_share = 1.0 - problem_->prior.back();
  for (const double chance : of_any) test.likelihood.push_back(static_cast<float>(chance / known_share));
  questions_.push_back(question);
  problem_->tests.push_back(std::move(test));
}

void Diagnosis::add_repairs(const Scenario& scenario) {
  const auto& candidates = hypotheses().candidates;
  for (const Repair& repair : all_repairs()) {
    std::vector<int> cured;
    for (std::size_t i = 0; i < candidates.size(); ++i) {
      const auto& ids = candidates[i].fault_ids;
      const bool all = !ids.empty() && std::all_of(ids.begin(), ids.end(), [&](const std::string& id) {
        return mends(repair, *fault_named(id));
      });
      if (all) cured.push_back(static_cast<int>(i));
    }
    add_repair(scenario, {std::string(repair.id)}, std::move(cured));
  }
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    if (candidates[i].fault_ids.size() < 2) continue;
    std::vector<std::string> both;
    for (const std::string& id : candidates[i].fault_ids) both.emplace_back(fault_named(id)->repair);
    add_repair(scenario, std::move(both), {static_cast<int>(i)});
  }
  add_repair(scenario, {}, {0});
}

void Diagnosis::add_repair(const Scenario& scenario, std::vector<std::string> ids, std::vector<int> cured) {
  decision::Repair made;
  made.cost_minutes = proof_minutes;
  for (const std::string& id : ids) {
    const Repair& repair = *repair_named(id);
    made.cost_minutes += repair.minutes + price_of(repair, scenario) / labour_per_minute(scenario);
  }
  if (takes_starter_off(ids)) {
    made.access = bit_of(Access::starter_off);
    made.cost_minutes = std::max(made.cost_minutes - job_minutes::starter_off, job_minutes::least_starter_repair);
  }
  made.cures = std::move(cured);
  problem_->repairs.push_back(std::move(made));
  repairs_.push_back(std::move(ids));
}

int Diagnosis::test_of(const Question& question) const {
  const auto found = std::find(questions_.begin(), questions_.end(), question);
  return found == questions_.end() ? -1 : static_cast<int>(found - questions_.begin());
}

int Diagnosis::repair_of(std::string_view repair_id) const {
  const auto found = std::find_if(repairs_.begin(), repairs_.end(), [&](const std::vector<std::string>& ids) {
    return ids.size() == 1 && ids.front() == repair_id;
  });
  return found == repairs_.end() ? -1 : static_cast<int>(found - repairs_.begin());
}

int Diagnosis::candidate_of(std::span<const std::string> fault_ids) const {
  const std::vector<std::string> wanted = sorted(fault_ids);
  const auto& candidates = hypotheses().candidates;
  for (std::size_t i = 0; i + 1 < candidates.size(); ++i) {
    if (sorted(candidates[i].fault_ids) == wanted) return static_cast<int>(i);
  }
  return -1;
}

std::vector<decision::Seen> Diagnosis::seen_in(std::span<const Finding> findings, const Scenario& scenario) const {
  std::vector<decision::Seen> seen;
  for (const std::optional<Answered>& answered : answers_of(findings, scenario)) {
    const int test = answered ? test_of(answered->question) : -1;
    if (test < 0) continue;
    add_to(seen, {test, answered->answer});
  }
  return seen;
}

// The latest answer to a question stands. The same two points with the lamps on are no second witness.
void Diagnosis::add_to(std::vector<decision::Seen>& seen, decision::Seen one) const {
  const Question& question = questions_[static_cast<std::size_t>(one.test)];
  std::erase_if(seen, [&](const decision::Seen& earlier) {
    return same_witness(questions_[static_cast<std::size_t>(earlier.test)], question);
  });
  seen.push_back(one);
}

decision::Belief Diagnosis::belief_after(std::span<const decision::Seen> seen) const {
  decision::Belief belief = problem_->prior;
  for (const decision::Seen& one : seen) belief = decision::after_outcome(*problem_, belief, one.test, one.outcome);
  return belief;
}

std::vector<int> Diagnosis::group_of(int candidate, const decision::Belief& belief) const {
  const int hypothesis = decision::likeliest_of(*problem_, belief, candidate);
  return decision::candidates_in(*problem_, decision::group_of(*problem_, hypothesis));
}

double Diagnosis::share_of_group(int candidate, const decision::Belief& belief) const {
  const int hypothesis = decision::likeliest_of(*problem_, belief, candidate);
  return decision::share_of(decision::group_of(*problem_, hypothesis), belief);
}

namespace {

int likeliest_answer(const decision::Test& test, int hypothesis) {
  int likeliest = 0;
  for (int answer = 1; answer < test.outcomes; ++answer) {
    if (test.chance(hypothesis, answer) > test.chance(hypothesis, likeliest)) likeliest = answer;
  }
  return likeliest;
}

}  // namespace

bool Diagnosis::should_show(int candidate, int test, const decision::Belief& belief) const {
  const int hypothesis = decision::likeliest_of(*problem_, belief, candidate);
  const int answer = likeliest_answer(problem_->tests[static_cast<std::size_t>(test)], hypothesis);
  const auto& ids = hypotheses().candidates[static_cast<std::size_t>(candidate)].fault_ids;
  return std::any_of(ids.begin(), ids.end(), [&](const std::string& id) {
    return shows_itself(*fault_named(id), questions_[static_cast<std::size_t>(test)], answer);
  });
}

std::vector<int> Diagnosis::cranking_soundly() const {
  std::vector<int> sound;
  for (int hypothesis = 0; hypothesis < problem_->unknown; ++hypothesis) {
    bool as_healthy = true;
    for (const Condition condition : {Condition::cranking, Condition::cranking_lamps}) {
      const int test = test_of({Finding::Kind::heard_or_seen, condition, {}, {}, {}, 0, {}});
      if (test < 0) continue;
      const decision::Test& heard = problem_->tests[static_cast<std::size_t>(test)];
      as_healthy = as_healthy && likeliest_answer(heard, hypothesis) == likeliest_answer(heard, 0);
    }
    if (as_healthy) sound.push_back(hypothesis);
  }
  return sound;
}

std::vector<int> Diagnosis::left_after(std::string_view repair_id) const {
  const std::vector<std::string> done{std::string(repair_id)};
  std::vector<int> left(faults_.size() + 1, problem_->unknown);
  for (std::size_t i = 0; i < faults_.size(); ++i) {
    const std::vector<HiddenFault> faults = still_hidden(faults_[i], done);
    const bool untouched = faults.size() == faults_[i].size();
    left[i] = untouched ? static_cast<int>(i) : faults.empty() ? -1 : nearest_to(faults);
  }
  return left;
}

// The unknown where the catalogue has them not together.
int Diagnosis::nearest_to(const std::vector<HiddenFault>& faults) const {
  const auto off = [&](const HiddenFault& one, const HiddenFault& other) {
    return std::abs(std::log(std::max(one.severity, 1.0e-9) / std::max(other.severity, 1.0e-9)));
  };
  int nearest = problem_->unknown;
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < faults_.size(); ++i) {
    const bool same = std::equal(faults.begin(), faults.end(), faults_[i].begin(), faults_[i].end(),
                                 [](const HiddenFault& one, const HiddenFault& other) { return one.id == other.id; });
    if (!same) continue;
    double sum = 0.0;
    for (std::size_t fault = 0; fault < faults.size(); ++fault) sum += off(faults[fault], faults_[i][fault]);
    if (sum < least) least = sum, nearest = static_cast<int>(i);
  }
  return nearest;
}

decision::Plan Diagnosis::par() const {
  decision::Plan plan = decision::par_plan(*problem_, *planner_, truth_);
  const auto candidate = static_cast<std::size_t>(problem_->candidate_of[static_cast<std::size_t>(truth_)]);
  const auto& ids = hypotheses().candidates[candidate].fault_ids;
  for (const std::string& id : ids) {
    show_in(plan, [fault = fault_named(id)](const Question& question, int answer) {
      return shows_itself(*fault, question, answer);
    });
  }
  if (ids.empty()) show_in(plan, clears_battery_under_load);
  return plan;
}

// A naming asks for a failing of the thing itself: where the plan came by its conclusion without one, the cheapest is
// added before the first repair.
void Diagnosis::show_in(decision::Plan& plan, const std::function<bool(const Question&, int)>& shows) const {
  using decision::Choice;
  decision::AccessSet opened = 0;
  auto repair = plan.steps.begin();
  for (; repair != plan.steps.end() && repair->choice.kind == Choice::Kind::test; ++repair) {
    opened |= decision::access_of(*problem_, repair->choice);
    if (shows(questions_[static_cast<std::size_t>(repair->choice.index)], repair->outcome)) return;
  }
  decision::PlanStep cheapest;
  for (int test = 0; test < static_cast<int>(questions_.size()); ++test) {
    const int answer = likeliest_answer(problem_->tests[static_cast<std::size_t>(test)], truth_);
    const double minutes = decision::minutes_of(*problem_, opened, decision::test_choice(test));
    const bool cheaper = cheapest.choice.kind == Choice::Kind::none || minutes < cheapest.minutes;
    if (cheaper && shows(questions_[static_cast<std::size_t>(test)], answer)) {
      cheapest = {decision::test_choice(test), answer, minutes, 0.0,
                  repair == plan.steps.begin() ? 0.0 : (repair - 1)->truth_share};
    }
  }
  if (cheapest.choice.kind == Choice::Kind::none) return;
  plan.minutes += cheapest.minutes;
  plan.steps.insert(repair, cheapest);
}

std::vector<std::optional<Answered>> answers_of(std::span<const Finding> findings, const Scenario& scenario) {
  std::vector<std::optional<Answered>> answers;
  std::vector<Condition> sounds_noted;
  for (const Finding& finding : findings) {
    const std::optional<Condition> condition = condition_of(finding, scenario.typical);
    const bool before =
        condition && std::find(sounds_noted.begin(), sounds_noted.end(), *condition) != sounds_noted.end();
    answers.push_back(answered_by(finding, scenario, before));
    const auto& answered = answers.back();
    const bool sound = answered && finding.kind == Finding::Kind::heard_or_seen && answered->question.about.empty();
    if (sound) sounds_noted.push_back(*condition);
  }
  return answers;
}

std::vector<Question> questions_besides(std::span<const Finding> findings, const Scenario& scenario) {
  const std::vector<Question> usual = sensible_questions(scenario);
  std::vector<Question> besides;
  for (const std::optional<Answered>& answered : answers_of(findings, scenario)) {
    if (!answered) continue;
    const auto known = [&](const std::vector<Question>& list) {
      return std::find(list.begin(), list.end(), answered->question) != list.end();
    };
    if (!known(usual) && !known(besides)) besides.push_back(answered->question);
  }
  return besides;
}

}  // namespace voltfall
