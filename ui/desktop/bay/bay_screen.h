#pragma once

#include <filesystem>
#include <functional>
#include <future>
#include <memory>

#include "desktop/bay/motion.h"
#include "desktop/bay_state.h"
#include "desktop/closeout/closing.h"
#include "desktop/replay/replay_screen.h"
#include "desktop/screen.h"
#include "desktop/service_sheet/service_sheet.h"
#include "desktop/step_clock.h"
#include "desktop/wishes.h"
#include "session/session.h"
#include "wording/wording.h"

namespace voltfall {

/// What goes with a job on its way through the screens; each may be missing.
struct BesideTheJob {
  std::shared_ptr<TableAtWork> table;              ///< under way since the job was opened
  std::filesystem::path record;                    ///< where the job is written
  std::shared_ptr<const DebriefContents> debrief;  ///< of a job that was closed before
};

/// The Bay: one job on one vehicle. Time goes by here, panels draw, and what they wish is handed to the session.
class BayScreen : public Screen {
 public:
  /// @param before  makes the screen that follows when the person leaves.
  BayScreen(std::unique_ptr<Session> session, const Wording& words, std::function<std::unique_ptr<Screen>()> before,
            BesideTheJob beside = {});
  ~BayScreen() override;

  void frame(double frame_s, ImVec2 window_size) override;
  void let_go() override;
  bool is_still() const override { return still_ && !closing_; }

  const Session& session() const { return *session_; }
  bool is_seen_again() const { return replay_ != nullptr; }
  BayState& state() { return state_; }

 protected:
  /// What stands at lower right: the title block, or a walk's card.
  virtual void draw_title(const Rect& zone);

  /// Another vehicle takes this one's place; leads, findings and the screen's state start afresh.
  void take_vehicle(std::unique_ptr<Session> session, std::shared_ptr<TableAtWork> table);

  void leave() { wishes_.leave = true; }

 private:
  void say(std::string words);
  void pass_time(double frame_s);
  void turn_key_as_held();
  void draw_panels(ImVec2 window_size);
  void draw_layers(const Rect& picture);
  void carry_out();
  void follow(const Action& action, const Outcome& outcome);
  void check_naming();
  void frame_while_closing(ImVec2 window_size);
  void end_closing();
  void see_again(std::size_t entry);

  std::unique_ptr<Session> session_;
  const Wording& words_;
  std::function<std::unique_ptr<Screen>()> before_;
  SheetContents service_sheet_;
  BayState state_;
  StepClock clock_{Session::step_s};
  Motion motion_;
  Wishes wishes_;
  bool still_ = false;  ///< the vehicle's time stands still
  BesideTheJob beside_;
  bool naming_unchecked_ = false;          ///< a guided job's latest name, until the table is ready
  std::future<std::string> naming_check_;  ///< what it leaves open
  std::unique_ptr<Closing> closing_;       ///< while it is there, the session is not ours to touch
  std::unique_ptr<ReplayScreen> replay_;   ///< over everything
};

}  // namespace voltfall
