#include "key_sheet/key_sheet.h"

#include <fmt/format.h>

#include "debrief/fall_drawing.h"
#include "paper/page.h"
#include "service_sheet/svg_pen.h"
#include "vetting_report/vet_report_text.h"
#include "wording/filled.h"
#include "wording/question_words.h"

namespace voltfall {
namespace {

constexpr std::string_view style =
    ".job{break-inside:avoid}.code{font-family:'B612 Mono',monospace;white-space:nowrap}.name{width:34mm}"
    "td.plan{padding-left:4mm}";
constexpr std::size_t most_proofs = 3;

std::string row_of(const DealtJob& job, const Wording& words) {
  return fmt::format(
      "<tr><td class=\"code\">{}</td><td class=\"name\"></td><td>{}</td><td>{}</td><td class=\"n\">{:.0f}</td></tr>\n",
      escaped(job.code), escaped(job.scenario.title), escaped(faults_in_words(job.scenario.faults, words)),
      job.report.par_minutes);
}

std::string table_of(const Deal& deal, const Wording& words) {
  std::string rows;
  for (const DealtJob& job : deal.jobs) rows += row_of(job, words);
  return fmt::format(
      "<table>\n<tr><th>Code</th><th class=\"name\">Name</th><th>Work order</th><th>What is wrong</th><th "
      "class=\"n\">Par, "
      "min</th></tr>\n{}</table>\n",
      rows);
}

std::string plan_of(const VetReport& report, const Wording& words) {
  std::string rows;
  double at_minute = 0.0;
  for (const VetStep& step : report.par) {
    rows += fmt::format("<tr><td class=\"n\">{:.0f} min</td><td class=\"plan\">{}</td></tr>\n", at_minute,
                        escaped(vet_step_text(step, words)));
    at_minute += step.minutes;
  }
  return fmt::format("<h3>{}</h3>\n<table>\n{}</table>\n", words.text("key_sheet.plan"), rows);
}

std::string proofs_of(const VetReport& report, const Wording& words) {
  std::string rows;
  std::size_t shown = 0;
  for (const VetReading& reading : report.readings) {
    if (!reading.shows_fault || shown++ >= most_proofs) continue;
    rows += fmt::format(
        "<tr><td>{}</td><td class=\"n\">{}</td><td class=\"n\">{}</td><td>{}</td></tr>\n",
        escaped(question_in_words(reading.question, words)), figure_with_unit(reading.question, reading.healthy),
        figure_with_unit(reading.question, reading.faulty), limit_text(reading.question, reading.limit));
  }
  for (const VetSign& sign : report.signs) {
    if (shown++ >= most_proofs) break;
    rows += fmt::format("<tr><td>{}</td><td></td><td>{}</td><td></td></tr>\n",
                        escaped(question_in_words(sign.question, words)),
                        escaped(answer_words(sign.question, sign.answer, words)));
  }
  return fmt::format(
      "<h3>{}</h3>\n<table>\n<tr><th></th><th class=\"n\">sound</th><th class=\"n\">this "
      "one</th><th></th></tr>\n{}</table>\n",
      words.text("key_sheet.proofs"), rows);
}

std::string fall_of(const Scenario& scenario, const Wording& words) {
  SvgPen pen(fall_drawing_width, fall_drawing_height);
  const SettledFall sound = settled_fall(scenario.healthy, scenario.rest);
  draw_falls(pen, {sound, settled_fall(scenario.faulty(), scenario.rest), sound});
  return fmt::format("<h3>{}</h3>\n{}", words.text("key_sheet.fall"), pen.element());
}

std::string job_of(const DealtJob& job, const Wording& words) {
  return fmt::format(
      "<section class=\"job\"><h2><span class=\"code\">{}</span> {}</h2>\n<p>{}</p>\n<p>{}</p>\n{}{}{}</section>\n",
      escaped(job.code), escaped(job.scenario.title), escaped(faults_in_words(job.scenario.faults, words)),
      escaped(filled(words, "key_sheet.heard", fmt::arg("heard", heard_text(job.report.key_alone.faulty, words)))),
      proofs_of(job.report, words), plan_of(job.report, words), fall_of(job.scenario, words));
}

}  // namespace

std::string faults_in_words(const std::vector<HiddenFault>& faults, const Wording& words) {
  std::string text;
  for (const HiddenFault& hidden : faults) {
    const Fault* fault = fault_named(hidden.id);
    text += fmt::format("{}{}", text.empty() ? "" : "; ", words.fault(hidden.id));
    if (fault->has_degrees()) text += fmt::format(", {:.3g} {}", hidden.severity, fault->unit);
    if (hidden.when != When::always) {
      text += fmt::format(", {}", all_when_ids()[static_cast<std::size_t>(hidden.when)]);
    }
  }
  return text.empty() ? std::string(words.fault("nothing_found")) : text;
}

std::string debrief_for(const std::vector<HiddenFault>& faults, const Wording& words) {
  std::string text;
  for (const HiddenFault& hidden : faults) {
    const Fault& fault = *fault_named(hidden.id);
    text += filled(words, "key_sheet.debrief", fmt::arg("found", words.found(hidden.id)),
                   fmt::arg("repair", words.repair(fault.repair)));
  }
  return text;
}

std::string key_sheet_as_html(const Deal& deal, std::uint64_t seed, const Wording& words) {
  std::string body =
      fmt::format("<h1>{}</h1>\n<p>{}</p>\n{}", words.text("key_sheet.title"),
                  escaped(filled(words, "key_sheet.about", fmt::arg("count", deal.jobs.size()), fmt::arg("seed", seed),
                                 fmt::arg("band", std::lround(100.0 * par_band)))),
                  table_of(deal, words));
  for (const DealtJob& job : deal.jobs) body += job_of(job, words);
  return html_page(words.text("key_sheet.title"), style, body);
}

}  // namespace voltfall
