#pragma once

#include <memory>
#include <string>

#include "debrief/debrief_contents.h"
#include "desktop/bay/motion.h"
#include "desktop/bay_state.h"
#include "desktop/replay/replay_reader.h"
#include "desktop/screen.h"

namespace voltfall {

/// A closed job seen again: the Bay as it stood at any step of its timeline, with a ruled scrubber under it. Nothing in
/// it can be changed.
class ReplayScreen : public Screen {
 public:
  /// @param record  text of the job's record
  /// @param shown   number of the step to begin with, from 1
  ReplayScreen(std::string record, std::shared_ptr<const DebriefContents> contents, const Wording& words,
               std::size_t shown);

  void frame(double frame_s, ImVec2 window_size) override;
  void let_go() override { state_.hands.let_go(); }

  std::size_t shown() const { return shown_; }
  /// The person is done with it.
  bool ended() const { return ended_; }
  /// Null while it is being played.
  const Session* session() { return reader_.session(); }

 private:
  void show(std::size_t step);
  void draw_head(const Rect& bar);
  void draw_back_key(const Rect& rail);
  void draw_job(const Session* session, const Rect& picture, const Rect& rail, const Rect& title_block);
  void settle(const Session& session);

  std::shared_ptr<const DebriefContents> contents_;
  const Wording& words_;
  ReplayReader reader_;
  std::size_t shown_;
  BayState state_;
  Motion motion_;
  bool settled_ = false;  ///< light and smoke as they were then
  bool ended_ = false;
};

}  // namespace voltfall
