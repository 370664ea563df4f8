#include "desktop/replay/scrubber.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "desktop/style/draw.h"

namespace voltfall {

namespace {

/// Minutes of the job along a scale.
class Scale {
 public:
  Scale(const std::vector<DebriefStep>& steps, const Rect& place) : place_(place) {
    for (const DebriefStep& step : steps) last_min_ = std::max(last_min_, step.at_minute + step.minutes);
  }

  double last_min() const { return last_min_; }
  const Rect& place() const { return place_; }
  float x_at(double minute) const { return place_.x + place_.w * static_cast<float>(minute / last_min_); }

  /// Between the ticks that bear a figure: about a dozen of them.
  double tick_min() const {
    constexpr std::array steps{1.0, 2.0, 5.0, 10.0, 20.0, 30.0, 60.0, 120.0, 240.0};
    for (const double step : steps) {
      if (last_min_ / step <= 14.0) return step;
    }
    return 480.0;
  }

 private:
  Rect place_;
  double last_min_ = 1.0;
};

void draw_ruler(const Scale& scale) {
  const Rect& place = scale.place();
  const float y = place.bottom() - 20;
  rule_across(place.x, place.right(), y, ink::ink, 1.5F);
  // The last tick leaves room for the unit.
  for (int tick = 0; tick * scale.tick_min() <= 0.95 * scale.last_min(); ++tick) {
    const float x = scale.x_at(tick * scale.tick_min());
    rule_down(x, y, y + 5, ink::ink);
    const std::string figure = fmt::format("{:.0f}", tick * scale.tick_min());
    text_in({x - 20, y + 5, 40, 15}, Type::small, ink::ink_soft, figure, Align::centre);
  }
  text_in({place.right() - 40, y + 5, 40 + gap_16, 15}, Type::small, ink::ink_soft, "min", Align::right);
}

void draw_marks(const std::vector<DebriefStep>& steps, std::size_t shown, const Scale& scale) {
  const float y = scale.place().bottom() - 20;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const float x = scale.x_at(steps[i].at_minute);
    const bool now = i + 1 == shown;
    rule_down(x, y - (steps[i].telling ? 20 : 12), y, now ? ink::copper : ink::ink, steps[i].telling ? 3.0F : 1.5F);
  }
  const float x = shown == 0 ? scale.place().x : scale.x_at(steps[shown - 1].at_minute);
  sheet().AddTriangleFilled({x, y - 2}, {x - 7, y - 26}, {x + 7, y - 26}, ink::copper);
  sheet().AddTriangle({x, y - 2}, {x - 7, y - 26}, {x + 7, y - 26}, ink::ink, 1.5F);
}

/// As many sentences as two lines hold.
void draw_notes_of(const DebriefStep& step, const Rect& place) {
  std::string said;
  for (const std::string& note : step.notes) {
    std::string longer = said.empty() ? note : fmt::format("{} {}", said, note);
    if (wrapped_height(Type::small, longer, place.w) > place.h) break;
    said = std::move(longer);
  }
  wrapped_text(place.min(), place.w, Type::small, ink::ink_soft, said);
}

/// The step nearest to the place under the mouse.
std::size_t step_at(const std::vector<DebriefStep>& steps, float x, const Scale& scale) {
  std::size_t nearest = 0;
  float distance = std::abs(x - scale.place().x);
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const float away = std::abs(x - scale.x_at(steps[i].at_minute));
    if (away <= distance) nearest = i + 1, distance = away;
  }
  return nearest;
}

bool went_down(ImGuiKey key) {
  return ImGui::IsKeyPressed(ImGui::GetKeyIndex(key), true);
}

}  // namespace

std::size_t draw_scrubber(const DebriefContents& contents, std::size_t shown, const Wording& words, Hands& hands,
                          const Rect& place) {
  const auto& steps = contents.timeline;
  ruled_zone(place);
  Rect inside = place.inset(gap_16, gap_8);
  Rect row = inside.cut_top(28);
  std::size_t next = shown;
  KeyLook look;
  look.enabled = shown > 0;
  if (push_key(hands, "replay/earlier", row.cut_left(44), "\u2190", look) || went_down(ImGuiKey_LeftArrow))
    next = shown - (shown > 0 ? 1 : 0);
  row.cut_left(gap_4);
  look.enabled = shown < steps.size();
  if (push_key(hands, "replay/later", row.cut_left(44), "\u2192", look) || went_down(ImGuiKey_RightArrow))
    next = std::min(shown + 1, steps.size());
  row.cut_left(gap_16);
  if (went_down(ImGuiKey_Home)) next = 0;
  if (went_down(ImGuiKey_End)) next = steps.size();

  text_in(row.cut_right(140), Type::small, ink::ink_soft, fmt::format("step {} of {}", shown, steps.size()),
          Align::right);
  row.cut_right(gap_8);
  const std::string_view nothing = words.text("debrief.replay_nothing");
  text_in(row, Type::body_bold, ink::ink, shown == 0 ? nothing : std::string_view(steps[shown - 1].what));
  inside.cut_top(gap_4);  // room for the keys' focus ring
  if (shown > 0) draw_notes_of(steps[shown - 1], inside.cut_top(2 * line_height(Type::small) + gap_4));
  inside.y = inside.bottom() - 52, inside.h = 52;
  const Scale scale(steps, inside.inset(gap_16, 0));
  draw_ruler(scale);
  draw_marks(steps, shown, scale);
  if (hands.over(inside) && ImGui::GetIO().MouseDown[0]) next = step_at(steps, ImGui::GetIO().MousePos.x, scale);
  return next;
}

}  // namespace voltfall
