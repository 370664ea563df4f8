#pragma once

#include <iosfwd>
#include <span>
#include <string_view>

#include "session/session.h"

namespace voltfall {

/// A job worked with typed lines: one command a line in, one fact a line out. Every command becomes the same actions
/// that the screen sends, so record and score are the same.
class TextBay {
 public:
  TextBay(Session& session, std::ostream& out) : session_(session), out_(out) {}

  /// What a newcomer reads first: the work order with its cautions, and how to get help.
  void greet() const;

  /// Carries out one line; false when it asks to leave. A line that means nothing changes nothing and is answered with
  /// the nearest valid word.
  bool obey(std::string_view line);

  Session& session() { return session_; }
  std::ostream& out() { return out_; }

  /// Sends the action and says what came of it; with nothing held on, lets the vehicle come to rest.
  /// @return whether it was done
  bool act(const Action& action);

  /// Feeds the starter for so long, reports, notes what these instruments show, and lets go.
  void crank(const Action& start, const Action& stop, double hold_s, std::span<const Kit> noted);

  /// Lets time go by and says what came of it for safety.
  void run(double seconds);

 private:
  Session& session_;
  std::ostream& out_;
};

/// Reads commands until the input ends or the learner leaves.
void work_in_text(Session& session, std::istream& in, std::ostream& out);

}  // namespace voltfall
