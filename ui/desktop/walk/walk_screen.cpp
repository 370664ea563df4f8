#include "desktop/walk/walk_screen.h"

#include <fmt/format.h>

#include <algorithm>

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
  if (done) foot.cut_left(28);
  text_in(foot, Type::small, ink::ink_soft, foot_words(step, done));
  if (session().closed() && !done) {
    // Handed back too soon: nothing more can be done on this vehicle, so it comes in once more.
    if (push_key(state().hands, "walk/again", key, "Take it again", {.strong = true})) take_bad_car();
    return;
  }
  const KeyLook look{.enabled = done, .strong = done};
  if (push_key(state().hands, "walk/next", key, last ? "Back to the start" : "Go on", look)) go_on();
}

std::string WalkScreen::foot_words(const WalkStep& step, bool done) const {
  if (session().closed() && !done) return "handed back too soon";
  if (!done) return "not yet";
  const bool compares = step.asks_prediction || step.shows_prediction;
  if (!compares || !answers_.predicted) return "done";
  return fmt::format("you said {}", prediction_choices()[static_cast<std::size_t>(*answers_.predicted)]);
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
  if (step.next_vehicle)
    take_bad_car();
  else
    ++step_;
}

void WalkScreen::take_bad_car() {
  const auto steps = walk_steps();
  const auto before = std::find_if(steps.begin(), steps.end(), [](const WalkStep& step) { return step.next_vehicle; });
  step_ = static_cast<std::size_t>(before - steps.begin()) + 1;
  const Scenario bad = with_bad_clamp(healthy_);
  TableHolder table;
  table.begin(bad);
  take_vehicle(std::make_unique<Session>(bad, table.source()), table.work());
}

std::unique_ptr<Screen> make_walk(const Wording& words, std::vector<Problem>& problems) {
  ReadScenario read = read_scenario(scenarios_folder() / "healthy_walk.toml");
  problems = std::move(read.problems);
  if (!read.scenario) return nullptr;
  return std::make_unique<WalkScreen>(std::move(*read.scenario), words);
}

}  // namespace voltfall
