#include "tour/learner.h"

#include <algorithm>
#include <stdexcept>

#include "console/table_place.h"
#include "sealing/sealed_job.h"

namespace voltfall::test {
namespace {

constexpr double sure_from = 0.9;  // above the 0.80 that a naming asks: the picks alone have to hold it too
constexpr int most_tests = 60;

Scenario scenario_at(const std::filesystem::path& path) {
  ReadScenario read = read_job(path, by_program());
  if (!read.scenario) throw std::runtime_error(read.problems.front().text());
  return std::move(*read.scenario);
}

/// What the reading is about comes first in the trade: the order in which the usual list stands.
std::vector<int> textbook_order(const Diagnosis& diagnosis) {
  std::vector<int> order;
  const auto add = [&](auto belongs) {
    for (int i = 0; i < static_cast<int>(diagnosis.questions().size()); ++i) {
      const bool listed = std::find(order.begin(), order.end(), i) != order.end();
      if (!listed && belongs(diagnosis.questions()[static_cast<std::size_t>(i)])) order.push_back(i);
    }
  };
  using Kind = Finding::Kind;
  // trade.md B: reproduce with the lamps on, battery, then drops in the order of the circuit, the bench last.
  add([](const Question& q) { return q.kind == Kind::heard_or_seen && q.condition == Condition::cranking_lamps; });
  add([](const Question& q) { return q.condition == Condition::rest && q.kind == Kind::volts; });
  add([](const Question& q) { return q.kind == Kind::load_volts || q.kind == Kind::gravity; });
  add([](const Question& q) { return q.condition == Condition::cranking && q.kind == Kind::volts; });
  add([](const Question& q) { return q.condition == Condition::cranking; });
  add([](const Question& q) { return q.kind == Kind::looked; });
  add([](const Question& q) { return q.condition != Condition::bench; });
  add([](const Question&) { return true; });
  return order;
}

}  // namespace

RuledLearner::RuledLearner(const std::filesystem::path& scenario, bool safely, const BeforeWork& before)
    : scenario_(scenario_at(scenario)),
      diagnosis_(scenario_, table_store().source()(scenario_)),
      session_(scenario_, table_store().source()),
      situation_(decision::at_start(diagnosis_.problem())) {
  if (before) before(session_);
  if (safely) hands_.make_safe();
}

void RuledLearner::ask(int test) {
  const Question& question = diagnosis_.questions()[static_cast<std::size_t>(test)];
  const std::optional<int> number = hands_.answer(question);
  situation_.tests_done[static_cast<std::size_t>(test)] = true;
  if (!number) return;
  const Finding& finding = session_.findings()[static_cast<std::size_t>(*number - 1)];
  // A fault that is away for a while shows nothing; a learner hears that the engine cranks and waits for it.
  const std::optional<Answered> answered = answered_by(finding, scenario_, false);
  constexpr int most_tries = 4;
  const bool away = answered && answered->question == question && !finding.faults_there;
  if (away && ++tries_[test] < most_tries) situation_.tests_done[static_cast<std::size_t>(test)] = false;
  if (!answered || !(answered->question == question) || away) return;
  seen_.push_back({test, answered->answer});
  findings_.push_back(*number);
  situation_ = decision::after_test(diagnosis_.problem(), std::move(situation_), test, answered->answer);
}

int RuledLearner::leading() const {
  std::vector<double> shares = decision::candidate_shares(diagnosis_.problem(), situation_.belief);
  shares.pop_back();  // the unknown
  return static_cast<int>(std::max_element(shares.begin(), shares.end()) - shares.begin());
}

double RuledLearner::leading_share() const {
  const int candidate = leading();
  const bool nothing_wrong = diagnosis_.hypotheses().candidates[static_cast<std::size_t>(candidate)].fault_ids.empty();
  if (!nothing_wrong) return diagnosis_.share_of_group(candidate, situation_.belief);
  double share = 0.0;
  for (const int hypothesis : diagnosis_.cranking_soundly()) {
    share += situation_.belief[static_cast<std::size_t>(hypothesis)];
  }
  return share;
}

bool RuledLearner::shows(int candidate, std::size_t answer) const {
  const Question& question = diagnosis_.questions()[static_cast<std::size_t>(seen_[answer].test)];
  const auto asked = failings_asked_of(candidate);
  return std::any_of(asked.begin(), asked.end(),
                     [&](const Failing& failing) { return failing(question, seen_[answer].outcome); });
}

std::vector<RuledLearner::Failing> RuledLearner::failings_asked_of(int candidate) const {
  const auto& ids = diagnosis_.hypotheses().candidates[static_cast<std::size_t>(candidate)].fault_ids;
  if (ids.empty()) return {clears_battery_under_load};
  std::vector<Failing> asked;
  asked.reserve(ids.size());
  for (const std::string& id : ids) {
    asked.emplace_back([fault = fault_named(id)](const Question& question, int answer) {
      return shows_itself(*fault, question, answer);
    });
  }
  return asked;
}

// Nobody hands a vehicle back as sound without having heard it crank, with the lamps on too.
int RuledLearner::sound_to_hear() const {
  if (!diagnosis_.hypotheses().candidates[static_cast<std::size_t>(leading())].fault_ids.empty()) return -1;
  for (const Condition condition : {Condition::cranking_lamps, Condition::cranking}) {
    const int test = diagnosis_.test_of({Finding::Kind::heard_or_seen, condition, {}, {}, {}, 0, {}});
    if (test >= 0 && !is_done(test)) return test;
  }
  return -1;
}

int RuledLearner::proof_to_take() const {
  if (const int sound = sound_to_hear(); sound >= 0) return sound;
  const int candidate = leading();
  for (const Failing& failing : failings_asked_of(candidate)) {
    const bool seen = std::any_of(seen_.begin(), seen_.end(), [&](const decision::Seen& one) {
      return failing(diagnosis_.questions()[static_cast<std::size_t>(one.test)], one.outcome);
    });
    const int cheapest = seen ? -1 : cheapest_to_show(candidate, failing);
    if (cheapest >= 0) return cheapest;
  }
  return -1;
}

int RuledLearner::cheapest_to_show(int candidate, const Failing& failing) const {
  const decision::Problem& problem = diagnosis_.problem();
  const int hypothesis = decision::likeliest_of(problem, situation_.belief, candidate);
  int cheapest = -1;
  double least_minutes = 0.0;
  for (int test = 0; test < static_cast<int>(problem.tests.size()); ++test) {
    if (is_done(test)) continue;
    const decision::Test& asked = problem.tests[static_cast<std::size_t>(test)];
    const Question& question = diagnosis_.questions()[static_cast<std::size_t>(test)];
    const double minutes = decision::minutes_of(problem, situation_.opened, decision::test_choice(test));
    for (int answer = 0; answer < asked.outcomes; ++answer) {
      const bool likely = asked.chance(hypothesis, answer) >= 0.5;
      if (!likely || !failing(question, answer) || (cheapest >= 0 && minutes >= least_minutes)) continue;
      cheapest = test;
      least_minutes = minutes;
    }
  }
  return cheapest;
}

bool RuledLearner::would_tell(int test) const {
  constexpr double worth_asking_bits = 0.05;
  return decision::expected_information_bits(diagnosis_.problem(), situation_.belief, test) >= worth_asking_bits;
}

void RuledLearner::look_at_leading() {
  constexpr double likely_from = 0.5;
  const int candidate = leading();
  if (leading_share() < likely_from) return;
  for (const std::string& id : diagnosis_.hypotheses().candidates[static_cast<std::size_t>(candidate)].fault_ids) {
    for (const Finding::Kind kind : {Finding::Kind::looked, Finding::Kind::felt}) {
      const Question question{kind, Condition::rest, {}, {}, {}, 0, std::string(fault_named(id)->component)};
      const int test = diagnosis_.test_of(question);
      if (test >= 0 && !is_done(test)) ask(test);
    }
  }
}

// The failings of the thing itself first, then, one by one, what raises the share of the named group most.
std::vector<int> RuledLearner::evidence_for(int candidate) const {
  constexpr std::size_t most_evidence = 6;
  std::vector<decision::Seen> picked;
  std::vector<int> numbers;
  std::vector<bool> used(seen_.size(), false);
  const auto take = [&](std::size_t i) {
    used[i] = true;
    picked.push_back(seen_[i]);
    numbers.push_back(findings_[i]);
  };
  for (const Failing& failing : failings_asked_of(candidate)) {
    for (std::size_t i = 0; i < seen_.size(); ++i) {
      if (used[i] || !failing(diagnosis_.questions()[static_cast<std::size_t>(seen_[i].test)], seen_[i].outcome))
        continue;
      take(i);
      break;
    }
  }
  while (numbers.size() < most_evidence) {
    std::size_t best = seen_.size();
    double best_share = 0.0;
    for (std::size_t i = 0; i < seen_.size(); ++i) {
      if (used[i]) continue;
      auto with = picked;
      with.push_back(seen_[i]);
      const double share = diagnosis_.share_of_group(candidate, diagnosis_.belief_after(with));
      if (share > best_share) best = i, best_share = share;
    }
    if (best == seen_.size()) break;
    take(best);
  }
  return numbers;
}

void RuledLearner::name_leading() {
  const int candidate = leading();
  std::vector<std::string> ids = diagnosis_.hypotheses().candidates[static_cast<std::size_t>(candidate)].fault_ids;
  std::vector<int> evidence = evidence_for(candidate);
  if (ids.empty()) ids = {"nothing_found"};
  session_.act(NameFault{std::move(ids), std::move(evidence)});
}

void RuledLearner::repair_and_prove(int wander) {
  const int candidate = leading();
  const auto& ids = diagnosis_.hypotheses().candidates[static_cast<std::size_t>(candidate)].fault_ids;
  for (const std::string& id : ids) {
    hands_.repair(std::string(fault_named(id)->repair));
    for (const Question& question : diagnosis_.questions()) {
      const bool elsewhere =
          question.kind == Finding::Kind::looked && question.about != fault_named(ids.back())->component;
      if (wander > 0 && elsewhere) hands_.answer(question), --wander;
    }
  }
  for (std::size_t i = 0; i < seen_.size(); ++i) {
    if (shows(candidate, i)) hands_.answer(diagnosis_.questions()[static_cast<std::size_t>(seen_[i].test)]);
  }
  hands_.listen(Condition::cranking);
}

Score RuledLearner::hand_back() {
  hands_.put_together();
  if (const Outcome outcome = session_.act(CloseJob{}); !outcome.done) throw std::runtime_error(outcome.id);
  return session_.score().value_or(Score{});
}

namespace {

/// A learner is done asking when the naming would hold, and something noted is a failing of the thing itself.
bool may_name(RuledLearner& learner) {
  return learner.leading_share() >= sure_from;
}

void ask_by_plan(RuledLearner& learner) {
  for (int asked = 0; asked < most_tests; ++asked) {
    const int proof = learner.proof_to_take();
    if (may_name(learner) && proof < 0) return;
    // Where a repair would pay before it is sure, the naming before it still asks for a failing of the thing itself.
    decision::Choice choice = decision::test_choice(proof);
    if (!may_name(learner)) {
      const decision::Choice best = learner.diagnosis().planner().best_next(learner.situation()).choice;
      if (best.kind == decision::Choice::Kind::test) choice = best;
    }
    if (choice.index < 0) return;
    learner.ask(choice.index);
  }
}

Score finish(RuledLearner& learner) {
  learner.name_leading();
  learner.repair_and_prove();
  return learner.hand_back();
}

}  // namespace

Score planner_learner(const std::filesystem::path& scenario, const BeforeWork& before) {
  RuledLearner learner(scenario, true, before);
  ask_by_plan(learner);
  return finish(learner);
}

Score wandering_learner(const std::filesystem::path& scenario, int wander) {
  RuledLearner learner(scenario);
  ask_by_plan(learner);
  learner.name_leading();
  learner.repair_and_prove(wander);
  return learner.hand_back();
}

Score unsafe_planner_learner(const std::filesystem::path& scenario) {
  RuledLearner learner(scenario, false);
  ask_by_plan(learner);
  return finish(learner);
}

Score textbook_learner(const std::filesystem::path& scenario) {
  RuledLearner learner(scenario);
  for (const int test : textbook_order(learner.diagnosis())) {
    if (may_name(learner) && learner.proof_to_take() < 0) break;
    // Nobody measures what can't tell anything any more.
    if (!learner.is_done(test) && learner.would_tell(test)) learner.ask(test);
    learner.look_at_leading();
  }
  return finish(learner);
}

Score random_learner(const std::filesystem::path& scenario, unsigned seed, const BeforeWork& before) {
  RuledLearner learner(scenario, true, before);
  std::vector<int> order(learner.diagnosis().questions().size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = static_cast<int>(i);
  std::mt19937 generator(seed);
  for (std::size_t i = order.size(); i > 1; --i) std::swap(order[i - 1], order[generator() % i]);
  for (const int test : order) {
    if (may_name(learner) && learner.proof_to_take() < 0) break;
    learner.ask(test);
  }
  return finish(learner);
}

namespace {

std::vector<std::filesystem::path> find_scored_scenarios() {
  constexpr int first_walk_sheet = 100;
  std::vector<std::filesystem::path> paths;
  for (const auto& entry :
       std::filesystem::directory_iterator(std::filesystem::path(VOLTFALL_SOURCE_DIR) / "scenarios")) {
    if (entry.path().extension() == ".toml" && scenario_at(entry.path()).sheet < first_walk_sheet) {
      paths.push_back(entry.path());
    }
  }
  std::sort(paths.begin(), paths.end());
  return paths;
}

}  // namespace

// Every test that has them for a parameter asks as the program starts, whichever test is then run.
const std::vector<std::filesystem::path>& scored_scenarios() {
  static const std::vector<std::filesystem::path> paths = find_scored_scenarios();
  return paths;
}

}  // namespace voltfall::test
