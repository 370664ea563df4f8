#pragma once

#include <optional>
#include <string>

#include "diagnosis/question.h"
#include "session/session.h"

namespace voltfall::test {

/// Carries out on a session what a question asks for, as a person's hands would: switches, leads, key, devices, the
/// note, and everything put back. Makes no choice of its own.
class HandyPerson {
 public:
  explicit HandyPerson(Session& session) : session_(session) {}

  void make_safe();
  /// @return number of the finding; empty when the session refused
  std::optional<int> answer(const Question& question);
  /// Starter back on, plugs and belt on, nothing hung, negative on: as a vehicle is handed back or cranked.
  void put_together();
  void repair(const std::string& repair_id);
  /// Cranks and says what it sounds like. @return number of the finding
  std::optional<int> listen(Condition condition);

 private:
  Outcome act(const Action& action);
  void let_time_pass();
  void switch_as(Condition condition);
  void feed_starter(Condition condition);
  void stop_starter(Condition condition);
  std::optional<int> note(Kit from);
  std::optional<int> note_word(const Question& question);
  std::optional<int> read_at_points(const Question& question);
  std::optional<int> last_finding_of(const Outcome& outcome) const;
  std::optional<int> load_test();

  Session& session_;
};

}  // namespace voltfall::test
