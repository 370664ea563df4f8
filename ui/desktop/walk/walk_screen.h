#pragma once

#include <memory>
#include <string>
#include <vector>

#include "desktop/bay/bay_screen.h"
#include "desktop/walk/walk_steps.h"
#include "scenario/problem.h"

namespace voltfall {

/// "Ten minutes on a healthy car": the Bay with a card of steps where the title block stands. No score, no record.
class WalkScreen : public BayScreen {
 public:
  WalkScreen(Scenario healthy, const Wording& words);

 protected:
  void draw_title(const Rect& zone) override;

 private:
  void draw_prediction(const Rect& row);
  std::string foot_words(const WalkStep& step, bool done) const;
  void go_on();
  /// The same car with its bad clamp, at the first step that it is for.
  void take_bad_car();

  Scenario healthy_;
  WalkAnswers answers_;
  std::size_t step_ = 0;
};

/// The walk on the shipped healthy vehicle; null and problems when its file can't be read.
std::unique_ptr<Screen> make_walk(const Wording& words, std::vector<Problem>& problems);

}  // namespace voltfall
