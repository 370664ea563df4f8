#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "debrief/debrief_report.h"
#include "paper/page.h"
#include "service_sheet/svg_pen.h"
#include "tally/tally_report.h"
#include "wording/filled.h"

namespace voltfall {
namespace {

constexpr std::string_view style =
    ".pupil{break-before:page}.eye{border:1.5pt solid;padding:4pt 8pt;margin:6pt 0}.code{font-family:'B612 Mono',"
    "monospace;white-space:nowrap}.name{min-width:30mm}.wide{overflow-wrap:anywhere}.bar{display:inline-block;height:"
    "7pt;"
    "background:#1f2a32}.way{display:inline-block;width:40mm;border:.7pt solid #1f2a32}"
    ".debrief{border-top:1.5pt solid;margin-top:8pt}";

std::string heading(const Wording& words, std::string_view path) {
  return fmt::format("<h2>{}</h2>\n", escaped(words.text(path)));
}

std::string result_text(const TallyRecord& record, const Wording& words) {
  if (record.verdict == MarkVerdict::refused) return std::string(words.text("tally.refused"));
  if (record.verdict == MarkVerdict::for_a_person) return std::string(words.text("tally.for_a_person"));
  if (!record.closed) return std::string(words.text("tally.open"));
  return fmt::format("{:.1f} {}", record.total, words.text(record.passed ? "tally.passed" : "tally.not_passed"));
}

/// What no machine should decide, before anything else.
std::string eye_of(const TallyContents& contents, const Wording& words) {
  std::string rows;
  for (const TallyRecord& record : contents.records) {
    if (record.verdict == MarkVerdict::counted) continue;
    std::string reasons;
    for (const std::string& reason : record.reasons)
      reasons += fmt::format("<p class=\"note wide\">{}</p>", escaped(reason));
    rows += fmt::format("<tr><td class=\"wide\"><b>{}</b></td><td>{}{}</td></tr>\n", escaped(record.file),
                        escaped(result_text(record, words)), reasons);
  }
  if (rows.empty()) return fmt::format("<p>{}</p>\n", escaped(words.text("tally.nothing_for_your_eye")));
  return fmt::format("<section class=\"eye\"><h2>{}</h2>\n<table>\n{}</table></section>\n",
                     escaped(words.text("tally.for_your_eye")), rows);
}

std::string reach_of(const Reach& reach, const Wording& words) {
  return fmt::format(
      "<p>{}</p>\n",
      escaped(filled(words, reach.enough() ? "tally.reach_enough" : "tally.reach", fmt::arg("jobs", reach.jobs),
                     fmt::arg("classes", reach.fault_classes), fmt::arg("vehicles", reach.vehicles),
                     fmt::arg("jobs_asked", Reach::jobs_asked), fmt::arg("classes_asked", Reach::fault_classes_asked),
                     fmt::arg("vehicles_asked", Reach::vehicles_asked))));
}

/// The first attempt of a pupil at a job, if it was handed in.
const TallyRecord* first_of(const TallyContents& contents, const std::string& pupil, const std::string& job) {
  const auto found = std::find_if(contents.records.begin(), contents.records.end(), [&](const TallyRecord& record) {
    return record.pupil == pupil && record.job == job && record.attempt == 1 && record.verdict != MarkVerdict::refused;
  });
  return found == contents.records.end() ? nullptr : &*found;
}

std::string title_of(const TallyContents& contents, const std::string& job) {
  const auto found = std::find_if(contents.records.begin(), contents.records.end(), [&](const TallyRecord& record) {
    return record.job == job && !record.title.empty();
  });
  return found == contents.records.end() ? job : found->title;
}

std::string class_table(const TallyContents& contents, const Wording& words) {
  std::string head =
      fmt::format("<tr><th>{}</th><th class=\"name\">{}</th>", words.text("tally.code"), words.text("tally.name"));
  for (const std::string& job : contents.jobs) head += fmt::format("<th>{}</th>", escaped(title_of(contents, job)));
  std::string rows;
  for (const std::string& pupil : contents.pupils) {
    rows += fmt::format("<tr><td class=\"code\">{}</td><td></td>", escaped(pupil));
    for (const std::string& job : contents.jobs) {
      const TallyRecord* record = first_of(contents, pupil, job);
      rows += fmt::format("<td>{}</td>", record != nullptr ? escaped(result_text(*record, words)) : "");
    }
    rows += "</tr>\n";
  }
  return fmt::format("{}<p class=\"note\">{}</p><table>\n{}</tr>\n{}</table>\n", heading(words, "tally.class"),
                     escaped(words.text("tally.class_about")), head, rows);
}

std::string bar_of(double share) {
  return fmt::format("<span class=\"way\"><span class=\"bar\" style=\"width:{:.0f}%\"></span></span>",
                     100.0 * std::clamp(share, 0.0, 1.0));
}

std::string parts_of(const TallyContents& contents, const Wording& words) {
  std::string rows;
  for (const TallyPart& part : contents.mean_parts) {
    rows += fmt::format("<tr><td>{}</td><td class=\"n\">{:.1f} of {:.0f}</td><td>{}</td></tr>\n",
                        escaped(words.score_part(part.part)), part.points, part.out_of,
                        bar_of(part.out_of > 0.0 ? part.points / part.out_of : 0.0));
  }
  return rows.empty() ? "" : fmt::format("{}<table>\n{}</table>\n", heading(words, "tally.parts"), rows);
}

std::string concepts_of(const TallyContents& contents, const Wording& words) {
  std::string rows;
  for (std::size_t i = 0; i < concept_count; ++i) {
    const Tallied& tallied = contents.concepts[i];
    const std::string path = "tally.concept." + std::string(id_of(static_cast<Concept>(i)));
    const double share = tallied.of > 0 ? static_cast<double>(tallied.held) / tallied.of : 0.0;
    rows += fmt::format("<tr><td>{}</td><td class=\"n\">{} of {}</td><td>{}</td></tr>\n", escaped(words.text(path)),
                        tallied.held, tallied.of, bar_of(share));
  }
  return fmt::format("{}<table>\n{}</table>\n", heading(words, "tally.concepts"), rows);
}

std::string wrong_calls_of(const TallyContents& contents, const Wording& words) {
  std::string rows;
  for (const WrongCall& call : contents.wrong_calls) {
    rows += fmt::format("<tr><td class=\"n\">{}</td><td>{}</td><td>{}</td></tr>\n", call.times, escaped(call.named),
                        escaped(call.was));
  }
  if (rows.empty())
    return fmt::format("{}<p>{}</p>\n", heading(words, "tally.wrong_calls"), words.text("tally.no_wrong_calls"));
  return fmt::format("{}<table>\n<tr><th class=\"n\">{}</th><th>{}</th><th>{}</th></tr>\n{}</table>\n",
                     heading(words, "tally.wrong_calls"), words.text("tally.times"), words.text("tally.named"),
                     words.text("tally.was"), rows);
}

std::string dear_tests_of(const TallyContents& contents, const Wording& words) {
  std::string rows;
  for (const DearTest& test : contents.dear_tests) {
    rows += fmt::format("<tr><td>{}</td><td class=\"n\">{}</td><td class=\"n\">{:.0f} min</td></tr>\n",
                        escaped(test.test), test.times, test.minutes);
  }
  if (rows.empty()) return "";
  return fmt::format(
      "{}<p class=\"note\">{}</p><table>\n<tr><th></th><th class=\"n\">{}</th><th "
      "class=\"n\">{}</th></tr>\n{}</table>\n",
      heading(words, "tally.dear_tests"), escaped(words.text("tally.dear_tests_about")), words.text("tally.times"),
      words.text("tally.cost"), rows);
}

std::string record_row(const TallyRecord& record, const Wording& words) {
  return fmt::format(
      "<tr><td>{}</td><td class=\"n\">{}</td><td>{}</td><td class=\"n\">{:.0f} min</td><td>{}</td><td>{}</td></tr>\n",
      escaped(record.title.empty() ? record.job : record.title), record.attempt, escaped(result_text(record, words)),
      record.minutes, escaped(record.named), escaped(record.was));
}

std::string pupil_of(const TallyContents& contents, const std::string& pupil, const Wording& words) {
  std::string rows, debriefs;
  int passed = 0;
  for (const TallyRecord& record : contents.records) {
    if (record.pupil != pupil || record.verdict == MarkVerdict::refused) continue;
    rows += record_row(record, words);
    if (record.first_attempt_counts && record.passed) ++passed;
    if (record.debrief) {
      debriefs += fmt::format("<section class=\"debrief\"><h2>{}</h2>\n{}</section>\n", escaped(record.debrief->title),
                              debrief_body(*record.debrief));
    }
  }
  return fmt::format(
      "<section class=\"pupil\"><h1><span class=\"code\">{}</span> "
      "____________________</h1>\n<p>{}</p>\n<table>\n<tr><th>{}</th>"
      "<th class=\"n\">{}</th><th>{}</th><th class=\"n\"></th><th>{}</th><th>{}</th></tr>\n{}</table>\n{}</section>\n",
      escaped(pupil), escaped(filled(words, "tally.passed_these", fmt::arg("count", passed))), words.text("tally.job"),
      words.text("tally.attempt"), words.text("tally.result"), words.text("tally.named"), words.text("tally.was"), rows,
      debriefs);
}

}  // namespace

std::string tally_as_html(const TallyContents& contents, const Wording& words) {
  std::string body = fmt::format("<h1>{}</h1>\n<p>{}</p>\n", words.text("tally.title"),
                                 escaped(filled(words, "tally.about", fmt::arg("records", contents.records.size()),
                                                fmt::arg("pupils", contents.pupils.size()))));
  body += eye_of(contents, words) + reach_of(contents.reach, words) + class_table(contents, words);
  body += parts_of(contents, words) + concepts_of(contents, words) + wrong_calls_of(contents, words);
  body += dear_tests_of(contents, words);
  for (const std::string& pupil : contents.pupils) body += pupil_of(contents, pupil, words);
  return html_page(words.text("tally.title"), std::string(debrief_style()) + std::string(style), body);
}

}  // namespace voltfall
