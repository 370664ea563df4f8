#pragma once

#include <functional>
#include <memory>

#include "desktop/bay/motion.h"
#include "desktop/bay_state.h"
#include "desktop/screen.h"
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

  const Session& session() const { return *session_; }
  BayState& state() { return state_; }

 protected:
  /// Drawn over the bar's left part and the fall line's place by a walk; the Bay itself has nothing to add.
  virtual void draw_over(const Rect& /*fall_line*/) {}
  virtual bool has_fall_line() const { return true; }
  Session& session_mut() { return *session_; }
  void say(std::string words);

 private:
  void pass_time(double frame_s);
  void turn_key_as_held();
  void draw_panels(ImVec2 window_size);
  void draw_layers(const Rect& picture);
  void carry_out();

  std::unique_ptr<Session> session_;
  const Wording& words_;
  std::function<std::unique_ptr<Screen>()> before_;
  BayState state_;
  StepClock clock_{Session::step_s};
  Motion motion_;
  Wishes wishes_;
};

}  // namespace voltfall
