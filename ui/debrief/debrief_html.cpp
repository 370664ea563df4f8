#include <fmt/format.h>

#include "debrief/debrief_report.h"
#include "debrief/fall_drawing.h"
#include "paper/page.h"
#include "service_sheet/svg_pen.h"
#include "wording/wording.h"

namespace voltfall {
namespace {

std::string row_of(const DebriefPoint& point) {
  return fmt::format("<tr><td>{}</td><td><b>{}</b><p class=\"note\">{}</p></td><td class=\"n\">{}</td></tr>\n",
                     point.held ? "&#10003;" : "&#10007;", escaped(point.head), escaped(point.reason),
                     escaped(point.figure));
}

std::string points_of(std::string_view title, const std::vector<DebriefPoint>& points) {
  std::string rows;
  for (const DebriefPoint& point : points) rows += row_of(point);
  return fmt::format("<h2>{}</h2>\n<table>\n{}</table>\n", title, rows);
}

std::string row_of(const DebriefStep& step, std::string_view currency) {
  std::string notes;
  for (const std::string& note : step.notes) notes += fmt::format("<p class=\"note\">{}</p>", escaped(note));
  const std::string money = step.money > 0.0 ? fmt::format("{:.0f} {}", step.money, currency) : "";
  return fmt::format(
      "<tr{}><td class=\"n\">{:.0f}</td><td>{}{}</td><td class=\"n\">{:.1f} min</td><td class=\"n\">{}</td></tr>\n",
      step.telling ? " class=\"telling\"" : "", step.at_minute, escaped(step.what), notes, step.minutes,
      escaped(money));
}

std::string steps_of(std::string_view title, const std::vector<DebriefStep>& steps, std::string_view sum,
                     std::string_view currency) {
  std::string rows;
  for (const DebriefStep& step : steps) rows += row_of(step, currency);
  return fmt::format("<h2>{}</h2>\n<table>\n{}</table>\n<p><b>{}</b></p>\n", title, rows, escaped(sum));
}

std::string list_of(const std::vector<std::string>& items, std::string_view tag, std::string_view look = "") {
  std::string lines;
  for (const std::string& item : items) lines += fmt::format("<li>{}</li>\n", escaped(item));
  return fmt::format("<{0} class=\"{1}\">\n{2}</{0}>\n", tag, look, lines);
}

std::string suspects_of(const DebriefContents& contents) {
  std::string lists;
  for (const DebriefList& list : contents.suspects) {
    lists += fmt::format("<h3>{}</h3>\n{}", escaped(list.heading), list_of(list.names, "ul", "names"));
  }
  return fmt::format("<h2>Suspects</h2>\n<p>{}</p>\n{}", escaped(contents.suspects_sum), lists);
}

std::string falls_of(const FallComparison& falls) {
  SvgPen pen(fall_drawing_width, fall_drawing_height);
  draw_falls(pen, falls);
  return fmt::format(
      "<h2>How the volts fell while cranking</h2>\n{}<table>\n<tr><td>dotted, as it should</td><td>{}</td></tr>\n"
      "<tr><td>heavy, as found</td><td>{}</td></tr>\n<tr><td>brown, handed back</td><td>{}</td></tr>\n</table>\n",
      pen.element(), fall_text(falls.healthy), fall_text(falls.found), fall_text(falls.handed_back));
}

std::string check_of(const DebriefContents& contents) {
  std::string rows;
  for (const CheckRow& row : contents.check_rows) {
    rows += fmt::format("<tr><td>{}</td><td>{}</td><td></td><td></td></tr>\n", escaped(row.what), escaped(row.limit));
  }
  const Wording& words = english();
  return fmt::format(
      "<section class=\"check\">\n<h2>{}</h2>\n<p><b>{}</b></p>\n{}<table>\n<tr><th>Reading</th><th>Limit</th>"
      "<th>Read</th><th>Amperes</th></tr>\n{}</table>\n<h3>Cautions</h3>\n{}"
      "<p>Vehicle ____________________ Date __________ Name ____________________ Supervisor ____________________</p>\n"
      "</section>\n",
      escaped(words.text("debrief.check_title")), escaped(words.text("debrief.check_first")),
      list_of(contents.check_steps, "ol"), rows, list_of(contents.cautions, "ul", "note"));
}

std::string paragraphs(const std::vector<std::string>& all) {
  std::string written;
  for (const std::string& one : all) written += fmt::format("<p>{}</p>\n", escaped(one));
  return written;
}

}  // namespace

std::string_view debrief_style() {
  return ".telling>td:first-child{border-left:3pt solid;padding-left:6pt}"
         ".check{break-before:page}.check td{height:7mm}.names{columns:2;column-gap:10mm}";
}

std::string debrief_body(const DebriefContents& contents) {
  std::string body = fmt::format("<p>{}</p>\n<h2>{}</h2>\n", escaped(contents.vehicle), escaped(contents.verdict));
  body += paragraphs(contents.what_it_was);
  body += points_of("A pass is all four of these and 70 points", contents.gates);
  body += points_of("Points", contents.points);
  body += "<h2>Safety</h2>\n" + paragraphs(contents.safety);
  body += steps_of("What you did", contents.timeline, contents.timeline_sum, contents.currency);
  body += steps_of("Par: the cheapest sound order of work", contents.par, contents.par_sum, contents.currency);
  body += suspects_of(contents) + falls_of(contents.falls);
  if (!contents.author.empty()) body += "<h2>From the author of this job</h2>\n" + paragraphs({contents.author});
  return body;
}

std::string debrief_as_html(const DebriefContents& contents) {
  const std::string title = "Debrief: " + contents.title;
  return html_page(title, debrief_style(),
                   fmt::format("<h1>{}</h1>\n", escaped(title)) + debrief_body(contents) + check_of(contents));
}

}  // namespace voltfall
