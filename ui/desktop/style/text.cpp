#include <cmath>

#include "desktop/style/draw.h"

namespace voltfall {

ImDrawList& sheet() {
  return *ImGui::GetWindowDrawList();
}

std::vector<std::string>& shortened_texts() {
  static std::vector<std::string> texts;
  return texts;
}

std::string shortened(Type type, std::string_view whole, float width) {
  if (text_width(type, whole) <= width) return std::string(whole);
  constexpr std::string_view ellipsis = "\xE2\x80\xA6";
  std::string_view kept = whole;
  while (!kept.empty()) {
    // Never leave half of a UTF-8 letter behind.
    do {
      kept.remove_suffix(1);
    } while (!kept.empty() && (static_cast<unsigned char>(whole[kept.size()]) & 0xC0U) == 0x80U);
    while (!kept.empty() && kept.back() == ' ') kept.remove_suffix(1);
    std::string tried = std::string(kept) + std::string(ellipsis);
    if (text_width(type, tried) <= width) return tried;
  }
  return std::string(ellipsis);
}

void text_in(const Rect& box, Type type, ImU32 colour, std::string_view words, Align align) {
  // Half a pixel of slack: widths are sums of rounded advances.
  const std::string shown = shortened(type, words, box.w + 0.5F);
  if (shown != words && shortened_texts().size() < 1000) shortened_texts().emplace_back(words);
  const float width = text_width(type, shown);
  float x = box.x;
  if (align == Align::centre) x += (box.w - width) / 2;
  if (align == Align::right) x += box.w - width;
  const float y = box.y + (box.h - line_height(type)) / 2;
  sheet().AddText(font(type), line_height(type), {std::round(x), std::round(y)}, colour, shown.data(),
                  shown.data() + shown.size());
}

float wrapped_height(Type type, std::string_view words, float width) {
  const ImFont* face = font(type);
  return face->CalcTextSizeA(face->FontSize, 1.0e9F, width, words.data(), words.data() + words.size()).y;
}

float wrapped_text(ImVec2 top_left, float width, Type type, ImU32 colour, std::string_view words) {
  sheet().AddText(font(type), line_height(type), {std::round(top_left.x), std::round(top_left.y)}, colour, words.data(),
                  words.data() + words.size(), width);
  return wrapped_height(type, words, width);
}

}  // namespace voltfall
