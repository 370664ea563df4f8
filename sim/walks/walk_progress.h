#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "walks/walk.h"

namespace voltfall {

/// What a learner said to a question. Right only with the right reason: a lucky guess returns as well.
struct WalkReply {
  std::size_t choice = 0;
  std::optional<std::size_t> reason;  ///< none where the question asks for none
  bool right = false;

  bool operator==(const WalkReply&) const = default;
};

/// Of one walk.
struct WalkNotes {
  std::optional<WalkReply> predicted, unlike;
  std::string line;  ///< the learner's own explanation
  bool finished = false;

  bool operator==(const WalkNotes&) const = default;
};

/// Where a learner stands: at a question that returns from another walk, or on a page of this one.
struct WalkPlace {
  std::string walk;  ///< id; of the walk the question comes from when it returns
  bool returning = false;
  WalkPageKind page = WalkPageKind::predict;

  bool operator==(const WalkPlace&) const = default;
};

/// How far a learner has come with the walks. Knows no screen, no model and no disk: it is told whether a reply was
/// right. A prediction that was wrong returns in another form before the first page of each walk begun afterwards,
/// until it is right.
class WalkProgress {
 public:
  /// Begins a walk at its beginning, whatever was open before.
  /// @param walks  all that there are now: only those can return
  void begin(const BenchWalk& walk, std::span<const BenchWalk> walks);

  /// Empty when no walk is open.
  std::optional<WalkPlace> here() const;

  /// The reply to the question of this place, once; a second one, or one where nothing is asked, changes nothing.
  void reply(const WalkReply& said);
  /// The reply given at this place, if it asks for one and has it.
  std::optional<WalkReply> replied() const;

  /// The learner's line, on the explain page; cut to what a line may hold.
  void explain(std::string_view line);

  /// A question has to be answered and an explanation written before going on.
  bool may_go_on() const;
  /// To the next place; from the last page on the walk is finished and none is open.
  bool go_on();
  /// To the page before, within the walk: questions that returned are over. False at the first.
  bool go_back();
  void leave();

  /// Empty when nothing was noted in that walk.
  const WalkNotes* notes(std::string_view walk) const;
  /// Ids of the walks whose question will return, in the order they were missed.
  const std::vector<std::string>& missed() const { return missed_; }

  std::string to_json() const;

  bool operator==(const WalkProgress&) const = default;

 private:
  friend class WalkProgressReader;

  struct Open {
    std::string walk;
    std::vector<std::string> returning;  ///< walks whose question still has to be asked, the next one first
    std::optional<WalkReply> returned;   ///< the reply to the first of them
    WalkPageKind page = WalkPageKind::predict;

    bool operator==(const Open&) const = default;
  };
  void note_missed(const std::string& walk, bool right);

  std::map<std::string, WalkNotes, std::less<>> notes_;
  std::vector<std::string> missed_;
  std::optional<Open> open_;
};

struct ReadWalkProgress {
  WalkProgress progress;
  std::string message;  ///< why it is a fresh start; empty when it is not
};

/// Reads what `to_json` wrote. What is damaged is a fresh start; what belongs to a walk that is no longer there is left
/// out.
ReadWalkProgress walk_progress_in(std::string_view json, std::span<const BenchWalk> walks);

}  // namespace voltfall
