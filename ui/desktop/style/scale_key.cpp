#include "desktop/style/scale_key.h"

#include <algorithm>

#include "desktop/style/draw.h"

namespace voltfall {
namespace {

std::optional<double> moved_by_keys(const Hands& hands, std::string_view id, const ScaleLook& look) {
  if (!hands.focused(id) || hands.typing()) return std::nullopt;
  const auto pressed = [](ImGuiKey key) { return ImGui::IsKeyPressed(ImGui::GetKeyIndex(key), true); };
  constexpr double page_steps = 10.0;
  double steps = 0.0;
  if (pressed(ImGuiKey_RightArrow)) steps += 1.0;
  if (pressed(ImGuiKey_LeftArrow)) steps -= 1.0;
  if (pressed(ImGuiKey_PageUp)) steps += page_steps;
  if (pressed(ImGuiKey_PageDown)) steps -= page_steps;
  if (steps == 0.0) return std::nullopt;
  return std::clamp(look.at + steps * look.step, 0.0, 1.0);
}

}  // namespace

std::optional<double> scale_key(Hands& hands, std::string_view id, const Rect& where, const ScaleLook& look) {
  constexpr float thumb_half = 5;
  hands.offer(id, where);
  const Rect line{where.x + thumb_half, where.y, where.w - 2 * thumb_half, where.h};
  const float y = where.centre().y;
  rule_across(line.x, line.right(), y, look.changed ? ink::ink : ink::edge, look.changed ? 2.0F : 1.5F);
  for (int tenth = 0; tenth <= 10; ++tenth) {
    const float x = line.x + line.w * static_cast<float>(tenth) / 10.0F;
    rule_down(x, y, y + (tenth % 5 == 0 ? 5.0F : 3.0F), ink::edge);
  }
  if (look.mark) {
    const float x = line.x + line.w * static_cast<float>(*look.mark);
    sheet().AddTriangleFilled({x, y + 3}, {x - 4, y + 9}, {x + 4, y + 9}, ink::ink_soft);
  }
  const float at = line.x + line.w * static_cast<float>(std::clamp(look.at, 0.0, 1.0));
  const Rect thumb{at - thumb_half, y - 9, 2 * thumb_half, 15};
  sheet().AddRectFilled(thumb.min(), thumb.max(), look.changed ? ink::copper : ink::paper);
  sheet().AddRect(thumb.min(), thumb.max(), ink::ink, 0, ImDrawFlags_None, hands.over(where) ? 2.0F : 1.0F);
  if (hands.ring_on(id)) focus_ring(where);
  if (hands.dragged(id)) {
    const double share = std::clamp((ImGui::GetIO().MousePos.x - line.x) / line.w, 0.0F, 1.0F);
    return share;
  }
  return moved_by_keys(hands, id, look);
}

}  // namespace voltfall
