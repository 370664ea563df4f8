#pragma once

#include <functional>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "decision/par_plan.h"
#include "decision/suspects.h"
#include "diagnosis/test_list.h"

namespace voltfall {

/// A scenario's vehicle as a problem of decision: what may be wrong, what may be asked and what that would tell, what
/// may be repaired. Fixed once made; the planner in it looks ahead on demand.
class Diagnosis {
 public:
  /// @param asked_besides  questions of a learner that no list foresaw
  Diagnosis(const Scenario& scenario, std::shared_ptr<const SignatureTable> table,
            std::span<const Question> asked_besides = {});

  const Hypotheses& hypotheses() const { return table_->hypotheses; }
  const decision::Problem& problem() const { return *problem_; }
  const decision::Planner& planner() const { return *planner_; }
  const std::vector<Question>& questions() const { return questions_; }  ///< one for each test of the problem
  /// What a repair of the problem stands for: one of the catalogue's, two for a pair, none for "hand it back as sound".
  const std::vector<std::vector<std::string>>& repairs() const { return repairs_; }

  /// Index among the problem's tests; -1 when it is none of them.
  int test_of(const Question& question) const;
  int repair_of(std::string_view repair_id) const;
  /// Index of the candidate a naming stands for, in any order; -1 when the catalogue has it not or it was not foreseen.
  int candidate_of(std::span<const std::string> fault_ids) const;

  /// What findings tell, one answer for each question: the latest.
  std::vector<decision::Seen> seen_in(std::span<const Finding> findings, const Scenario& scenario) const;
  /// Adds an answer and drops what it takes the place of.
  void add_to(std::vector<decision::Seen>& seen, decision::Seen one) const;
  decision::Belief belief_after(std::span<const decision::Seen> seen) const;

  /// Share of everything that counts as this candidate: its severities, and what this kit can't tell from it.
  double share_of_group(int candidate, const decision::Belief& belief) const;
  /// The candidates this kit can't tell from it, itself among them.
  std::vector<int> group_of(int candidate, const decision::Belief& belief) const;

  /// The likeliest answer to this test, were the candidate true, would be a failing of the thing itself.
  bool should_show(int candidate, int test, const decision::Belief& belief) const;

  /// The hypotheses under which a crank, lamps on or off, sounds as a healthy one does: what is left when nothing that
  /// would bring the complaint is found.
  std::vector<int> cranking_soundly() const;

  /// What is left of each hypothesis when this repair has been done: itself where it mends nothing of it, -1 where it
  /// mends all of it. Of several severities the nearest.
  std::vector<int> left_after(std::string_view repair_id) const;

  /// The hypothesis that is true: the scenario's own severity.
  int truth() const { return truth_; }
  /// The cheapest sound order of tests and repairs for what the scenario hides. Worked out anew at every call.
  decision::Plan par() const;

 private:
  void add_hypotheses(const Scenario& scenario);
  void add_test(const Question& question, const Scenario& scenario, bool only_if_telling);
  void add_repairs(const Scenario& scenario);
  void show_in(decision::Plan& plan, const std::function<bool(const Question&, int)>& shows) const;
  int nearest_to(const std::vector<HiddenFault>& faults) const;
  void add_repair(const Scenario& scenario, std::vector<std::string> ids, std::vector<int> cures);

  std::shared_ptr<const SignatureTable> table_;
  std::vector<RigParameters> vehicles_;           ///< by hypothesis of the problem, the unknown left out
  std::vector<std::vector<HiddenFault>> faults_;  ///< the same
  std::vector<const Signature*> signatures_;
  std::vector<Question> questions_;
  std::vector<std::vector<std::string>> repairs_;
  std::unique_ptr<decision::Problem> problem_;
  std::unique_ptr<decision::Planner> planner_;
  int truth_ = 0;
};

/// Questions that findings answer and the usual list has not.
std::vector<Question> questions_besides(std::span<const Finding> findings, const Scenario& scenario);

/// Each finding as an answer, in order; empty where it tells nothing that could be judged.
std::vector<std::optional<Answered>> answers_of(std::span<const Finding> findings, const Scenario& scenario);

}  // namespace voltfall
