#include "console/bay_text.h"

#include <fmt/format.h>
#include <fmt/ostream.h>

#include <algorithm>
#include <iostream>
#include <string>
#include <vector>

#include "console/bay_commands.h"
#include "console/commands.h"
#include "console/key_file.h"
#include "console/record_place.h"
#include "console/text_report.h"
#include "console/told_table.h"
#include "console/typed_words.h"
#include "session/record.h"
#include "text/nearest.h"
#include "wording/wording.h"

namespace voltfall {
namespace {

constexpr double until_at_rest_s = 20.0;  // more than any part needs to run down

void say_marks_since(std::ostream& out, const Session& session, std::size_t marks) {
  const auto& all = session.log().marks();
  for (std::size_t i = marks; i < all.size(); ++i) fmt::print(out, "Safety: {}\n", english().outcome(all[i].id));
}

// A record that is there already is a job to go on with, when it is one of this scenario.
std::optional<Session> resumed(const std::filesystem::path& record, const Scenario& scenario,
                               std::vector<Problem>& problems) {
  Replay played = replay(record, told_tables(), by_releases_at_hand(record.parent_path()));
  problems = std::move(played.problems);
  if (!problems.empty()) return std::nullopt;
  if (played.session->scenario().source_text != scenario.source_text) {
    problems.push_back({record.string(), 1, 0, "this record is of another scenario, or of an older text of this one"});
    return std::nullopt;
  }
  fmt::print("Resumed job: {:.1f} minutes so far\n", played.session->job_minutes());
  return std::move(played.session);
}

}  // namespace

void TextBay::greet() const {
  print_work_order(out_, session_.scenario());
  fmt::print(out_, "Type help for the commands.\n");
}

bool TextBay::act(const Action& action) {
  const std::size_t marks = session_.log().marks().size();
  const Outcome outcome = session_.act(action);
  const bool is_look = std::holds_alternative<LookClosely>(action) && outcome.done;
  const auto& said = session_.log().marks();
  const bool said_as_mark = std::any_of(said.begin() + static_cast<std::ptrdiff_t>(marks), said.end(),
                                        [&](const SafetyMark& mark) { return mark.id == outcome.id; });
  if (!outcome.id.empty() && !is_look && !said_as_mark) fmt::print(out_, "{}\n", english().outcome(outcome.id));
  say_marks_since(out_, session_, marks);
  if (!session_.under_load()) session_.run_for_s(until_at_rest_s);
  return outcome.done;
}

void TextBay::run(double seconds) {
  const std::size_t marks = session_.log().marks().size();
  session_.run_for_s(seconds);
  say_marks_since(out_, session_, marks);
}

void TextBay::crank(const Action& start, const Action& stop, double hold_s, std::span<const Kit> noted) {
  const std::size_t marks = session_.log().marks().size();
  const Outcome outcome = session_.act(start);
  if (!outcome.done) {
    fmt::print(out_, "{}\n", english().outcome(outcome.id));
    return;
  }
  session_.run_for_s(hold_s);
  print_crank(out_, session_);
  print_displays(out_, session_);
  say_marks_since(out_, session_, marks);
  for (const Kit kit : noted) {
    if (act(NoteReading{kit})) print_finding(out_, session_.findings().back());
  }
  act(stop);
}

bool TextBay::obey(std::string_view line) {
  const std::vector<std::string> words = split_words(line);
  if (words.empty()) return true;
  if (words.front() == "leave") return false;
  std::vector<std::string_view> known{"leave"};
  for (const TextCommand& command : all_text_commands()) {
    if (command.word == words.front()) {
      command.carry_out(*this, TypedWords(words).subspan(1));
      return true;
    }
    known.push_back(command.word);
  }
  fmt::print(out_, "No command `{}`. Nearest: {}. help lists all\n", words.front(), nearest_name(words.front(), known));
  return true;
}

void work_in_text(Session& session, std::istream& in, std::ostream& out) {
  TextBay bay(session, out);
  bay.greet();
  std::string line;
  while (std::getline(in, line) && bay.obey(line)) out.flush();
  if (!session.closed()) fmt::print(out, "The job is not closed.\n");
}

int bay_text_command(const std::filesystem::path& scenario, const std::filesystem::path& record) {
  const ReadScenario read = read_job(scenario, by_releases_at_hand(scenario.parent_path()));
  if (!read.scenario) return explain(read.problems);
  RecordPlace place = next_record_place(*read.scenario);
  if (!record.empty()) place.path = record;

  std::vector<Problem> problems;
  const bool there = std::filesystem::exists(place.path);
  std::optional<Session> session =
      there ? resumed(place.path, *read.scenario, problems) : Session(*read.scenario, told_tables());
  if (!session) return explain(problems);
  const auto problem = there ? resume_kept_record(place.path, *session) : begin_kept_record(place, *session);
  if (problem) return explain({*problem});

  work_in_text(*session, std::cin, std::cout);
  fmt::print("Record: {}\n", place.path.string());
  if (!session->closed()) {
    fmt::print("To go on with it: voltfall bay {} --text --record {}\n", scenario.string(), place.path.string());
  }
  if (session->closed() && !session->score()) {
    for (const std::string& line : what_follows_a_sealed_job(english(), place.path)) fmt::print("{}\n", line);
  }
  return 0;
}

}  // namespace voltfall
