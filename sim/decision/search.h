#pragma once

#include <limits>
#include <vector>

#include "decision/situation.h"

namespace voltfall::decision {

/// Where a look-ahead stands. Weights are joint with the outcomes that led here, so that costs of branches simply add.
struct Node {
  std::vector<int> hypotheses;  ///< those still with weight, candidate by candidate
  std::vector<double> weights;
  double curable = 0.0;  ///< weight of what some repair cures: only that pays
  double caution = 0.0;  ///< the part of the unknown's weight that no test can rule out
  AccessSet opened = 0;
  std::vector<int> tests;  ///< not done, and perhaps of use
  bool repairing = false;  ///< a repair has been tried
  double pace = 1.0;       ///< bits per minute that the tests from here on are guessed to tell
};

/// A test with what it can be expected to tell about the candidate.
struct Telling {
  int test;
  double minutes;  ///< with the access still to be opened
  double bits;     ///< weight times bits
};

/// Looks ahead over tests and repairs; costs are weight times minutes. The planner's engine.
class Search {
 public:
  explicit Search(const Problem& problem);

  Node node_of(const Situation& situation) const;

  /// Tests that still tell something, the most information per minute first; puts them into the node as well.
  std::vector<Telling> telling_tests(Node& node) const;

  /// Repairs one after the other, no more tests. Stops with any value of at least `limit` once it can't stay below.
  double repairs_only(const Node& node, double limit = std::numeric_limits<double>::infinity()) const;
  std::vector<int> repairs_by_rate(const Node& node) const;

  /// Whether repair_from_share lets a repair come next.
  bool may_repair(const Node& node, const std::vector<Telling>& tests) const;

  /// The tests worth following from a node, at most `width`.
  std::vector<Telling> worth_following(const Node& node, const std::vector<Telling>& tests, std::size_t width) const;

  /// Cost of doing this and then what is best. Stops with any value of at least `limit` once it can't stay below.
  /// @param depth   how many choices were made before, from where the look-ahead began.
  /// @param effort  how many likelihoods may be looked up, about; with little left, the rest is judged quickly:
  ///                one test followed from each place, guesses for what has little weight.
  double cost_of_test(const Node& node, int test, int depth, double limit, double effort) const;
  double cost_of_repair(const Node& node, int repair, int depth, double limit, double effort) const;

 private:
  // Weight by outcome; handed down so that it is not made anew for every test.
  struct Tally {
    std::vector<double> of_candidate, of_all;
  };

  struct Usual {
    int outcome;
    float chance;
  };

  // search_nodes.cpp: what is left after something was done
  Node with_weights_in(const Node& parent, const std::vector<double>& weights) const;
  Node after_outcome(const Node& node, int test, int outcome) const;
  Node after_repair(const Node& node, int repair) const;
  Node without_improbable(const Node& node) const;
  std::vector<double> candidate_weights(const Node& node) const;

  // search_tests.cpp: what tests tell, all as weight times bits
  double told_weight(const Node& node, std::size_t i) const {
    return node.weights[i] - (node.hypotheses[i] == problem_.unknown ? node.caution : 0.0);
  }
  double bits(const Node& node, int test) const;
  double bits_by_usual(const Node& node, int test, Tally& tally) const;
  Telling best_at_a_glance(Node& node) const;
  void set_pace(Node& node, const Telling& best) const;
  double lookups(const Node& node) const;

  // search.cpp: what is still to be paid, as weight times minutes
  double cost(Node node, int depth, double limit, double effort) const;
  double quick_cost(Node node) const;
  double guess(const Node& node) const;
  double least_cost(const Node& node) const;
  bool share_reached(const Node& node) const;
  double least_with_a_test(const Node& node) const;

  const Problem& problem_;
  int candidates_;
  std::vector<int> by_candidate_;          // all hypotheses, candidate by candidate
  std::vector<double> cheapest_cure_;      // minutes by hypothesis; below 0: no repair cures it
  std::vector<std::vector<bool>> alike_;   // [hypothesis][other] counts as the same in a naming
  std::vector<std::vector<Usual>> usual_;  // [test][hypothesis] its likeliest outcome
};

}  // namespace voltfall::decision
