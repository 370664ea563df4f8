#include "desktop/style/draw.h"

#include <imgui_internal.h>
#include <imgui_stdlib.h>

#include <cmath>

namespace voltfall {

void rule_across(float from_x, float to_x, float y, ImU32 colour, float thickness) {
  const float at = std::floor(y);
  sheet().AddRectFilled({std::floor(from_x), at}, {std::floor(to_x), at + thickness}, colour);
}

void rule_down(float x, float from_y, float to_y, ImU32 colour, float thickness) {
  const float at = std::floor(x);
  sheet().AddRectFilled({at, std::floor(from_y)}, {at + thickness, std::floor(to_y)}, colour);
}

void ruled_border(const Rect& zone) {
  rule_across(zone.x, zone.right(), zone.y);
  rule_across(zone.x, zone.right(), zone.bottom() - 1);
  rule_down(zone.x, zone.y, zone.bottom());
  rule_down(zone.right() - 1, zone.y, zone.bottom());
}

void ruled_zone(const Rect& zone, ImU32 fill) {
  sheet().AddRectFilled(zone.min(), zone.max(), fill);
  ruled_border(zone);
}

float title_row(ImVec2 top_left, float width, std::string_view label, std::string_view value) {
  const float label_height = line_height(Type::small);
  wrapped_text(top_left, width, Type::small, ink::ink_soft, label);
  const float value_height = wrapped_text({top_left.x, top_left.y + label_height}, width, Type::body, ink::ink, value);
  const float height = label_height + value_height + gap_4;
  rule_across(top_left.x, top_left.x + width, top_left.y + height, ink::hairline);
  return height + gap_4;
}

void label_value(const Rect& row, std::string_view label, std::string_view value, Type value_type) {
  const float value_width = text_width(value_type, value);
  text_in({row.x, row.y, row.w - value_width - gap_8, row.h}, Type::small, ink::ink_soft, label);
  text_in(row, value_type, ink::ink, value, Align::right);
}

void tick_mark(ImVec2 centre, float size, ImU32 colour) {
  const ImVec2 points[] = {{centre.x - size * 0.45F, centre.y + size * 0.02F},
                           {centre.x - size * 0.12F, centre.y + size * 0.36F},
                           {centre.x + size * 0.48F, centre.y - size * 0.36F}};
  sheet().AddPolyline(points, 3, colour, ImDrawFlags_None, std::max(2.0F, size * 0.16F));
}

void focus_ring(const Rect& around) {
  const Rect casing = around.inset(-1), ring = around.inset(-3.5F);
  sheet().AddRect(casing.min(), casing.max(), ink::paper, 0, ImDrawFlags_None, 2.0F);
  sheet().AddRect(ring.min(), ring.max(), ink::focus, 0, ImDrawFlags_None, 3.0F);
}

namespace {

struct KeyColours {
  ImU32 fill, border, words, bar;
};

KeyColours colours_of(const KeyLook& look, bool hovered, bool down) {
  if (!look.enabled) {
    return look.on_dark ? KeyColours{ink::instrument, ink::instrument_edge, ink::instrument_edge, 0}
                        : KeyColours{ink::paper, ink::hairline, ink::edge, 0};
  }
  if (look.on_dark) {
    const ImU32 fill =
        look.selected ? ink::on_dark : ink::blend(ink::instrument, ink::on_dark, hovered ? 0.16F : 0.05F);
    return {fill, look.selected ? ink::on_dark : ink::instrument_edge, look.selected ? ink::ink : ink::on_dark,
            ink::copper};
  }
  if (look.selected) return {ink::ink, ink::ink, ink::on_dark, ink::copper_light};
  return {down || hovered ? ink::paper_shade : ink::paper, look.strong ? ink::ink : ink::edge, ink::ink, ink::copper};
}

void draw_key(const Rect& where, std::string_view label, const KeyLook& look, bool hovered, bool down) {
  const KeyColours c = colours_of(look, hovered, down);
  sheet().AddRectFilled(where.min(), where.max(), c.fill);
  const float line = look.strong && look.enabled ? 2.0F : 1.0F;
  sheet().AddRect({where.x + line / 2, where.y + line / 2}, {where.right() - line / 2, where.bottom() - line / 2},
                  c.border, 0, ImDrawFlags_None, line);
  if (look.selected) {
    sheet().AddRectFilled({where.x + 4, where.bottom() - 6}, {where.right() - 4, where.bottom() - 3}, c.bar);
  }
  Type type = look.type;
  if ((look.selected || look.strong) && type == Type::body) type = Type::body_bold;
  if ((look.selected || look.strong) && type == Type::small) type = Type::small_bold;
  Rect face = where.inset(gap_4, 0);
  if (down) face.y += 1;
  text_in(face, type, c.words, label, Align::centre);
}

}  // namespace

bool push_key(Hands& hands, std::string_view id, const Rect& where, std::string_view label, const KeyLook& look) {
  if (look.enabled) hands.offer(id, where);
  const bool down = look.enabled && hands.held(id, where);
  draw_key(where, label, look, look.enabled && hands.over(where), down);
  if (hands.ring_on(id)) focus_ring(where);
  return look.enabled && hands.pressed(id, where);
}

bool hold_key(Hands& hands, std::string_view id, const Rect& where, std::string_view label, const KeyLook& look) {
  push_key(hands, id, where, label, look);
  return look.enabled && hands.held(id, where);
}

int choice_keys(Hands& hands, std::string_view id, const Rect& row, std::span<const std::string_view> labels,
                int selected, KeyLook look) {
  const int count = static_cast<int>(labels.size());
  int chosen = selected;
  for (int i = 0; i < count; ++i) {
    look.selected = i == selected;
    const std::string key_id = std::string(id) + "/" + std::to_string(i);
    const auto& label = labels[static_cast<std::size_t>(i)];
    if (push_key(hands, key_id, cell_of(row, i, count, gap_4), label, look)) chosen = i;
  }
  return chosen;
}

std::vector<Rect> cells_by_words(const Rect& row, Type type, std::span<const std::string_view> labels) {
  float words = 0;
  for (const std::string_view label : labels) words += text_width(type, label);
  const float spare = (row.w - words) / static_cast<float>(labels.size()) - gap_4;
  std::vector<Rect> cells;
  Rect rest = row;
  for (const std::string_view label : labels) {
    cells.push_back(rest.cut_left(std::floor(text_width(type, label) + spare)));
    rest.cut_left(gap_4);
  }
  cells.back().w = row.right() - cells.back().x;
  return cells;
}

bool tick_key(Hands& hands, std::string_view id, const Rect& where, std::string_view label, bool ticked, bool enabled) {
  if (enabled) hands.offer(id, where);
  const Rect box{where.x, where.y + (where.h - 16) / 2, 16, 16};
  sheet().AddRectFilled(box.min(), box.max(), enabled && hands.over(where) ? ink::paper_shade : ink::paper);
  sheet().AddRect(box.min(), box.max(), enabled ? ink::ink : ink::edge);
  if (ticked) tick_mark(box.centre(), 12, enabled ? ink::ink : ink::edge);
  text_in({where.x + 24, where.y, where.w - 24, where.h}, Type::body, enabled ? ink::ink : ink::ink_soft, label);
  if (hands.ring_on(id)) focus_ring(where.inset(-2, 0));
  return enabled && hands.pressed(id, where);
}

bool list_row(Hands& hands, std::string_view id, const Rect& where, bool selected, bool enabled) {
  if (enabled) hands.offer(id, where);
  if (selected || (enabled && hands.over(where))) {
    sheet().AddRectFilled(where.min(), where.max(), ink::paper_shade);
  }
  if (selected) sheet().AddRectFilled(where.min(), {where.x + 4, where.bottom()}, ink::ink);
  rule_across(where.x, where.right(), where.bottom() - 1, ink::hairline);
  if (hands.ring_on(id)) focus_ring(where.inset(4));
  return enabled && hands.pressed(id, where);
}

bool text_field(Hands& hands, std::string_view id, const Rect& where, std::string& words, const char* hint) {
  hands.offer(id, where);
  const std::string name = "##" + std::string(id);
  const ImGuiID imgui_id = ImGui::GetID(name.c_str());
  const bool active = ImGui::GetStateStorage()->GetBool(imgui_id);
  ImGui::PushFont(font(Type::body));
  ImGui::PushStyleColor(ImGuiCol_FrameBg, ink::paper);
  ImGui::PushStyleColor(ImGuiCol_Text, ink::ink);
  ImGui::PushStyleColor(ImGuiCol_TextDisabled, ink::ink_soft);
  ImGui::PushStyleColor(ImGuiCol_TextSelectedBg, ink::faded(ink::copper_light, 0.5F));
  ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, ImVec2{gap_8, (where.h - line_height(Type::body)) / 2});
  ImGui::SetCursorScreenPos(where.min());
  ImGui::SetNextItemWidth(where.w);
  if (hands.focused(id) && !active) ImGui::SetKeyboardFocusHere();
  const bool entered = ImGui::InputTextWithHint(name.c_str(), hint, &words, ImGuiInputTextFlags_EnterReturnsTrue);
  // The keyboard has gone elsewhere: letters must not go on into the field.
  if (!hands.focused(id) && ImGui::IsItemActive()) ImGui::ClearActiveID();
  ImGui::GetStateStorage()->SetBool(imgui_id, hands.focused(id) && ImGui::IsItemActive());
  ImGui::PopStyleVar();
  ImGui::PopStyleColor(4);
  ImGui::PopFont();
  sheet().AddRect(where.min(), where.max(), ink::ink);
  if (hands.ring_on(id)) focus_ring(where);
  return entered;
}

}  // namespace voltfall
