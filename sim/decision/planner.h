#pragma once

#include <mutex>
#include <unordered_map>
#include <vector>

#include "decision/search.h"

namespace voltfall::decision {

struct ValuedChoice {
  Choice choice;
  double minutes_to_finish = 0.0;  ///< expected: this choice first, and the planner's own after it
};

/// Looks ahead for the next test or repair with the least expected minutes until the fault is cured. Costs are
/// expectations over the hypotheses that some repair cures: for the rest, the unknown above all, there is nothing to do
/// that could be counted.
///
/// The tests that tell most per minute are compared by what they leave to be paid; the best few are followed to the
/// cure, with fewer alternatives the deeper it goes. The true optimum is NP-hard. Same problem, same answer, to the
/// bit. What has been looked at is remembered: everybody begins a job in the same place. Safe to use from threads.
class Planner {
 public:
  static constexpr double usual_effort = 4e5;

  /// @param problem  has to be sound (complaints_about) and to outlive the planner.
  /// @param effort   likelihoods looked up for each choice compared, about: time against care.
  explicit Planner(const Problem& problem, double effort = usual_effort);

  /// What is worth a look, best first; empty when nothing curable is left. Ties fall to tests before repairs. The
  /// minutes of a repair that can't be best are a lower bound.
  std::vector<ValuedChoice> worth_a_look(const Situation& situation) const;

  /// The first of worth_a_look; kind none when there is nothing to do.
  ValuedChoice best_next(const Situation& situation) const;

  /// Expected minutes to the cure when this is done next, good or bad. Kind none: repairs only, no more tests.
  double minutes_by(const Situation& situation, Choice choice) const;

  /// What the choice costs over the best one, in expected minutes; 0 or more.
  double regret_minutes(const Situation& situation, Choice choice) const;

  /// Whether repair_from_share lets a repair come next.
  bool may_repair(const Situation& situation) const;

 private:
  std::vector<ValuedChoice> looked_at(const Situation& situation) const;

  struct Remembered {
    Situation situation;
    std::vector<ValuedChoice> choices;
  };

  Search search_;
  double effort_;
  mutable std::mutex memory_lock_;
  mutable std::unordered_multimap<std::size_t, Remembered> memory_;  // by hash_of the situation
};

}  // namespace voltfall::decision
