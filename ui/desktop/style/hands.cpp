#include "desktop/style/hands.h"

#include <algorithm>
#include <utility>

namespace voltfall {
namespace {

bool named_key(ImGuiKey key, bool repeat) {
  return ImGui::IsKeyPressed(ImGui::GetKeyIndex(key), repeat);
}

}  // namespace

void Hands::begin_frame() {
  order_.clear();
  live = true;
  if (ImGui::GetIO().MouseClicked[0]) by_keyboard_ = false;
}

void Hands::end_frame() {
  if (named_key(ImGuiKey_Tab, true)) walk(ImGui::GetIO().KeyShift ? -1 : 1);
  if (!going_on_at_.empty()) focus_on(std::exchange(going_on_at_, {}));
  const auto& io = ImGui::GetIO();
  if (!io.MouseDown[0] && !io.MouseReleased[0]) down_on_.clear();
}

void Hands::walk(int direction) {
  if (order_.empty()) return;
  const auto at = std::find(order_.begin(), order_.end(), focus_);
  const int count = static_cast<int>(order_.size());
  int next = direction > 0 ? 0 : count - 1;
  if (at != order_.end()) next = (static_cast<int>(at - order_.begin()) + direction + count) % count;
  focus_ = order_[static_cast<std::size_t>(next)];
  by_keyboard_ = true;
}

void Hands::offer(std::string_view id, const Rect& where) {
  if (!live) return;
  order_.emplace_back(id);
  if (over(where) && ImGui::GetIO().MouseClicked[0]) {
    down_on_ = id;
    focus_ = id;
  }
}

bool Hands::over(const Rect& where) const {
  if (!live || !where.holds(ImGui::GetIO().MousePos)) return false;
  const ImVec2 low = ImGui::GetWindowDrawList()->GetClipRectMin(), high = ImGui::GetWindowDrawList()->GetClipRectMax();
  return Rect{low.x, low.y, high.x - low.x, high.y - low.y}.holds(ImGui::GetIO().MousePos);
}

bool Hands::pressed(std::string_view id, const Rect& where) {
  if (!live) return false;
  if (down_on_ == id && ImGui::GetIO().MouseReleased[0] && over(where)) return true;
  if (focus_ != id || letters_taken) return false;
  return named_key(ImGuiKey_Enter, false) || (!typing() && named_key(ImGuiKey_Space, false));
}

bool Hands::held(std::string_view id, const Rect& where) {
  if (!live) return false;
  if (down_on_ == id && ImGui::GetIO().MouseDown[0] && over(where)) return true;
  return focus_ == id && !typing() && ImGui::IsKeyDown(ImGui::GetKeyIndex(ImGuiKey_Space));
}

void Hands::focus_on(std::string_view id) {
  focus_ = id;
  by_keyboard_ = true;
}

float& Hands::scroll_of(std::string_view list) {
  const auto found = scroll_.find(list);
  return found != scroll_.end() ? found->second : scroll_[std::string(list)];
}

bool Hands::typing() const {
  return letters_taken || ImGui::GetIO().WantTextInput;
}

bool letter_pressed(const Hands& hands, char upper_case) {
  return !hands.typing() && !ImGui::GetIO().KeyCtrl && ImGui::IsKeyPressed(letter_key(upper_case), false);
}

bool letter_down(const Hands& hands, char upper_case) {
  return !hands.typing() && ImGui::IsKeyDown(letter_key(upper_case));
}

}  // namespace voltfall
