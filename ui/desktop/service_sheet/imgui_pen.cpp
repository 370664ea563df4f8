#include "desktop/service_sheet/imgui_pen.h"

#include <array>

#include "desktop/style/draw.h"

namespace voltfall {
namespace {

ImU32 colour_of(Tone tone) {
  constexpr std::array colours{ink::paper, ink::ink, ink::ink_soft, ink::copper};
  return colours.at(static_cast<std::size_t>(tone));
}

}  // namespace

void ImguiPen::line(Spot from, Spot to, float width, Tone tone) {
  sheet().AddLine(at(from), at(to), colour_of(tone), width * scale_);
}

void ImguiPen::box(Spot corner, Spot size, Tone fill, float edge_width) {
  const ImVec2 low = at(corner), high = at({corner.x + size.x, corner.y + size.y});
  sheet().AddRectFilled(low, high, colour_of(fill));
  if (edge_width >= 0.5F) sheet().AddRect(low, high, ink::ink, 0, ImDrawFlags_None, edge_width * scale_);
}

void ImguiPen::disc(Spot centre, float radius, Tone fill, float edge_width) {
  sheet().AddCircleFilled(at(centre), radius * scale_, colour_of(fill));
  sheet().AddCircle(at(centre), radius * scale_, ink::ink, 0, edge_width * scale_);
}

void ImguiPen::words(Spot centre, std::string_view text, Tone tone, bool bold) {
  const Type type = bold ? Type::small_bold : Type::small;
  const float width = text_width(type, text), height = line_height(type);
  const ImVec2 middle = at(centre);
  text_in({middle.x - width / 2, middle.y - height / 2, width, height}, type, colour_of(tone), text);
}

}  // namespace voltfall
