#include "desktop/rail/paper_column.h"

#include <algorithm>

namespace voltfall {

namespace {

float& known_height(std::string_view id) {
  const std::string name = std::string(id) + "/height";
  return *ImGui::GetStateStorage()->GetFloatRef(ImGui::GetID(name.c_str()), 0.0F);
}

bool went_down(ImGuiKey key) {
  return ImGui::IsKeyPressed(ImGui::GetKeyIndex(key), true);
}

}  // namespace

PaperColumn::PaperColumn(Hands& hands, std::string_view id, const Rect& view) : hands_(hands), id_(id), view_(view) {
  if (known_height(id_) > view.h) turn_by_keys(view);
  area_.emplace(hands, id, view, known_height(id_));
  y_ = area_->top();
}

PaperColumn::~PaperColumn() {
  known_height(id_) = y_ - area_->top();
  area_.reset();
  walk_rows();
  if (hands_.ring_on(id_)) focus_ring(view_.inset(3));
}

void PaperColumn::turn_by_keys(const Rect& view) {
  hands_.offer(id_, view);
  if (!hands_.focused(id_) || hands_.typing()) return;
  constexpr float line = 40;
  float& offset = hands_.scroll_of(id_);
  if (went_down(ImGuiKey_DownArrow)) offset += line;
  if (went_down(ImGuiKey_UpArrow)) offset -= line;
  if (went_down(ImGuiKey_PageDown)) offset += view.h - line;
  if (went_down(ImGuiKey_PageUp)) offset -= view.h - line;
}

void PaperColumn::walk_rows() {
  const bool down = went_down(ImGuiKey_DownArrow);
  if (rows_.empty() || down == went_down(ImGuiKey_UpArrow)) return;
  if (down && !above_.empty() && hands_.focused(above_)) return hands_.focus_on(rows_.front());
  const auto at = std::find_if(rows_.begin(), rows_.end(), [&](const auto& row) { return hands_.focused(row); });
  if (at == rows_.end()) return;
  if (down && at + 1 != rows_.end()) hands_.focus_on(*(at + 1));
  if (!down && at != rows_.begin()) hands_.focus_on(*(at - 1));
}

void PaperColumn::paragraph(Type type, ImU32 colour, std::string_view words) {
  y_ += wrapped_text({view_.x, y_}, width(), type, colour, words) + gap_4;
}

void PaperColumn::heading(std::string_view words) {
  y_ += gap_8;
  text_in(row(20), Type::small_bold, ink::ink, words);
  rule_across(view_.x, view_.x + width(), y_, ink::ink);
  y_ += gap_4;
}

Rect PaperColumn::row(float height) {
  const Rect place{view_.x, y_, width(), height};
  y_ += height;
  return place;
}

Rect PaperColumn::row_for(std::string_view control, float height) {
  const Rect place = row(height);
  rows_.emplace_back(control);
  if (hands_.ring_on(control)) area_->keep_in_sight(place.y, place.h);
  return place;
}

}  // namespace voltfall
