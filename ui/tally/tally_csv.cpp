#include <fmt/format.h>

#include "tally/tally_report.h"

namespace voltfall {
namespace {

std::string_view verdict_id(MarkVerdict verdict) {
  switch (verdict) {
    case MarkVerdict::counted:
      return "counted";
    case MarkVerdict::for_a_person:
      return "for_a_person";
    case MarkVerdict::refused:
      return "refused";
  }
  return "";
}

/// RFC 4180: quoted, quotes doubled. A leading sign that spreadsheets take for a formula gets an apostrophe before it
/// (common practice).
std::string field(std::string_view text) {
  const bool formula = !text.empty() && std::string_view("=+-@\t\r").find(text.front()) != std::string_view::npos;
  std::string quoted = formula ? "\"'" : "\"";
  for (const char letter : text) {
    if (letter == '"') quoted += '"';
    quoted += letter;
  }
  return quoted + "\"";
}

std::string row_of(const TallyRecord& record) {
  std::string reasons;
  for (const std::string& reason : record.reasons) reasons += (reasons.empty() ? "" : " | ") + reason;
  std::string row =
      fmt::format("{},{},{},{},{},{},{},{},{},{},{:.1f}", field(record.pupil), field(record.job), field(record.title),
                  field(record.vehicle_type), record.attempt, verdict_id(record.verdict), record.closed ? 1 : 0,
                  record.passed ? 1 : 0, record.first_attempt_counts ? 1 : 0, record.found ? 1 : 0, record.total);
  constexpr std::size_t parts = 5;
  for (std::size_t i = 0; i < parts; ++i) {
    row += i < record.parts.size() ? fmt::format(",{:.1f}", record.parts[i].points) : ",";
  }
  return row + fmt::format(",{:.1f},{:.2f},{},{},{},{}\r\n", record.minutes, record.money, field(record.was),
                           field(record.named), field(record.file), field(reasons));
}

}  // namespace

std::string tally_as_csv(const TallyContents& contents) {
  std::string text =
      "code,job,title,vehicle_type,attempt,verdict,closed,passed,counts,found,points,diagnosis,proof,safety,economy,"
      "method,"
      "minutes,money,was,named,file,reasons\r\n";
  for (const TallyRecord& record : contents.records) text += row_of(record);
  return text;
}

}  // namespace voltfall
