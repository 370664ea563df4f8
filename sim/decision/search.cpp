#include "decision/search.h"

#include <algorithm>
#include <limits>
#include <utility>

#include "decision/repair_order.h"
#include "decision/sums.h"

namespace voltfall::decision {
namespace {

constexpr double tells_from_bits = 0.05;  // a test below this is no reason to hold a repair back

// By weight, of the whole: below the first, repairs only; below the second a guess will do where the judgement has to
// be quick.
constexpr double negligible_weight = 2e-4, guessed_weight = 1.5e-2;

// By depth; the last for all below.
constexpr std::size_t tests_followed[] = {4, 3, 2, 1}, repairs_followed[] = {2, 1, 1, 0};
constexpr std::size_t guessed_per_followed = 2;  // tests judged by a guess for each that is followed
constexpr double lookups_per_followed = 12.0;    // what following one test costs, in lookups of its node, about

template <std::size_t count>
std::size_t by_depth(const std::size_t (&widths)[count], int depth) {
  return widths[std::min(at(depth), count - 1)];
}

}  // namespace

double Search::repairs_only(const Node& node, double limit) const {
  return repair_order_of(problem_, candidate_weights(node), node.opened, limit).expected_minutes;
}

std::vector<int> Search::repairs_by_rate(const Node& node) const {
  return repair_order_of(problem_, candidate_weights(node), node.opened).repairs;
}

bool Search::may_repair(const Node& node, const std::vector<Telling>& tests) const {
  const double from = tells_from_bits * total_of(node.weights);
  return share_reached(node) ||
         std::none_of(tests.begin(), tests.end(), [&](const Telling& one) { return one.bits >= from; });
}

bool Search::share_reached(const Node& node) const {
  if (problem_.repair_from_share <= 0.0 || node.repairing) return true;
  const std::vector<double> candidates = candidate_weights(node);
  int likeliest = -1;  // the likeliest severity of the likeliest curable candidate
  double best_candidate = 0.0, best = 0.0;
  for (std::size_t i = 0; i < node.weights.size(); ++i) {
    const int hypothesis = node.hypotheses[i];
    if (cheapest_cure_[at(hypothesis)] < 0.0) continue;
    const double candidate = candidates[at(problem_.candidate_of[at(hypothesis)])];
    if (candidate < best_candidate || (candidate == best_candidate && node.weights[i] <= best)) continue;
    best_candidate = candidate;
    best = node.weights[i];
    likeliest = hypothesis;
  }
  double group = 0.0;
  for (std::size_t i = 0; i < node.weights.size() && likeliest >= 0; ++i) {
    if (alike_[at(likeliest)][at(node.hypotheses[i])]) group += node.weights[i];
  }
  return group >= problem_.repair_from_share * total_of(node.weights);
}

// What it costs at least when a test comes next. Where repairs alone cost no more, no test pays.
double Search::least_with_a_test(const Node& node) const {
  double cheapest = std::numeric_limits<double>::infinity();
  for (const int test : node.tests) {
    cheapest = std::min(cheapest, minutes_of(problem_, node.opened, test_choice(test)));
  }
  return cheapest * node.curable + least_cost(node);
}

double Search::least_cost(const Node& node) const {
  double least = 0.0;
  for (std::size_t i = 0; i < node.weights.size(); ++i) {
    least += node.weights[i] * std::max(0.0, cheapest_cure_[at(node.hypotheses[i])]);
  }
  return least;
}

// As if the fault were found at that many bits per minute; or by repairs alone where that is cheaper.
double Search::guess(const Node& node) const {
  if (node.curable <= 0.0) return 0.0;
  const std::vector<double> candidates = candidate_weights(node);
  double left_bits = -surprise_bits(total_of(candidates));
  for (const double weight : candidates) left_bits += surprise_bits(weight);
  const double by_tests = left_bits / node.pace + least_cost(node);
  return std::min(by_tests, repair_order_of(problem_, candidates, node.opened, by_tests).expected_minutes);
}

std::vector<Telling> Search::worth_following(const Node& node, const std::vector<Telling>& tests,
                                             std::size_t width) const {
  if (tests.size() <= width) return tests;
  struct Guessed {
    Telling telling;
    double cost;
  };
  std::vector<Guessed> guessed;
  for (std::size_t i = 0; i < std::min(tests.size(), guessed_per_followed * width); ++i) {
    double cost = tests[i].minutes * node.curable;
    for (int outcome = 0; outcome < problem_.tests[at(tests[i].test)].outcomes; ++outcome) {
      cost += guess(after_outcome(node, tests[i].test, outcome));
    }
    guessed.push_back({tests[i], cost});
  }
  std::stable_sort(guessed.begin(), guessed.end(), [](const Guessed& a, const Guessed& b) { return a.cost < b.cost; });
  std::vector<Telling> chosen;
  for (std::size_t i = 0; i < width; ++i) chosen.push_back(guessed[i].telling);
  return chosen;
}

double Search::cost_of_test(const Node& node, int test, int depth, double limit, double effort) const {
  double cost = minutes_of(problem_, node.opened, test_choice(test)) * node.curable + least_cost(node);
  for (int outcome = 0; outcome < problem_.tests[at(test)].outcomes && cost < limit; ++outcome) {
    Node after = after_outcome(node, test, outcome);
    const double least = least_cost(after), share = after.curable / node.curable;
    cost += this->cost(std::move(after), depth + 1, limit - cost + least, effort * share) - least;
  }
  return cost;
}

double Search::cost_of_repair(const Node& node, int repair, int depth, double limit, double effort) const {
  const double own = minutes_of(problem_, node.opened, repair_choice(repair)) * node.curable;
  Node after = after_repair(node, repair);
  const double at_least = own + least_cost(after);
  return at_least >= limit ? at_least : own + cost(std::move(after), depth + 1, limit - own, effort);
}

double Search::cost(Node node, int depth, double limit, double effort) const {
  if (node.curable <= 0.0) return 0.0;
  const double lookups_here = lookups(node);
  const double affordable = effort / (lookups_per_followed * std::max(1.0, lookups_here));
  if (affordable < 1.0) return quick_cost(std::move(node));
  const double repairs = repairs_only(node);
  if (node.curable < negligible_weight || (share_reached(node) && repairs <= least_with_a_test(node))) {
    return repairs;
  }
  const std::vector<Telling> tests = telling_tests(node);
  const bool repairs_allowed = may_repair(node, tests);
  double best = repairs_allowed ? std::min(limit, repairs) : limit;
  const std::size_t width = std::min(by_depth(tests_followed, depth), static_cast<std::size_t>(affordable));
  const std::size_t repair_width = repairs_allowed ? by_depth(repairs_followed, depth) : 0;
  const double effort_each = (effort - lookups_here) / static_cast<double>(width + repair_width);
  for (const Telling& one : worth_following(node, tests, width)) {
    best = std::min(best, cost_of_test(node, one.test, depth, best, effort_each));
  }
  if (repair_width == 0) return best;
  const std::vector<int> in_order = repairs_by_rate(node);
  for (std::size_t i = 0; i < std::min(in_order.size(), repair_width); ++i) {
    best = std::min(best, cost_of_repair(node, in_order[i], depth, best, effort_each));
  }
  return best;
}

double Search::quick_cost(Node node) const {
  if (node.curable <= 0.0) return 0.0;
  if (node.curable < guessed_weight) return guess(node);
  node = without_improbable(node);
  const bool repairs_allowed = share_reached(node);
  if (repairs_allowed) {
    const double least = least_with_a_test(node), repairs = repairs_only(node, least);
    if (repairs < least) return repairs;
  }
  const Telling best = best_at_a_glance(node);
  if (best.test < 0) return repairs_only(node);
  double cost = best.minutes * node.curable;
  for (int outcome = 0; outcome < problem_.tests[at(best.test)].outcomes; ++outcome) {
    cost += quick_cost(after_outcome(node, best.test, outcome));
  }
  return repairs_allowed ? std::min(cost, repairs_only(node, cost)) : cost;
}

}  // namespace voltfall::decision
