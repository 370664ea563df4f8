#include "decision/planner.h"

#include <algorithm>
#include <functional>
#include <limits>

namespace voltfall::decision {
namespace {

constexpr std::size_t tests_looked_at = 4, repairs_looked_at = 2;
constexpr double tie = 1e-9;  // of a cost
constexpr double no_limit = std::numeric_limits<double>::infinity();
constexpr std::size_t most_remembered = 1000;  // some kilobytes each

// Whoever stands elsewhere believes something else, but for what was done twice.
std::size_t hash_of(const Situation& situation) {
  std::size_t hash = situation.opened;
  for (const double share : situation.belief) hash = hash * 1099511628211U + std::hash<double>{}(share);
  return hash;
}

}  // namespace

Planner::Planner(const Problem& problem, double effort) : search_(problem), effort_(effort) {}

std::vector<ValuedChoice> Planner::worth_a_look(const Situation& situation) const {
  const std::size_t hash = hash_of(situation);
  {
    const std::lock_guard lock(memory_lock_);
    const auto [first, last] = memory_.equal_range(hash);
    const auto known = std::find_if(first, last, [&](const auto& one) { return one.second.situation == situation; });
    if (known != last) return known->second.choices;
  }
  std::vector<ValuedChoice> choices = looked_at(situation);
  const std::lock_guard lock(memory_lock_);
  if (memory_.size() < most_remembered) memory_.emplace(hash, Remembered{situation, choices});
  return choices;
}

std::vector<ValuedChoice> Planner::looked_at(const Situation& situation) const {
  Node node = search_.node_of(situation);
  if (node.curable <= 0.0) return {};
  const std::vector<Telling> tests = search_.telling_tests(node);
  std::vector<ValuedChoice> choices;
  double least = no_limit;
  for (const Telling& one : search_.worth_following(node, tests, tests_looked_at)) {
    const double cost = search_.cost_of_test(node, one.test, 0, no_limit, effort_);
    choices.push_back({test_choice(one.test), cost / node.curable});
    least = std::min(least, cost);
  }
  if (search_.may_repair(node, tests)) {
    const std::vector<int> in_order = search_.repairs_by_rate(node);
    for (std::size_t i = 0; i < std::min(in_order.size(), repairs_looked_at); ++i) {
      const double cost = search_.cost_of_repair(node, in_order[i], 0, least, effort_);
      // Given up at the limit, a cost is the limit but for its rounding: that must not win.
      const bool beaten = cost >= least * (1.0 - tie);
      choices.push_back({repair_choice(in_order[i]), (beaten ? std::max(cost, least) : cost) / node.curable});
    }
  }
  std::stable_sort(choices.begin(), choices.end(), [](const ValuedChoice& a, const ValuedChoice& b) {
    return a.minutes_to_finish < b.minutes_to_finish;
  });
  return choices;
}

ValuedChoice Planner::best_next(const Situation& situation) const {
  const std::vector<ValuedChoice> choices = worth_a_look(situation);
  return choices.empty() ? ValuedChoice{} : choices.front();
}

double Planner::minutes_by(const Situation& situation, Choice choice) const {
  Node node = search_.node_of(situation);
  if (node.curable <= 0.0) return 0.0;
  double cost = 0.0;
  switch (choice.kind) {
    case Choice::Kind::none:
      cost = search_.repairs_only(node);
      break;
    case Choice::Kind::test:
      cost = search_.cost_of_test(node, choice.index, 0, no_limit, effort_);
      break;
    case Choice::Kind::repair:
      cost = search_.cost_of_repair(node, choice.index, 0, no_limit, effort_);
      break;
  }
  return cost / node.curable;
}

double Planner::regret_minutes(const Situation& situation, Choice choice) const {
  const std::vector<ValuedChoice> choices = worth_a_look(situation);
  if (choices.empty()) return minutes_by(situation, choice);
  const auto same =
      std::find_if(choices.begin(), choices.end(), [&](const ValuedChoice& one) { return one.choice == choice; });
  // What a repair that can't be best would cost was given up half way.
  const bool valued = same != choices.end() && choice.kind == Choice::Kind::test;
  const double minutes = valued ? same->minutes_to_finish : minutes_by(situation, choice);
  return std::max(0.0, minutes - choices.front().minutes_to_finish);
}

bool Planner::may_repair(const Situation& situation) const {
  Node node = search_.node_of(situation);
  return search_.may_repair(node, search_.telling_tests(node));
}

}  // namespace voltfall::decision
