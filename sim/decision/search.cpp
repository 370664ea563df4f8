#include "decision/search.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "decision/repair_order.h"
#include "decision/suspects.h"

namespace voltfall::decision {
namespace {

constexpr double tells_nothing_bits = 1e-6;             // below this a test is dropped for good
constexpr double tells_from_bits = 0.05;                // a test below this is no reason to hold a repair back
constexpr double negligible_weight = 2e-4;              // of the whole: not worth more tests than a guess
constexpr double impossible_share = 1e-6;               // of its node: a hypothesis that is dropped
constexpr std::size_t tests_followed[] = {8, 3, 2, 1};  // by depth; the last for all below
constexpr std::size_t repairs_followed[] = {3, 1, 1, 0};
constexpr std::size_t compared_per_followed = 3;
constexpr double lookups_per_followed = 12.0;  // what following one test costs, in lookups of its node, about
constexpr double usual_tells_bits = 1e-3;
constexpr double improbable_share = 2e-3;
constexpr double usual_share = 1e-2;

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

template <std::size_t count>
std::size_t by_depth(const std::size_t (&widths)[count], int depth) {
  return widths[std::min(at(depth), count - 1)];
}

double total_of(const std::vector<double>& weights) {
  return std::accumulate(weights.begin(), weights.end(), 0.0);
}

double surprise(double weight) {
  return weight > 0.0 ? -weight * std::log2(weight) : 0.0;
}

}  // namespace

Search::Search(const Problem& problem)
    : problem_(problem), by_candidate_(problem.prior.size()), cheapest_cure_(problem.prior.size(), -1.0) {
  std::iota(by_candidate_.begin(), by_candidate_.end(), 0);
  std::stable_sort(by_candidate_.begin(), by_candidate_.end(),
                   [&](int a, int b) { return problem.candidate_of[at(a)] < problem.candidate_of[at(b)]; });
  for (const Repair& repair : problem.repairs) {
    for (int hypothesis = 0; hypothesis < problem.hypotheses(); ++hypothesis) {
      const int candidate = problem.candidate_of[at(hypothesis)];
      if (std::find(repair.cures.begin(), repair.cures.end(), candidate) == repair.cures.end()) continue;
      double& cheapest = cheapest_cure_[at(hypothesis)];
      if (cheapest < 0.0 || repair.cost_minutes < cheapest) cheapest = repair.cost_minutes;
    }
  }
  for (const Test& test : problem.tests) {
    std::vector<Usual>& usual = usual_.emplace_back();
    for (int hypothesis = 0; hypothesis < problem.hypotheses(); ++hypothesis) {
      const auto row = test.likelihood.begin() + static_cast<std::ptrdiff_t>(hypothesis) * test.outcomes;
      const auto likeliest = std::max_element(row, row + test.outcomes);
      usual.push_back({static_cast<int>(likeliest - row), static_cast<double>(*likeliest)});
    }
  }
  for (int hypothesis = 0; hypothesis < problem.hypotheses(); ++hypothesis) {
    std::vector<bool>& alike = alike_.emplace_back(problem.prior.size());
    for (const int other : group_of(problem, hypothesis)) alike[at(other)] = true;
  }
}

Node Search::node_of(const Situation& situation) const {
  Node all;
  all.opened = situation.opened;
  all.repairing =
      std::find(situation.repairs_done.begin(), situation.repairs_done.end(), true) != situation.repairs_done.end();
  for (int test = 0; test < static_cast<int>(problem_.tests.size()); ++test) {
    if (!situation.tests_done[at(test)]) all.tests.push_back(test);
  }
  all.hypotheses = by_candidate_;
  std::vector<double> weights;
  for (const int hypothesis : by_candidate_) weights.push_back(situation.belief[at(hypothesis)]);
  Node node = with_weights_in(all, weights);
  for (int repair = 0; repair < static_cast<int>(problem_.repairs.size()); ++repair) {
    // Whatever the belief, nobody gains by a repair that has failed.
    if (situation.repairs_done[at(repair)]) node = after_repair(node, repair);
  }
  return node;
}

Node Search::with_weights_in(const Node& parent, const std::vector<double>& weights) const {
  Node node;
  node.opened = parent.opened;
  node.tests = parent.tests;
  node.repairing = parent.repairing;
  const double total = total_of(weights);
  int unknown_at = -1;
  for (std::size_t i = 0; i < weights.size(); ++i) {
    const int hypothesis = parent.hypotheses[i];
    if (hypothesis == problem_.unknown) {
      unknown_at = static_cast<int>(node.weights.size());
    } else if (weights[i] <= total * impossible_share) {
      continue;
    }
    node.hypotheses.push_back(hypothesis);
    node.weights.push_back(weights[i]);
    if (cheapest_cure_[at(hypothesis)] >= 0.0) node.curable += weights[i];
  }
  if (unknown_at >= 0) {
    double& unknown = node.weights[at(unknown_at)];
    const double floor = problem_.unknown_floor;
    unknown = std::max(unknown, floor / (1.0 - floor) * (total - unknown));
  }
  return node;
}

Node Search::after_outcome(const Node& node, int test, int outcome) const {
  const Test& row = problem_.tests[at(test)];
  std::vector<double> weights(node.weights);
  for (std::size_t i = 0; i < weights.size(); ++i) weights[i] *= row.chance(node.hypotheses[i], outcome);
  Node after = with_weights_in(node, weights);
  after.opened |= row.access;
  after.tests.erase(std::remove(after.tests.begin(), after.tests.end(), test), after.tests.end());
  return after;
}

Node Search::after_usual_outcome(const Node& node, int test, int outcome) const {
  const std::vector<Usual>& usual = usual_[at(test)];
  std::vector<double> weights(node.weights);
  for (std::size_t i = 0; i < weights.size(); ++i) {
    if (usual[at(node.hypotheses[i])].outcome != outcome) weights[i] = 0.0;
  }
  Node after = with_weights_in(node, weights);
  after.opened |= problem_.tests[at(test)].access;
  after.tests.erase(std::remove(after.tests.begin(), after.tests.end(), test), after.tests.end());
  return after;
}

Node Search::after_repair(const Node& node, int repair) const {
  const Repair& row = problem_.repairs[at(repair)];
  std::vector<double> weights(node.weights);
  for (std::size_t i = 0; i < weights.size(); ++i) {
    const int candidate = problem_.candidate_of[at(node.hypotheses[i])];
    if (std::find(row.cures.begin(), row.cures.end(), candidate) != row.cures.end()) weights[i] = 0.0;
  }
  Node after = with_weights_in(node, weights);
  after.opened |= row.access;
  after.repairing = true;
  return after;
}

std::vector<double> Search::candidate_weights(const Node& node) const {
  std::vector<double> weights(at(problem_.candidates()), 0.0);
  for (std::size_t i = 0; i < node.weights.size(); ++i) {
    weights[at(problem_.candidate_of[at(node.hypotheses[i])])] += node.weights[i];
  }
  return weights;
}

double Search::bits(const Node& node, int test) const {
  // H(candidate) + H(outcome) - H(candidate and outcome), all as weight times bits.
  const Test& row = problem_.tests[at(test)];
  std::vector<double> of_candidate(at(row.outcomes), 0.0), of_all(at(row.outcomes), 0.0);
  double candidates = 0.0, pairs = 0.0;
  for (std::size_t i = 0; i < node.weights.size(); ++i) {
    const int candidate = problem_.candidate_of[at(node.hypotheses[i])];
    for (std::size_t o = 0; o < of_all.size(); ++o) {
      of_candidate[o] += node.weights[i] * row.chance(node.hypotheses[i], static_cast<int>(o));
    }
    if (i + 1 < node.weights.size() && problem_.candidate_of[at(node.hypotheses[i + 1])] == candidate) continue;
    candidates += surprise(total_of(of_candidate));
    for (std::size_t o = 0; o < of_all.size(); ++o) {
      pairs += surprise(of_candidate[o]);
      of_all[o] += of_candidate[o];
      of_candidate[o] = 0.0;
    }
  }
  double outcomes = 0.0;
  for (const double weight : of_all) outcomes += surprise(weight);
  return candidates + outcomes - pairs - surprise(total_of(of_all));
}

std::vector<Telling> Search::telling_tests(Node& node) const {
  std::vector<Telling> telling;
  const double floor = tells_nothing_bits * total_of(node.weights);
  for (const int test : node.tests) {
    const double told = bits(node, test);
    if (told > floor) telling.push_back({test, minutes_of(problem_, node.opened, test_choice(test)), told});
  }
  node.tests.clear();
  for (const Telling& one : telling) node.tests.push_back(one.test);
  std::stable_sort(telling.begin(), telling.end(),
                   [](const Telling& a, const Telling& b) { return a.bits * b.minutes > b.bits * a.minutes; });
  return telling;
}

double Search::repairs_only(const Node& node) const {
  return repair_order_of(problem_, candidate_weights(node), node.opened).expected_minutes;
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

bool Search::no_test_pays(const Node& node, double repairs) const {
  double cheapest = std::numeric_limits<double>::infinity();
  for (const int test : node.tests) {
    cheapest = std::min(cheapest, minutes_of(problem_, node.opened, test_choice(test)));
  }
  return repairs <= cheapest * node.curable + least_cost(node);
}

double Search::least_cost(const Node& node) const {
  double least = 0.0;
  for (std::size_t i = 0; i < node.weights.size(); ++i) {
    least += node.weights[i] * std::max(0.0, cheapest_cure_[at(node.hypotheses[i])]);
  }
  return least;
}

double Search::lookups(const Node& node) const {
  int outcomes = 0;
  for (const int test : node.tests) outcomes += problem_.tests[at(test)].outcomes;
  return static_cast<double>(outcomes) * static_cast<double>(node.hypotheses.size());
}

// As if the fault were found at that many bits per minute; or by repairs alone where that is cheaper.
double Search::guess(const Node& node, double pace) const {
  const std::vector<double> candidates = candidate_weights(node);
  double left_bits = -surprise(total_of(candidates));
  for (const double weight : candidates) left_bits += surprise(weight);
  const double repairs = repair_order_of(problem_, candidates, node.opened).expected_minutes;
  return std::min(repairs, left_bits / pace + least_cost(node));
}

std::vector<Telling> Search::worth_following(const Node& node, const std::vector<Telling>& tests,
                                             std::size_t width) const {
  if (tests.size() <= width) return tests;
  const double pace = tests.front().bits / tests.front().minutes / total_of(node.weights);
  struct Guessed {
    Telling telling;
    double cost;
  };
  std::vector<Guessed> guessed;
  for (std::size_t i = 0; i < std::min(tests.size(), compared_per_followed * width); ++i) {
    double cost = tests[i].minutes * node.curable;
    for (int outcome = 0; outcome < problem_.tests[at(tests[i].test)].outcomes; ++outcome) {
      cost += guess(after_outcome(node, tests[i].test, outcome), pace);
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
  return own >= limit ? own : own + cost(after_repair(node, repair), depth + 1, limit - own, effort);
}

double Search::cost(Node node, int depth, double limit, double effort) const {
  if (node.curable <= 0.0) return 0.0;
  const double lookups_here = lookups(node);
  const double affordable = effort / (lookups_per_followed * std::max(1.0, lookups_here));
  if (affordable < 1.0) return cost_by_usual_outcomes(without_improbable(node));
  const double repairs = repairs_only(node);
  if (node.curable < negligible_weight || (share_reached(node) && no_test_pays(node, repairs))) return repairs;
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

double Search::bits_by_usual(const Node& node, int test, Tally& tally) const {
  const std::vector<Usual>& usual = usual_[at(test)];
  tally.of_all.assign(at(problem_.tests[at(test)].outcomes), 0.0);
  tally.of_candidate = tally.of_all;
  double within_candidates = 0.0, sure = 0.0;
  for (std::size_t i = 0; i < node.weights.size();) {
    const int candidate = problem_.candidate_of[at(node.hypotheses[i])];
    const int first_outcome = usual[at(node.hypotheses[i])].outcome;
    bool one_outcome = true;
    double weight = 0.0;
    for (; i < node.weights.size() && problem_.candidate_of[at(node.hypotheses[i])] == candidate; ++i) {
      const Usual& one = usual[at(node.hypotheses[i])];
      tally.of_candidate[at(one.outcome)] += node.weights[i];
      weight += node.weights[i];
      sure += node.weights[i] * one.chance;
      one_outcome = one_outcome && one.outcome == first_outcome;
    }
    if (one_outcome) {
      tally.of_all[at(first_outcome)] += weight;
      tally.of_candidate[at(first_outcome)] = 0.0;
      continue;
    }
    within_candidates -= surprise(weight);
    for (std::size_t o = 0; o < tally.of_all.size(); ++o) {
      within_candidates += surprise(tally.of_candidate[o]);
      tally.of_all[o] += tally.of_candidate[o];
      tally.of_candidate[o] = 0.0;
    }
  }
  const double total = total_of(tally.of_all);
  double outcomes = -surprise(total);
  for (const double weight : tally.of_all) outcomes += surprise(weight);
  return (outcomes - within_candidates) * (sure / total) * (sure / total);
}

Node Search::without_improbable(const Node& node) const {
  const double total = total_of(node.weights);
  std::vector<double> weights(node.weights);
  double kept = 0.0;
  for (double& weight : weights) {
    if (weight < improbable_share * total) weight = 0.0;
    kept += weight;
  }
  if (kept <= 0.0) return node;
  for (double& weight : weights) weight *= total / kept;
  return with_weights_in(node, weights);
}

Telling Search::best_by_usual(Node& node) const {
  const double floor = usual_tells_bits * total_of(node.weights);
  Telling best{-1, 1.0, 0.0};
  Tally tally;
  std::vector<int> of_use;
  for (const int test : node.tests) {
    const double told = bits_by_usual(node, test, tally);
    if (told < floor) continue;
    of_use.push_back(test);
    const double minutes = minutes_of(problem_, node.opened, test_choice(test));
    if (told * best.minutes > best.bits * minutes) best = {test, minutes, told};
  }
  node.tests = std::move(of_use);
  return best;
}

double Search::cost_by_usual_outcomes(Node node) const {
  if (node.curable <= 0.0) return 0.0;
  const double repairs = repairs_only(node);
  if (share_reached(node) && no_test_pays(node, repairs)) return repairs;
  const Telling best = best_by_usual(node);
  if (best.test < 0) return repairs;
  if (node.curable < usual_share) return guess(node, best.bits / best.minutes / total_of(node.weights));
  double cost = best.minutes * node.curable;
  for (int outcome = 0; outcome < problem_.tests[at(best.test)].outcomes; ++outcome) {
    cost += cost_by_usual_outcomes(after_usual_outcome(node, best.test, outcome));
  }
  return share_reached(node) ? std::min(cost, repairs) : cost;
}

}  // namespace voltfall::decision
