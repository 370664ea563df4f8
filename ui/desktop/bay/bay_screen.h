#pragma once

#include <functional>
#include <memory>

#include "desktop/bay/motion.h"
#include "desktop/bay_state.h"
#include "desktop/screen.h"
#include "desktop/service_sheet/service_sheet.h"
#include "desktop/step_clock.h"
#include "desktop/wishes.h"
#include "session/session.h"
#include "wording/wording.h"

namespace voltfall {

/// The Bay: one job on one vehicle. Time goes by here, panels draw, and what they wish is handed to the session.
class BayScreen : public Screen {
 public:
  /// @param before  makes the screen that follows when the person leaves.
  BayScreen(std::unique_ptr<Session> session, const Wording& words, std::function<std::unique_ptr<Screen>()> before);

  void frame(double frame_s, ImVec2 window_size) override;
  void let_go() override;
  bool is_still() const override { return still_; }

  const Session& session() const { return *session_; }
  BayState& state() { return state_; }

 protected:
  /// What stands at lower right: the title block, or a walk's card.
  virtual void draw_title(const Rect& zone);

  /// Another vehicle takes this one's place; leads, findings and the screen's state start afresh.
  void take_vehicle(std::unique_ptr<Session> session);

  void leave() { wishes_.leave = true; }

 private:
  void say(std::string words);
  void pass_time(double frame_s);
  void turn_key_as_held();
  void draw_panels(ImVec2 window_size);
  void draw_layers(const Rect& picture);
  void carry_out();

  std::unique_ptr<Session> session_;
  const Wording& words_;
  std::function<std::unique_ptr<Screen>()> before_;
  SheetContents service_sheet_;
  BayState state_;
  StepClock clock_{Session::step_s};
  Motion motion_;
  Wishes wishes_;
  bool still_ = false;  ///< the vehicle's time stands still
};

}  // namespace voltfall
