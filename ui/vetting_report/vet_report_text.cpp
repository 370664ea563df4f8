#include "vetting_report/vet_report_text.h"

#include <fmt/format.h>

#include <algorithm>

#include "wording/filled.h"
#include "wording/question_words.h"

namespace voltfall {
namespace {

constexpr std::size_t most_readings = 12;

std::string_view unit_of(const Question& question) {
  using enum Finding::Kind;
  switch (question.kind) {
    case volts:
    case load_volts:
      return "V";
    case ohms:
      return "ohm";
    case amps:
      return "A";
    case speed:
      return "rpm";
    case temperature:
      return "K";
    case bench:
      return question.about == "clutch_torque" ? "N·m" : question.about == "brush_length" ? "mm" : "ohm";
    default:
      return "";
  }
}

std::string remarks_of(const VetReport& report) {
  std::string text;
  for (const VetRemark& remark : report.remarks) {
    text += fmt::format("  {}: {}\n", remark.unsound ? "unsound" : "consider", remark.text);
  }
  return text;
}

bool is_repeated(const VetReading& reading, const VetReport& report) {
  if (reading.question.condition != Condition::cranking_lamps) return false;
  Question without = reading.question;
  without.condition = Condition::cranking;
  return std::any_of(report.readings.begin(), report.readings.end(),
                     [&](const VetReading& other) { return other.question == without; });
}

std::string row_of(const VetReading& reading, std::size_t width, const Wording& words) {
  const std::string margin = reading.margin > 0.0 ? fmt::format("{:.1f}x", reading.margin) : "-";
  return fmt::format("  {:<{}} {:>10} {:>10}  {:<18} {:>7} {:>4}{}\n", question_in_words(reading.question, words),
                     width, figure_with_unit(reading.question, reading.healthy),
                     figure_with_unit(reading.question, reading.faulty), limit_text(reading.question, reading.limit),
                     margin, left_text(reading), reading.shows_fault ? "  " + filled(words, "vet.shows_it") : "");
}

std::string readings_of(const VetReport& report, const Wording& words) {
  const std::vector<const VetReading*> shown = readings_worth_showing(report);
  const std::size_t rows = std::min(most_readings, shown.size());
  std::size_t width = 0;
  for (std::size_t i = 0; i < rows; ++i) width = std::max(width, question_in_words(shown[i]->question, words).size());
  std::string text;
  for (std::size_t i = 0; i < rows; ++i) text += row_of(*shown[i], width, words);
  if (shown.size() <= rows) return text;
  return text + fmt::format("  {}\n", filled(words, "vet.more", fmt::arg("more", shown.size() - rows)));
}

std::string signs_of(const VetReport& report, const Wording& words) {
  std::string text;
  for (const VetSign& sign : report.signs) {
    text += fmt::format("  {}: {}\n", question_in_words(sign.question, words),
                        answer_words(sign.question, sign.answer, words));
  }
  return text;
}

std::string par_of(const VetReport& report, const Wording& words) {
  std::string text;
  double at_minute = 0.0;
  for (const VetStep& step : report.par) {
    text += fmt::format("  {:>5.1f} min  {}{}\n", at_minute, vet_step_text(step, words),
                        step.question ? fmt::format("  ({:.0f} % sure)", 100.0 * step.truth_share) : "");
    at_minute += step.minutes;
  }
  return text;
}

std::string part(const Wording& words, std::string_view heading, const std::string& lines) {
  return lines.empty() ? std::string() : fmt::format("{}\n{}", words.text(heading), lines);
}

}  // namespace

std::string figure_with_unit(const Question& question, double figure) {
  const std::string_view unit = unit_of(question);
  if (unit == "V" && question.kind == Finding::Kind::volts) return volts_display(figure).text_with_unit();
  const int decimals = figure >= 100.0 ? 0 : figure >= 10.0 ? 1 : question.kind == Finding::Kind::gravity ? 3 : 2;
  return fmt::format("{:.{}f}{}{}", figure, decimals, unit.empty() ? "" : " ", unit);
}

std::vector<const VetReading*> readings_worth_showing(const VetReport& report) {
  std::vector<const VetReading*> shown;
  for (const VetReading& reading : report.readings) {
    if (!is_repeated(reading, report)) shown.push_back(&reading);
  }
  return shown;
}

std::string limit_text(const Question& question, const Expected& limit) {
  const std::string_view unit = unit_of(question), space = unit.empty() ? "" : " ";
  if (limit.lowest > 0.0 && limit.highest > 0.0) {
    return fmt::format("{:.4g} to {:.4g}{}{}", limit.lowest, limit.highest, space, unit);
  }
  if (limit.lowest > 0.0) return fmt::format("at least {:.4g}{}{}", limit.lowest, space, unit);
  return fmt::format("at most {:.4g}{}{}", limit.highest, space, unit);
}

std::string left_text(const VetReading& reading) {
  return reading.left ? fmt::format("{}", *reading.left) : "...";
}

std::string vet_step_text(const VetStep& step, const Wording& words) {
  if (step.question) {
    return filled(words, "debrief.par_test", fmt::arg("test", question_in_words(*step.question, words)),
                  fmt::arg("answer", answer_words(*step.question, step.answer, words)));
  }
  if (step.repairs.empty()) return filled(words, "debrief.par_sound");
  std::string repairs;
  for (const std::string& id : step.repairs) repairs += (repairs.empty() ? "" : ", ") + std::string(words.repair(id));
  return filled(words, "debrief.par_repair", fmt::arg("repair", repairs));
}

std::string heard_text(const std::vector<std::string>& observations, const Wording& words) {
  std::string text;
  for (const std::string& id : observations) text += (text.empty() ? "" : ", ") + std::string(words.observation(id));
  return text.empty() ? filled(words, "vet.nothing_heard") : text;
}

std::string vet_report_as_text(const VetReport& report, const Wording& words) {
  std::string text = fmt::format("{}: {} ({})\n{}", words.text(report.sound() ? "vet.sound" : "vet.unsound"), report.id,
                                 report.title, remarks_of(report));
  text += fmt::format("{}\n  {}\n  {}\n", words.text("vet.heard"),
                      filled(words, "vet.key_alone", fmt::arg("heard", heard_text(report.key_alone.faulty, words))),
                      filled(words, "vet.with_lamps", fmt::arg("heard", heard_text(report.with_lamps.faulty, words))));
  text += part(words, "vet.readings", readings_of(report, words));
  text += part(words, "vet.signs", signs_of(report, words));
  text +=
      fmt::format("{}\n{}\n", filled(words, "vet.par", fmt::arg("minutes", fmt::format("{:.0f}", report.par_minutes))),
                  par_of(report, words));
  return text;
}

}  // namespace voltfall
