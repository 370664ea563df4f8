#include <cmath>

#include "desktop/style/draw.h"

namespace voltfall {
namespace {

constexpr float bar_width = 8;
constexpr float wheel_step = 48;

}  // namespace

ScrollArea::ScrollArea(Hands& hands, std::string_view id, const Rect& view, float content_height)
    : hands_(hands), id_(id), view_(view), content_height_(content_height), width_(view.w) {
  float& offset = hands.scroll_of(id);
  const float most = std::max(0.0F, content_height - view.h);
  if (hands.over(view)) offset -= ImGui::GetIO().MouseWheel * wheel_step;
  offset = std::clamp(offset, 0.0F, most);
  if (most > 0) {
    width_ -= bar_width + gap_4;
    const Rect trough{view.right() - bar_width, view.y, bar_width, view.h};
    if (hands.live && hands.over(trough.inset(-gap_4, 0)) && ImGui::GetIO().MouseDown[0]) {
      offset = std::clamp((ImGui::GetIO().MousePos.y - view.y) / view.h * content_height - view.h / 2, 0.0F, most);
    }
    const float thumb = std::max(24.0F, view.h * view.h / content_height);
    const float at = view.y + (view.h - thumb) * offset / most;
    sheet().AddRectFilled(trough.min(), trough.max(), ink::paper_shade);
    sheet().AddRectFilled({trough.x, at}, {trough.right(), at + thumb}, ink::edge);
  }
  offset_ = std::floor(offset);
  sheet().PushClipRect(view.min(), {view.x + width_, view.bottom()}, true);
}

ScrollArea::~ScrollArea() {
  sheet().PopClipRect();
}

void ScrollArea::keep_in_sight(float row_y, float row_height) {
  float& offset = hands_.scroll_of(id_);
  if (row_y < view_.y) offset -= view_.y - row_y;
  if (row_y + row_height > view_.bottom()) offset += row_y + row_height - view_.bottom();
  offset = std::clamp(offset, 0.0F, std::max(0.0F, content_height_ - view_.h));
}

}  // namespace voltfall
