#include "desktop/walk/walk_screen.h"

#include <fmt/format.h>

#include "desktop/start/open_job.h"
#include "desktop/start/start_page.h"
#include "desktop/style/draw.h"
#include "scenario/read_scenario.h"

namespace voltfall {
namespace {

constexpr double bad_clamp_ohm = 0.05;

Scenario with_bad_clamp(Scenario scenario) {
  scenario.faults = {{"positive_clamp_corroded", bad_clamp_ohm}};
  scenario.title = "The same car, next week";
  scenario.complaint = "It started all week. This morning it only clicks at me.";
  return scenario;
}

}  // namespace

WalkScreen::WalkScreen(Scenario healthy, const Wording& words)
    : BayScreen(std::make_unique<Session>(healthy), words, [&words] { return std::make_unique<StartPage>(words); }),
      healthy_(std::move(healthy)) {}

void WalkScreen::draw_title(const Rect& zone) {
  const WalkStep& step = walk_steps()[step_];
  const bool done = step.done(session(), answers_);
  ruled_zone(zone);
  Rect card = zone.inset(gap_16, gap_8);
  Rect head = card.cut_top(24);
  const std::string count = fmt::format("{} of {}", step_ + 1, walk_steps().size());
  text_in(head.cut_right(56), Type::small, ink::ink_soft, count, Align::right);
  text_in(head, Type::body_bold, ink::ink, step.title);
  Rect foot = card.cut_bottom(30);
  wrapped_text(card.min(), card.w, Type::body, ink::ink, step.words);
  if (step.asks_prediction && !done) {
    draw_prediction(foot);
    return;
  }
  const bool last = step_ + 1 == walk_steps().size();
  const Rect key = foot.cut_right(140);
  if (done) tick_mark({foot.x + 10, foot.centre().y}, 16, ink::ink);
  text_in({foot.x + 28, foot.y, foot.w - 36, foot.h}, Type::small, ink::ink_soft, done ? "done" : "not yet");
  const KeyLook look{.enabled = done, .strong = done};
  if (push_key(state().hands, "walk/next", key, last ? "Back to the start" : "Go on", look)) go_on();
}

void WalkScreen::draw_prediction(const Rect& row) {
  KeyLook look;
  look.type = Type::small;
  const int chosen = choice_keys(state().hands, "walk/predict", row, prediction_choices(), -1, look);
  if (chosen >= 0) answers_.predicted = chosen;
}

void WalkScreen::go_on() {
  const WalkStep& step = walk_steps()[step_];
  if (step_ + 1 == walk_steps().size()) {
    leave();
    return;
  }
  ++step_;
  if (step.next_vehicle) take_vehicle(std::make_unique<Session>(with_bad_clamp(healthy_)));
}

std::unique_ptr<Screen> make_walk(const Wording& words, std::vector<Problem>& problems) {
  ReadScenario read = read_scenario(scenarios_folder() / "healthy_walk.toml");
  problems = std::move(read.problems);
  if (!read.scenario) return nullptr;
  return std::make_unique<WalkScreen>(std::move(*read.scenario), words);
}

}  // namespace voltfall
