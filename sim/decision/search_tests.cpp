#include <algorithm>

#include "decision/search.h"
#include "decision/sums.h"

namespace voltfall::decision {
namespace {

constexpr double tells_nothing_bits = 1e-6;          // below this a test is dropped for good
constexpr double quickly_tells_nothing_bits = 1e-3;  // the same where the judgement has to be quick
// A test that tells so much less a minute than the best one is not looked into: what is judged quickly at the far end
// of a look-ahead is off by more than such a test could save.
constexpr double worth_asking_share = 0.15;
constexpr std::size_t compared_in_full = 4;  // of the tests that look best at a glance

// The first tests of a search halve whole circuits, the last ones tell twins apart: that goes slower. The figure is
// the one with which played jobs of 250 hypotheses cost least, and about what was foretold.
constexpr double slower_to_the_end = 0.4;

bool tells_faster(const Telling& a, const Telling& b) {
  const double a_rate = a.bits * b.minutes, b_rate = b.bits * a.minutes;
  return a_rate > b_rate || (a_rate == b_rate && a.test < b.test);
}

}  // namespace

double Search::bits(const Node& node, int test) const {
  // H(candidate) + H(outcome) - H(candidate and outcome), all as weight times bits.
  const Test& row = problem_.tests[at(test)];
  std::vector<double> of_candidate(at(row.outcomes), 0.0), of_all(at(row.outcomes), 0.0);
  double candidates = 0.0, pairs = 0.0;
  for (std::size_t i = 0; i < node.weights.size(); ++i) {
    const int candidate = problem_.candidate_of[at(node.hypotheses[i])];
    const double weight = told_weight(node, i);
    for (std::size_t o = 0; o < of_all.size(); ++o) {
      of_candidate[o] += weight * row.chance(node.hypotheses[i], static_cast<int>(o));
    }
    if (i + 1 < node.weights.size() && problem_.candidate_of[at(node.hypotheses[i + 1])] == candidate) continue;
    candidates += surprise_bits(total_of(of_candidate));
    for (std::size_t o = 0; o < of_all.size(); ++o) {
      pairs += surprise_bits(of_candidate[o]);
      of_all[o] += of_candidate[o];
      of_candidate[o] = 0.0;
    }
  }
  double outcomes = 0.0;
  for (const double weight : of_all) outcomes += surprise_bits(weight);
  return candidates + outcomes - pairs - surprise_bits(total_of(of_all));
}

void Search::set_pace(Node& node, const Telling& best) const {
  node.pace = slower_to_the_end * best.bits / best.minutes / total_of(node.weights);
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
  std::sort(telling.begin(), telling.end(), tells_faster);
  if (telling.empty()) return telling;
  set_pace(node, telling.front());
  const double least_rate = worth_asking_share * telling.front().bits / telling.front().minutes;
  std::erase_if(telling, [&](const Telling& one) { return one.bits < least_rate * one.minutes; });
  return telling;
}

double Search::lookups(const Node& node) const {
  int outcomes = 0;
  for (const int test : node.tests) outcomes += problem_.tests[at(test)].outcomes;
  return static_cast<double>(outcomes) * static_cast<double>(node.hypotheses.size());
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
      const double told = told_weight(node, i);
      tally.of_candidate[at(one.outcome)] += told;
      weight += told;
      sure += told * static_cast<double>(one.chance);
      one_outcome = one_outcome && one.outcome == first_outcome;
    }
    if (one_outcome) {
      tally.of_all[at(first_outcome)] += weight;
      tally.of_candidate[at(first_outcome)] = 0.0;
      continue;
    }
    within_candidates -= surprise_bits(weight);
    for (std::size_t o = 0; o < tally.of_all.size(); ++o) {
      within_candidates += surprise_bits(tally.of_candidate[o]);
      tally.of_all[o] += tally.of_candidate[o];
      tally.of_candidate[o] = 0.0;
    }
  }
  const double total = total_of(tally.of_all);
  double outcomes = -surprise_bits(total);
  for (const double weight : tally.of_all) outcomes += surprise_bits(weight);
  return (outcomes - within_candidates) * (sure / total) * (sure / total);
}

Telling Search::best_at_a_glance(Node& node) const {
  const double floor = quickly_tells_nothing_bits * total_of(node.weights);
  std::vector<Telling> ranked;
  Tally tally;
  for (const int test : node.tests) {
    const double told = bits_by_usual(node, test, tally);
    if (told >= floor) ranked.push_back({test, minutes_of(problem_, node.opened, test_choice(test)), told});
  }
  node.tests.clear();
  for (const Telling& one : ranked) node.tests.push_back(one.test);
  const std::size_t compared = std::min(ranked.size(), compared_in_full);
  std::partial_sort(ranked.begin(), ranked.begin() + static_cast<std::ptrdiff_t>(compared), ranked.end(), tells_faster);
  ranked.resize(compared);
  for (Telling& one : ranked) one.bits = bits(node, one.test);
  if (ranked.empty()) return {-1, 1.0, 0.0};
  const Telling best = *std::min_element(ranked.begin(), ranked.end(), tells_faster);
  set_pace(node, best);
  return best;
}

}  // namespace voltfall::decision
