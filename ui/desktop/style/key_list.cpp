#include "desktop/style/key_list.h"

#include "desktop/style/draw.h"

namespace voltfall {

bool draw_key_list(Hands& hands, std::span<const KeyUse> uses, std::string_view back, const Rect& picture) {
  constexpr float row_height = 22;
  const float height = static_cast<float>(uses.size()) * row_height + 104;
  const ImVec2 middle = picture.centre();
  Rect page{middle.x - 300, middle.y - height / 2, 600, height};
  ruled_zone(page);
  sheet().AddRect(page.min(), page.max(), ink::ink, 0, ImDrawFlags_None, 3.0F);
  page = page.inset(gap_16);
  text_in(page.cut_top(28), Type::heading, ink::ink, "Keys");
  for (const KeyUse& use : uses) {
    Rect row = page.cut_top(row_height);
    text_in(row.cut_left(120), Type::body_bold, ink::ink, use.key);
    text_in(row, Type::body, ink::ink, use.use);
  }
  const bool escaped = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false);
  return push_key(hands, "keys/close", page.cut_bottom(28), back) || escaped;
}

}  // namespace voltfall
