#include <fmt/format.h>

#include <algorithm>

#include "desktop/rail/paper_column.h"
#include "desktop/rail/rail_parts.h"
#include "desktop/style/draw.h"
#include "faults/catalogue.h"

namespace voltfall {

namespace {

constexpr float row_height = 26;

void draw_suspect(std::string_view name, bool struck, Rect row) {
  row = row.inset(gap_8, 0);
  const std::string_view mark = struck ? "struck" : "";
  text_in(row.cut_right(48), Type::small, ink::ink_soft, mark, Align::right);
  const float width = std::min(row.w, text_width(Type::small, name));
  text_in(row, Type::small, struck ? ink::ink_soft : ink::ink, name);
  if (struck) rule_across(row.x, row.x + width, row.centre().y, ink::ink_soft, 1.5F);
}

}  // namespace

void draw_suspects(const Wording& words, BayState& state, const Rect& place) {
  const auto faults = all_faults();
  const std::size_t count = std::min(faults.size(), state.suspects_struck.size());
  const auto struck = std::count(state.suspects_struck.begin(), state.suspects_struck.begin() + count, true);
  Rect rest = place;
  text_in(rest.cut_top(24), Type::small, ink::ink_soft,
          fmt::format("{} of {} left; press one to strike it out", count - static_cast<std::size_t>(struck), count));
  PaperColumn column(state.hands, "suspects", rest);
  for (std::size_t i = 0; i < count; ++i) {
    const std::string id = fmt::format("suspect/{}", faults[i].id);
    const Rect row = column.row_for(id, row_height);
    bool& is_struck = state.suspects_struck.at(i);
    if (list_row(state.hands, id, row, false)) is_struck = !is_struck;
    draw_suspect(words.fault(faults[i].id), is_struck, row);
  }
}

}  // namespace voltfall
