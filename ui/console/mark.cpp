#include <fmt/format.h>
#include <fmt/ostream.h>

#include <iostream>

#include "console/commands.h"
#include "console/key_file.h"
#include "console/table_place.h"
#include "console/text_report.h"
#include "marking/marking.h"

namespace voltfall {
namespace {

std::string_view verdict_text(MarkVerdict verdict) {
  switch (verdict) {
    case MarkVerdict::counted:
      return "counts";
    case MarkVerdict::for_a_person:
      return "FOR A PERSON TO JUDGE";
    case MarkVerdict::refused:
      return "REFUSED";
  }
  return "";
}

void print_marked(const Marked& marked) {
  fmt::print("Record: {}\nMark: {}\n", marked.file.string(), verdict_text(marked.verdict));
  for (const std::string& reason : marked.reasons) fmt::print("Reason: {}\n", reason);
  if (!marked.session) return;
  const Session& session = *marked.session;
  if (!marked.pupil_code.empty()) fmt::print("Code: {}\n", marked.pupil_code);
  fmt::print("Scenario: {} ({}), attempt {}\n", session.scenario().title, marked.job, marked.attempt);
  fmt::print("Readings compared with their replay: {}\n", marked.readings);
  if (!marked.closed) fmt::print("Unfinished: the job was not closed; {:.1f} minutes so far\n", session.job_minutes());
  std::cout.flush();
  print_score(std::cout, session);
  std::cout.flush();
}

}  // namespace

int mark_command(const std::vector<std::filesystem::path>& records, const std::filesystem::path& key) {
  const SealOpener opener = opener_with(key);
  if (!opener) return 2;
  bool all_count = true;
  for (const Marked& marked : mark_records(records, table_store().source(), opener)) {
    print_marked(marked);
    all_count = all_count && marked.verdict == MarkVerdict::counted;
  }
  return all_count ? 0 : 1;
}

}  // namespace voltfall
