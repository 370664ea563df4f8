#include "desktop/desk/desk_pages.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "desktop/rail/paper_column.h"
#include "vetting_report/vet_report_text.h"
#include "wording/filled.h"
#include "wording/question_words.h"

namespace voltfall {
namespace {

constexpr float row_height = 22;

void draw_cells(const Rect& row, std::span<const float> shares, std::span<const std::string> cells, Type type) {
  Rect rest = row;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const Rect cell = rest.cut_left(row.w * shares[i]);
    text_in(cell.inset(2, 0), type, ink::ink, cells[i], i == 0 ? Align::left : Align::right);
  }
  rule_across(row.x, row.right(), row.bottom() - 1, ink::hairline);
}

void draw_findings(const VetReport& report, const Wording& words, PaperColumn& column) {
  for (const VetRemark& remark : report.remarks) {
    column.paragraph(Type::body_bold, remark.unsound ? ink::danger : ink::ink,
                     words.text(remark.unsound ? "desk.mend" : "desk.consider"));
    column.paragraph(Type::body, ink::ink, remark.text);
    column.gap(gap_8);
  }
  column.heading(words.text("vet.heard"));
  column.paragraph(Type::body, ink::ink,
                   filled(words, "vet.key_alone", fmt::arg("heard", heard_text(report.key_alone.faulty, words))));
  column.paragraph(Type::body, ink::ink,
                   filled(words, "vet.with_lamps", fmt::arg("heard", heard_text(report.with_lamps.faulty, words))));
  if (report.signs.empty()) return;
  column.gap(gap_8);
  column.heading(words.text("vet.signs"));
  for (const VetSign& sign : report.signs) {
    column.paragraph(Type::body, ink::ink,
                     fmt::format("{}: {}", question_in_words(sign.question, words),
                                 answer_words(sign.question, sign.answer, words)));
  }
}

void draw_readings(const VetReport& report, const Wording& words, PaperColumn& column) {
  constexpr std::array shares{0.49F, 0.11F, 0.11F, 0.16F, 0.08F, 0.05F};
  const std::array<std::string, 6> head{"Reading", "sound", "this one", "limit", "margin", "left"};
  draw_cells(column.row(row_height), shares, head, Type::small_bold);
  for (const VetReading* reading : readings_worth_showing(report)) {
    const std::array<std::string, 6> cells{question_in_words(reading->question, words),
                                           figure_with_unit(reading->question, reading->healthy),
                                           figure_with_unit(reading->question, reading->faulty),
                                           limit_text(reading->question, reading->limit),
                                           reading->margin > 0.0 ? fmt::format("{:.0f}x", reading->margin) : "",
                                           left_text(*reading)};
    draw_cells(column.row(row_height), shares, cells, reading->shows_fault ? Type::small_bold : Type::small);
  }
  column.gap(gap_8);
  column.paragraph(Type::small, ink::ink_soft, words.text("desk.readings_about"));
}

void draw_points(const VetReport& report, const Wording& words, PaperColumn& column) {
  constexpr std::array shares{0.40F, 0.15F, 0.15F, 0.15F, 0.15F};
  const std::array<std::string, 5> head{"V against battery -", "rest, sound", "rest, this", "crank, sound",
                                        "crank, this"};
  draw_cells(column.row(row_height), shares, head, Type::small_bold);
  for (const VetPoint& point : report.points) {
    const auto volts = [](double value) { return fmt::format("{:.2f}", value); };
    const std::array<std::string, 5> cells{fmt::format("{}  {}", number_of(point.point), words.point(point.point)),
                                           volts(point.rest_healthy_V), volts(point.rest_faulty_V),
                                           volts(point.cranking_healthy_V), volts(point.cranking_faulty_V)};
    constexpr double far_V = 0.1;
    const bool differs = std::abs(point.cranking_healthy_V - point.cranking_faulty_V) > far_V ||
                         std::abs(point.rest_healthy_V - point.rest_faulty_V) > far_V;
    draw_cells(column.row(row_height), shares, cells, differs ? Type::small_bold : Type::small);
  }
}

void draw_line(const std::vector<float>& samples, float highest, const Rect& lane, ImU32 colour, float width) {
  if (samples.size() < 2) return;
  std::vector<ImVec2> spots;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    const float along = static_cast<float>(i) / static_cast<float>(samples.size() - 1);
    spots.push_back({lane.x + lane.w * along, lane.bottom() - lane.h * std::clamp(samples[i] / highest, 0.0F, 1.0F)});
  }
  sheet().AddPolyline(spots.data(), static_cast<int>(spots.size()), colour, 0, width);
}

void draw_lane(std::string_view name, const std::vector<float>& sound, const std::vector<float>& faulty, Rect lane) {
  float highest = 1.0F;
  for (const auto* samples : {&sound, &faulty}) {
    for (const float value : *samples) highest = std::max(highest, value);
  }
  text_in(lane.cut_top(20), Type::small_bold, ink::ink, name);
  text_in({lane.right() - 120, lane.y - 20, 120, 20}, Type::small, ink::ink_soft, fmt::format("0 to {:.0f}", highest),
          Align::right);
  lane.cut_bottom(gap_8);
  sheet().AddRect(lane.min(), lane.max(), ink::hairline);
  draw_line(sound, highest, lane, ink::copper, 1.5F);
  draw_line(faulty, highest, lane, ink::ink, 2.5F);
}

void draw_traces(const VetReport& report, const Wording& words, Rect place) {
  text_in(place.cut_bottom(20), Type::small, ink::ink_soft, words.text("desk.trace_about"));
  const float height = place.h / 4;
  const VetTrace &sound = report.healthy_trace, &faulty = report.faulty_trace;
  draw_lane("battery posts, V", sound.posts_V, faulty.posts_V, place.cut_top(height));
  draw_lane("starter, V", sound.starter_V, faulty.starter_V, place.cut_top(height));
  draw_lane("loop current, A", sound.loop_A, faulty.loop_A, place.cut_top(height));
  draw_lane("crankshaft, rpm", sound.crank_rpm, faulty.crank_rpm, place.cut_top(height));
}

void draw_par(const VetReport& report, const Wording& words, PaperColumn& column) {
  column.heading(filled(words, "vet.par", fmt::arg("minutes", fmt::format("{:.0f}", report.par_minutes))));
  double at_minute = 0.0;
  for (const VetStep& step : report.par) {
    const std::string text = vet_step_text(step, words);
    Rect row = column.row(wrapped_height(Type::body, text, column.width() - 120) + gap_4);
    rule_across(row.x, row.right(), row.bottom() - 1, ink::hairline);
    const float height = line_height(Type::body);
    text_in({row.x, row.y, 48, height}, Type::figures_small, ink::ink_soft, fmt::format("{:.0f} min", at_minute),
            Align::right);
    if (step.question) {
      text_in({row.right() - 56, row.y, 56, height}, Type::figures_small, ink::ink_soft,
              fmt::format("{:.0f} %", 100.0 * step.truth_share), Align::right);
    }
    wrapped_text({row.x + 56, row.y}, column.width() - 120, Type::body, ink::ink, text);
    at_minute += step.minutes;
  }
}

}  // namespace

void draw_source(const DeskWatch& watch, Hands& hands, const Rect& place) {
  PaperColumn column(hands, "desk/source", place);
  for (const Problem& problem : watch.problems()) {
    if (problem.line == 0) column.paragraph(Type::small_bold, ink::danger, problem.what);
  }
  constexpr float number_width = 32;
  for (std::size_t i = 0; i < watch.lines().size(); ++i) {
    const std::string& line = watch.lines()[i];
    const float width = column.width() - number_width - gap_8;
    const float height = std::max(line_height(Type::small), wrapped_height(Type::small, line, width));
    const Rect row = column.row(height + 1);
    text_in({row.x, row.y, number_width - gap_4, line_height(Type::small)}, Type::figures_small, ink::ink_soft,
            fmt::format("{}", i + 1), Align::right);
    const bool remark = line.starts_with("#");
    wrapped_text({row.x + number_width, row.y}, width, Type::small, remark ? ink::ink_soft : ink::ink, line);
    for (const Problem& problem : watch.problems()) {
      if (problem.line != static_cast<int>(i) + 1) continue;
      sheet().AddRectFilled(row.min(), {row.x + 3, row.bottom()}, ink::danger);
      column.paragraph(Type::small_bold, ink::danger, problem.what);
    }
  }
}

void draw_mistakes(const DeskWatch& watch, const Wording& words, Hands& hands, const Rect& place) {
  PaperColumn column(hands, "desk/mistakes", place);
  column.heading(words.text("desk.mend"));
  for (const Problem& problem : watch.problems()) {
    const std::string line = problem.line > 0 ? fmt::format("{}: ", problem.line) : std::string();
    column.paragraph(Type::body, ink::ink, line + problem.what);
    column.gap(gap_8);
  }
}

void draw_desk_page(DeskPage page, const VetReport& report, const Wording& words, Hands& hands, const Rect& place) {
  if (page == DeskPage::trace) return draw_traces(report, words, place);
  PaperColumn column(hands, "desk/page", place);
  if (page == DeskPage::findings) return draw_findings(report, words, column);
  if (page == DeskPage::points) return draw_points(report, words, column);
  if (page == DeskPage::readings) return draw_readings(report, words, column);
  if (!report.complete) return column.paragraph(Type::body, ink::ink_soft, words.text("desk.not_yet"));
  draw_par(report, words, column);
}

}  // namespace voltfall
