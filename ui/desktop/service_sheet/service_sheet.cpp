#include "desktop/service_sheet/service_sheet.h"

#include <fmt/format.h>

#include <algorithm>

#include "desktop/layout.h"
#include "desktop/rail/paper_column.h"
#include "desktop/service_sheet/imgui_pen.h"
#include "desktop/start/open_job.h"
#include "desktop/style/draw.h"
#include "sealing/sealed_job.h"

namespace voltfall {
namespace {

constexpr float right_column = 380, point_row = 18;

/// Three columns of ten under the diagram.
void draw_points(const std::vector<SheetLine>& points, const Rect& place) {
  constexpr std::size_t column_length = 10;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Rect column = cell_of(place, static_cast<int>(i / column_length), 3, gap_8);
    Rect row{column.x, column.y + point_row * static_cast<float>(i % column_length), column.w, point_row};
    text_in(row.cut_left(20), Type::small_bold, ink::ink, points[i].what, Align::right);
    row.cut_left(gap_8);
    text_in(row, Type::small, ink::ink, points[i].figure);
  }
}

/// Words at left, broken where they have to be, the figure at right on their last line.
void draw_line(PaperColumn& column, const SheetLine& line) {
  const float figure_width = text_width(Type::small_bold, line.figure) + 1;
  const bool beside = text_width(Type::small, line.what) + gap_16 + figure_width <= column.width();
  if (!beside) {
    column.paragraph(Type::small, ink::ink_soft, line.what);
    column.gap(-gap_4);
  }
  const Rect row = column.row(20);
  if (beside) text_in(row, Type::small, ink::ink_soft, line.what);
  text_in(row, Type::small_bold, ink::ink, line.figure, Align::right);
  rule_across(row.x, row.right(), row.bottom() - 1, ink::hairline);
}

void draw_lines(PaperColumn& column, std::string_view title, const std::vector<SheetLine>& lines) {
  if (lines.empty()) return;
  column.heading(title);
  for (const SheetLine& line : lines) draw_line(column, line);
}

void draw_right(const SheetContents& contents, Hands& hands, const Rect& place) {
  PaperColumn column(hands, "service_sheet/column", place);
  column.gap(-gap_8);
  draw_lines(column, "Declared limits", contents.limits);
  draw_lines(column, "Tightening torques", contents.torques);
  draw_lines(column, "As fitted", contents.data);
  column.heading("Cautions");
  for (const std::string& caution : contents.cautions) column.paragraph(Type::small, ink::ink, caution);
}

std::vector<SheetContents> sheets_on_offer(const Wording& words) {
  std::vector<SheetContents> sheets;
  for (const JobOffer& offer : jobs_on_offer()) {
    const ReadScenario read = read_job(offer.file, by_program());
    if (!read.scenario) continue;
    SheetContents sheet = sheet_contents(*read.scenario, words);
    const bool known = std::any_of(sheets.begin(), sheets.end(),
                                   [&](const SheetContents& other) { return other.vehicle == sheet.vehicle; });
    if (!known) sheets.push_back(std::move(sheet));
  }
  return sheets;
}

/// `Wendle Carter pickup 7` of `Wendle Carter pickup, fleet no. 7 (V8, automatic)`.
std::string short_name(std::string_view vehicle) {
  const std::string_view named = vehicle.substr(0, vehicle.find(" ("));
  const std::size_t number = named.rfind(' ');
  return named.find(',') == std::string_view::npos
             ? std::string(named)
             : fmt::format("{}{}", named.substr(0, named.find(',')), named.substr(number));
}

}  // namespace

bool draw_service_sheet(const SheetContents& contents, Hands& hands, const Rect& place) {
  ruled_zone(place);
  Rect inside = place.inset(gap_16, gap_8);
  Rect head = inside.cut_top(36);
  const bool escaped_by_key = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false);
  const bool back = push_key(hands, "service_sheet/back", head.cut_right(120).inset(0, 2), "Back  (Esc)");
  text_in(head.cut_left(140), Type::heading, ink::ink, "Service sheet");
  head.cut_right(gap_16);
  text_in(head, Type::body, ink::ink, contents.vehicle);
  rule_across(inside.x, inside.right(), inside.y, ink::ink);
  inside.cut_top(gap_8);
  const Rect right = inside.cut_right(right_column);
  inside.cut_right(gap_16);
  rule_down(right.x - gap_8, right.y, right.bottom(), ink::hairline);
  Rect points = inside.cut_bottom(10 * point_row + 28);
  text_in(points.cut_top(20), Type::small_bold, ink::ink, "Test points: the numbers on the wires");
  rule_across(points.x, points.right(), points.y, ink::ink);
  points.cut_top(gap_4);
  draw_points(contents.points, points);
  const float scale = std::min(inside.w / diagram_width, (inside.h - gap_8) / diagram_height);
  const float width = scale * diagram_width;
  ImguiPen pen({inside.x + (inside.w - width) / 2, inside.y, width, scale * diagram_height}, diagram_width);
  draw_wiring_diagram(pen, contents.diagram);
  draw_right(contents, hands, right);
  return back || escaped_by_key;
}

ServiceSheetScreen::ServiceSheetScreen(const Wording& words, std::function<std::unique_ptr<Screen>()> before)
    : before_(std::move(before)), sheets_(sheets_on_offer(words)) {
  hands_.focus_on("service_sheet/back");
}

void ServiceSheetScreen::draw_vehicle_keys(Rect row) {
  ruled_zone(row);
  row = row.inset(gap_16, gap_8);
  KeyLook look;
  look.type = Type::small;
  for (std::size_t i = 0; i < sheets_.size(); ++i) {
    look.selected = i == shown_;
    const Rect cell = cell_of(row, static_cast<int>(i), static_cast<int>(sheets_.size()), gap_8);
    const std::string name = short_name(sheets_[i].vehicle);
    if (push_key(hands_, fmt::format("service_sheet/vehicle/{}", i), cell, name, look)) shown_ = i;
  }
}

void ServiceSheetScreen::frame(double /*frame_s*/, ImVec2 window_size) {
  begin_sheet(window_size);
  hands_.begin_frame();
  Rect place = layout_of(window_size.x, window_size.y).sheet;
  if (sheets_.size() > 1) draw_vehicle_keys(place.cut_bottom(48));
  const bool back = sheets_.empty() || draw_service_sheet(sheets_[shown_], hands_, place);
  hands_.end_frame();
  end_sheet();
  if (back) next.emplace(before_());
}

}  // namespace voltfall
