#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <random>
#include <vector>

#include "diagnosis/diagnosis.h"
#include "session/session.h"
#include "support/handy_person.h"

namespace voltfall::test {

/// Called with the session before anything is done in it: to write its record.
using BeforeWork = std::function<void(Session&)>;

/// Somebody who works a whole job by a rule, seeing no more than a trainee sees: what was noted, held against the
/// limits. The rule chooses; the hands are a HandyPerson's.
class RuledLearner {
 public:
  explicit RuledLearner(const std::filesystem::path& scenario, bool safely = true, const BeforeWork& before = {});

  Session& session() { return session_; }
  const Session& session() const { return session_; }
  HandyPerson& hands() { return hands_; }
  const Diagnosis& diagnosis() const { return diagnosis_; }
  const decision::Situation& situation() const { return situation_; }

  /// Does the test, notes it and learns from it.
  void ask(int test);
  /// The candidate with the largest share; never the unknown.
  int leading() const;
  /// Share of the leading candidate with what can't be told from it.
  double leading_share() const;
  bool is_done(int test) const { return situation_.tests_done[static_cast<std::size_t>(test)]; }

  /// The cheapest test not yet taken that should be a failing of the leading candidate itself; -1 when one has been
  /// seen, or when there is none.
  int proof_to_take() const;

  bool would_tell(int test) const;
  /// Once a suspect is likelier than not: a look at it and a hand on it.
  void look_at_leading();

  /// Names the leading candidate with the findings that show it and those that tell most.
  void name_leading();
  /// The repairs that mend the leading candidate, the failing readings again, and a crank.
  /// @param wander  looks that ask nothing, after the first repair
  void repair_and_prove(int wander = 0);
  /// Of a sealed job, whose score is its instructor's: an empty one.
  Score hand_back();

 private:
  std::vector<int> evidence_for(int candidate) const;
  using Failing = std::function<bool(const Question&, int answer)>;
  /// What a naming of the candidate has to be shown by: a failing of each of its things; of nothing, a sound battery.
  std::vector<Failing> failings_asked_of(int candidate) const;
  int sound_to_hear() const;
  int cheapest_to_show(int candidate, const Failing& failing) const;
  bool shows(int candidate, std::size_t answer) const;

  Scenario scenario_;
  Diagnosis diagnosis_;
  Session session_;
  HandyPerson hands_{session_};
  decision::Situation situation_;
  std::vector<decision::Seen> seen_;
  std::vector<int> findings_;  ///< finding number for each answer in `seen_`
  std::map<int, int> tries_;   ///< by test, while the fault was away
};

/// Takes the best next test until its naming holds, then the cheapest cure.
Score planner_learner(const std::filesystem::path& scenario, const BeforeWork& before = {});
/// The same with nothing made safe.
Score unsafe_planner_learner(const std::filesystem::path& scenario);
/// The planner's, who loses the way for some looks between the first repair and the second.
Score wandering_learner(const std::filesystem::path& scenario, int wander);
/// The trade's fixed order, whatever comes out, until the same bar is met.
Score textbook_learner(const std::filesystem::path& scenario);
/// Any test at all, until the same bar is met.
Score random_learner(const std::filesystem::path& scenario, unsigned seed, const BeforeWork& before = {});

/// Every job that a learner is scored on, by path.
const std::vector<std::filesystem::path>& scored_scenarios();

}  // namespace voltfall::test
