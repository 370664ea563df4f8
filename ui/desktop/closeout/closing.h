#pragma once

#include <future>
#include <memory>
#include <string>

#include "debrief/debrief_contents.h"
#include "desktop/style/hands.h"
#include "desktop/style/rect.h"
#include "desktop/table_at_work.h"

namespace voltfall {

/// The hand-back, done beside the screen: scoring waits for the table of signatures and asks the planner about every
/// step. Until it is ready the session belongs to it and nobody else may touch it.
class Closing {
 public:
  Closing(Session& session, const Wording& words);

  bool ready() const;

  struct Result {
    Outcome outcome;                                  ///< of CloseJob; refused: the job goes on
    std::shared_ptr<const DebriefContents> contents;  ///< null when refused or stopped
  };
  Result result() { return result_.get(); }

 private:
  std::future<Result> result_;
};

/// How far the work on a debrief is, in words and as a share; empty `share` where nobody can say.
struct Progress {
  std::string words;
  float share = 0.0F;
};
Progress progress_of(const TableAtWork* table, const Wording& words);

/// A sheet that waits: title, what is going on, how far it is. True in the frame the person leaves it (Esc or its key).
bool draw_waiting(Hands& hands, std::string_view title, const Progress& progress, std::string_view leave_label,
                  const Rect& place);

}  // namespace voltfall
