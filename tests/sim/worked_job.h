#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "console/table_place.h"
#include "scenario/read_scenario.h"
#include "session/session.h"

namespace voltfall::test {

inline Scenario shipped(const std::string& id) {
  const auto path = std::filesystem::path(VOLTFALL_SOURCE_DIR) / "scenarios" / (id + ".toml");
  ReadScenario read = read_scenario(path);
  if (!read.scenario) throw std::runtime_error(read.problems.front().text());
  return std::move(*read.scenario);
}

/// The same job with everything there is in its kit.
inline Scenario with_whole_kit(Scenario scenario) {
  scenario.kit.assign(all_kit().begin(), all_kit().end());
  return scenario;
}

/// A learner's hands: each method is what a person does, with the waiting a person does.
class Learner {
 public:
  explicit Learner(const std::string& scenario_id) : session(shipped(scenario_id), table_store().source()) {}
  explicit Learner(Scenario scenario) : session(std::move(scenario)) {}

  Outcome act(const Action& action) {
    Outcome outcome = session.act(action);
    if (!session.under_load()) session.run_for_s(10.0);
    return outcome;
  }
  void make_safe() {
    act(WearEyeProtection{true});
    act(SetBrake{true});
    act(DisableIgnition{true});
  }
  void probe(TestPoint red, TestPoint black) {
    act(PutProbe{true, red});
    act(PutProbe{false, black});
  }
  /// @return number of the finding
  int note(Kit from = Kit::multimeter) {
    if (const Outcome outcome = act(NoteReading{from}); !outcome.done) throw std::runtime_error(outcome.id);
    return session.findings().back().number;
  }
  int crank_and_note(double hold_s = 1.5) {
    session.act(TurnKey{KeyPosition::start});
    session.run_for_s(hold_s);
    const int number = note();
    act(TurnKey{KeyPosition::off});
    return number;
  }
  void crank(double hold_s = 1.5) {
    session.act(TurnKey{KeyPosition::start});
    session.run_for_s(hold_s);
    act(TurnKey{KeyPosition::off});
  }
  int note_heard(const std::string& id) {
    if (const Outcome outcome = act(NoteObservation{id}); !outcome.done) throw std::runtime_error(outcome.id);
    return session.findings().back().number;
  }
  bool marked(std::string_view id) const {
    for (const SafetyMark& mark : session.log().marks()) {
      if (mark.id == id) return true;
    }
    return false;
  }
  const Finding& last() const { return session.findings().back(); }
  void name(const std::string& fault, std::vector<int> evidence) { act(NameFault{{fault}, std::move(evidence)}); }
  void repair_with_negative_off(const std::string& repair) {
    act(ConnectNegative{false});
    act(DoRepair{repair});
    act(ConnectNegative{true});
  }
  Score close() {
    if (const Outcome outcome = act(CloseJob{}); !outcome.done) throw std::runtime_error(outcome.id);
    return *session.score();
  }

  Session session;
};

inline const Gate& gate(const Score& score, const std::string& id) {
  for (const Gate& one : score.gates) {
    if (one.id == id) return one;
  }
  throw std::runtime_error("no gate " + id);
}

inline const ScoreLine& line(const Score& score, const std::string& part) {
  for (const ScoreLine& one : score.lines) {
    if (one.part == part) return one;
  }
  throw std::runtime_error("no line " + part);
}

/// The corroded clamp worked up to its name: battery under load, the sound, a hand on the clamp, the drop across it.
inline std::vector<int> find_corroded_clamp(Learner& learner) {
  learner.probe(TestPoint::battery_positive_post, TestPoint::negative_post);
  std::vector<int> evidence{learner.crank_and_note(), learner.note_heard("chatter")};
  learner.act(DisturbPart{Touch::wiggle, "positive_clamp"});
  evidence.push_back(learner.session.findings().back().number);
  learner.probe(TestPoint::battery_positive_post, TestPoint::positive_clamp);
  evidence.push_back(learner.crank_and_note());
  return evidence;
}

/// And as it should be to its end: a pass with nearly all the points.
inline Score solve_corroded_clamp(Learner& learner) {
  learner.make_safe();
  learner.name("positive_clamp_corroded", find_corroded_clamp(learner));
  learner.repair_with_negative_off("clean_positive_clamp");
  learner.crank_and_note(3.0);
  return learner.close();
}

}  // namespace voltfall::test
