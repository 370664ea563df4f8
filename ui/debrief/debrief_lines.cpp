#include <fmt/format.h>
#include <fmt/ostream.h>

#include <cmath>

#include "debrief/debrief_report.h"

namespace voltfall {
namespace {

void print_steps(std::ostream& out, std::string_view label, const std::vector<DebriefStep>& steps,
                 std::string_view currency) {
  for (const DebriefStep& step : steps) {
    fmt::print(out, "{}, at {:.1f} min: {}, {:.1f} min", label, step.at_minute, step.what, step.minutes);
    if (step.money > 0.0) fmt::print(out, ", {:.2f} {}", step.money, currency);
    fmt::print(out, "\n");
    for (const std::string& note : step.notes) fmt::print(out, "  {}\n", note);
  }
}

}  // namespace

std::string fall_text(const SettledFall& fall) {
  return fmt::format("{:.0f} A, {:.0f} rpm, {:.2f} V across the starter", fall.loop_A,
                     std::max(0.0, std::round(fall.crank_rpm)),
                     fall.at(TestPoint::starter_terminal) - fall.at(TestPoint::starter_case));
}

void print_debrief(std::ostream& out, const DebriefContents& contents) {
  for (const std::string& words : contents.what_it_was) fmt::print(out, "{}\n", words);
  print_steps(out, "Done", contents.timeline, contents.currency);
  fmt::print(out, "Done, {}\n", contents.timeline_sum);
  print_steps(out, "Par", contents.par, contents.currency);
  fmt::print(out, "Par, {}\n", contents.par_sum);
  fmt::print(out, "Suspects: {}\n", contents.suspects_sum);
  for (const DebriefList& list : contents.suspects) {
    for (const std::string& name : list.names) fmt::print(out, "{}: {}\n", list.heading, name);
  }
  fmt::print(out, "Cranking as it should: {}\n", fall_text(contents.falls.healthy));
  fmt::print(out, "Cranking as found: {}\n", fall_text(contents.falls.found));
  fmt::print(out, "Cranking as handed back: {}\n", fall_text(contents.falls.handed_back));
  for (const std::string& mark : contents.safety) fmt::print(out, "Safety: {}\n", mark);
  if (!contents.author.empty()) fmt::print(out, "From the author: {}\n", contents.author);
  for (const std::string& step : contents.check_steps) fmt::print(out, "On a real vehicle: {}\n", step);
  for (const CheckRow& row : contents.check_rows) {
    fmt::print(out, "To read there: {}{}{}\n", row.what, row.limit.empty() ? "" : ": ", row.limit);
  }
}

}  // namespace voltfall
