#include <fmt/format.h>

#include "paper/page.h"
#include "service_sheet/sheet_contents.h"
#include "service_sheet/svg_pen.h"

namespace voltfall {
namespace {

constexpr std::string_view style =
    "section{break-inside:avoid}.points{columns:2;column-gap:10mm}"
    ".row{display:flex;justify-content:space-between;gap:6mm;border-bottom:.3pt solid #bbb;break-inside:avoid}"
    ".points .row{justify-content:flex-start}.points b{min-width:7mm;text-align:right}"
    "li{margin:1pt 0}";

std::string rows_of(const std::vector<SheetLine>& lines) {
  std::string rows;
  for (const SheetLine& line : lines) {
    rows += fmt::format("<div class=\"row\"><span>{}</span><span>{}</span></div>\n", escaped(line.what),
                        escaped(line.figure));
  }
  return rows;
}

std::string section_of(std::string_view title, const std::vector<SheetLine>& lines) {
  if (lines.empty()) return "";
  return fmt::format("<section><h2>{}</h2>\n{}</section>\n", title, rows_of(lines));
}

std::string points_of(const std::vector<SheetLine>& points) {
  std::string rows;
  for (const SheetLine& point : points) {
    rows += fmt::format("<div class=\"row\"><b>{}</b><span>{}</span></div>\n", point.what, escaped(point.figure));
  }
  return fmt::format("<section><h2>Test points</h2>\n<div class=\"points\">\n{}</div></section>\n", rows);
}

std::string diagram_of(const DiagramOptions& options) {
  SvgPen pen(diagram_width, diagram_height);
  draw_wiring_diagram(pen, options);
  return pen.element();
}

}  // namespace

std::string sheet_as_html(const SheetContents& contents) {
  std::string cautions;
  for (const std::string& caution : contents.cautions) cautions += fmt::format("<li>{}</li>\n", escaped(caution));
  return html_page(
      "Service sheet: " + contents.vehicle, style,
      fmt::format("<h1>Service sheet</h1>\n<p>{}. Numbers on the wires are the test points.</p>\n{}{}{}{}{}"
                  "<section><h2>Cautions</h2>\n<ul>\n{}</ul></section>\n",
                  escaped(contents.vehicle), diagram_of(contents.diagram), points_of(contents.points),
                  section_of("Declared limits", contents.limits), section_of("Tightening torques", contents.torques),
                  section_of("As fitted", contents.data), cautions));
}

}  // namespace voltfall
