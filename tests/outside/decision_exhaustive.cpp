#include "outside/decision_exhaustive.h"

#include <algorithm>
#include <cstdint>
#include <limits>
#include <numeric>
#include <unordered_map>
#include <vector>

#include "decision/repair_order.h"
#include "decision/suspects.h"

namespace voltfall::decision {
namespace {

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

using Weights = std::vector<double>;  // by hypothesis, joint with the history

double total_of(const Weights& weights) {
  return std::accumulate(weights.begin(), weights.end(), 0.0);
}

Weights times_chance(const Test& test, Weights weights, int outcome) {
  for (std::size_t h = 0; h < weights.size(); ++h) weights[h] *= test.chance(static_cast<int>(h), outcome);
  return weights;
}

Weights without_cured(const Problem& problem, Weights weights, int repair) {
  for (std::size_t h = 0; h < weights.size(); ++h) {
    for (const int cured : problem.repairs[at(repair)].cures) {
      if (problem.candidate_of[h] == cured) weights[h] = 0.0;
    }
  }
  return weights;
}

class Everything {
 public:
  explicit Everything(const Problem& problem) : problem_(problem) {
    for (int hypothesis = 0; hypothesis < problem.hypotheses(); ++hypothesis) {
      groups_.push_back(group_of(problem, hypothesis));
    }
  }

  // A history is a number in base (outcomes + 1) for the tests, then a bit for each repair; it tells what is open.
  double least(const Weights& weights, std::uint64_t history, AccessSet opened) {
    if (total_of(weights) < 1e-12) return 0.0;
    const auto known = least_.find(history);
    if (known != least_.end()) return known->second;
    double best = std::numeric_limits<double>::infinity();
    bool any_tells = false;
    std::uint64_t digit = 1;
    for (std::size_t t = 0; t < problem_.tests.size(); ++t) {
      const Test& test = problem_.tests[t];
      const auto base = static_cast<std::uint64_t>(test.outcomes) + 1;
      if (history / digit % base == 0) {
        any_tells = any_tells || tells(weights, static_cast<int>(t));
        double cost = minutes_of(problem_, opened, test_choice(static_cast<int>(t))) * total_of(weights);
        for (int outcome = 0; outcome < test.outcomes; ++outcome) {
          cost += least(times_chance(test, weights, outcome),
                        history + digit * (static_cast<std::uint64_t>(outcome) + 1), opened | test.access);
        }
        best = std::min(best, cost);
      }
      digit *= base;
    }
    const bool repairing = history / digit != 0;
    if (repairing || !any_tells || repair_allowed(weights))
      best = std::min(best, by_repair(weights, history, digit, opened));
    least_.emplace(history, best);
    return best;
  }

 private:
  double by_repair(const Weights& weights, std::uint64_t history, std::uint64_t digit, AccessSet opened) {
    double best = std::numeric_limits<double>::infinity();
    for (std::size_t r = 0; r < problem_.repairs.size(); ++r, digit *= 2) {
      if (history / digit % 2 != 0) continue;
      const double own = minutes_of(problem_, opened, repair_choice(static_cast<int>(r))) * total_of(weights);
      const Weights left = without_cured(problem_, weights, static_cast<int>(r));
      best = std::min(best, own + least(left, history + digit, opened | problem_.repairs[r].access));
    }
    return best;
  }

  Belief belief_of(Weights weights) const {
    const double total = total_of(weights);
    for (double& weight : weights) weight /= total;
    return weights;
  }

  bool tells(const Weights& weights, int test) const {
    return expected_information_bits(problem_, belief_of(weights), test) >= 0.05;
  }

  // The rule of repair_from_share, stated once more.
  bool repair_allowed(const Weights& weights) const {
    const Belief belief = belief_of(weights);
    const std::vector<double> shares = candidate_shares(problem_, belief);
    const auto candidate = std::max_element(shares.begin(), shares.end()) - shares.begin();
    const int likeliest = likeliest_of(problem_, belief, static_cast<int>(candidate));
    return share_of(groups_[at(likeliest)], belief) >= problem_.repair_from_share;
  }

  const Problem& problem_;
  std::vector<std::vector<int>> groups_;
  std::unordered_map<std::uint64_t, double> least_;
};

// Bit i of a set is hypothesis i.
class EverySet {
 public:
  explicit EverySet(const Problem& problem) : problem_(problem), least_(std::size_t{1} << problem.prior.size(), -1.0) {
    least_[0] = 0.0;
    for (const Test& test : problem.tests) {
      std::vector<std::uint32_t> sets(at(test.outcomes), 0);
      for (int h = 0; h < problem.hypotheses(); ++h) {
        for (int outcome = 0; outcome < test.outcomes; ++outcome) {
          if (test.chance(h, outcome) > 0.5) sets[at(outcome)] |= std::uint32_t{1} << h;
        }
      }
      answers_.push_back(sets);
    }
    for (const Repair& repair : problem.repairs) {
      std::uint32_t cured = 0;
      for (int h = 0; h < problem.hypotheses(); ++h) {
        const auto found = std::find(repair.cures.begin(), repair.cures.end(), problem.candidate_of[at(h)]);
        if (found != repair.cures.end()) cured |= std::uint32_t{1} << h;
      }
      cured_.push_back(cured);
    }
  }

  double least(std::uint32_t set) {
    if (least_[set] >= 0.0) return least_[set];
    double weight = 0.0;
    for (std::size_t h = 0; h < problem_.prior.size(); ++h) weight += (set >> h & 1U) * problem_.prior[h];
    double best = std::numeric_limits<double>::infinity();
    for (std::size_t t = 0; t < answers_.size(); ++t) {
      double cost = problem_.tests[t].minutes * weight;
      bool splits = true;
      for (const std::uint32_t answer : answers_[t]) {
        splits = splits && (set & answer) != set;
        if (splits) cost += least(set & answer);
      }
      if (splits) best = std::min(best, cost);
    }
    for (std::size_t r = 0; r < cured_.size(); ++r) {
      if ((set & cured_[r]) == 0) continue;
      best = std::min(best, problem_.repairs[r].cost_minutes * weight + least(set & ~cured_[r]));
    }
    return least_[set] = best;
  }

 private:
  const Problem& problem_;
  std::vector<std::vector<std::uint32_t>> answers_;  // by test and outcome
  std::vector<std::uint32_t> cured_;                 // by repair
  std::vector<double> least_;                        // by set; below 0: not known yet
};

// Plays a policy over every branch; costs are weight times minutes.
template <class Policy>
double played(const Problem& problem, const Policy& policy, const Weights& weights, const Situation& situation) {
  if (total_of(weights) < 1e-9) return 0.0;
  const Choice choice = policy(situation);
  const double own = minutes_of(problem, situation.opened, choice) * total_of(weights);
  if (choice.kind == Choice::Kind::repair) {
    return own + played(problem, policy, without_cured(problem, weights, choice.index),
                        after_repair_failed(problem, situation, choice.index));
  }
  double cost = own;
  const Test& test = problem.tests[at(choice.index)];
  for (int outcome = 0; outcome < test.outcomes; ++outcome) {
    const Weights joint = times_chance(test, weights, outcome);
    if (total_of(joint) < 1e-9) continue;
    cost += played(problem, policy, joint, after_test(problem, situation, choice.index, outcome));
  }
  return cost;
}

Choice greedy_choice(const Problem& problem, const Situation& situation) {
  const RepairOrder order = repair_order(problem, situation);
  int best = -1;
  double best_rate = 1e-6;
  for (int test = 0; test < static_cast<int>(problem.tests.size()); ++test) {
    if (situation.tests_done[at(test)]) continue;
    const double rate = information_rate_bits_per_min(problem, situation, test);
    if (rate > best_rate) {
      best = test;
      best_rate = rate;
    }
  }
  if (best < 0) return repair_choice(order.repairs.front());
  double after = minutes_of(problem, situation.opened, test_choice(best));
  const std::vector<double> outcomes = outcome_shares(problem, situation.belief, best);
  for (std::size_t outcome = 0; outcome < outcomes.size(); ++outcome) {
    if (outcomes[outcome] <= 0.0) continue;
    const Situation then = after_test(problem, situation, best, static_cast<int>(outcome));
    after += outcomes[outcome] * repair_order(problem, then).expected_minutes;
  }
  return after < order.expected_minutes ? test_choice(best) : repair_choice(order.repairs.front());
}

}  // namespace

double least_expected_minutes(const Problem& problem) {
  return Everything(problem).least(problem.prior, 0, 0);
}

double least_expected_minutes_of_sure(const Problem& problem) {
  return EverySet(problem).least((std::uint32_t{1} << problem.prior.size()) - 1);
}

double planned_expected_minutes(const Problem& problem, double effort) {
  const Planner planner(problem, effort);
  const auto policy = [&](const Situation& situation) { return planner.best_next(situation).choice; };
  return played(problem, policy, problem.prior, at_start(problem));
}

double greedy_expected_minutes(const Problem& problem) {
  const auto policy = [&](const Situation& situation) { return greedy_choice(problem, situation); };
  return played(problem, policy, problem.prior, at_start(problem));
}

}  // namespace voltfall::decision
