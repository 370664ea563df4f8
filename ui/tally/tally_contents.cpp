#include "tally/tally_contents.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "scoring/review.h"
#include "tally/concepts.h"
#include "wording/question_words.h"
#include "work/on_all_cores.h"

namespace voltfall {
namespace {

constexpr std::size_t most_listed = 12;

std::string faults_in_words(const std::vector<std::string>& ids, const Wording& words) {
  std::string text;
  for (const std::string& id : ids) text += (text.empty() ? "" : "; ") + std::string(words.fault(id));
  return text;
}

std::vector<std::string> hidden_in(const Scenario& scenario) {
  std::vector<std::string> ids;
  for (const HiddenFault& fault : scenario.faults) ids.push_back(fault.id);
  if (ids.empty()) ids.emplace_back("nothing_found");
  return ids;
}

TallyRecord told(const Marked& marked) {
  TallyRecord record;
  record.file = marked.file.string();
  record.pupil = marked.pupil_code.empty() ? marked.file.stem().string() : marked.pupil_code;
  record.job = marked.job;
  record.attempt = marked.attempt;
  record.verdict = marked.verdict;
  record.reasons = marked.reasons;
  record.closed = marked.closed;
  return record;
}

void add_session(const Session& session, const Wording& words, TallyRecord& record) {
  const Scenario& scenario = session.scenario();
  const std::vector<std::string> hidden = hidden_in(scenario);
  record.title = scenario.title;
  record.vehicle_type = scenario.vehicle_type;
  record.was = faults_in_words(hidden, words);
  record.minutes = session.job_minutes();
  record.money = session.money_spent();
  for (const std::string& id : hidden) {
    const Fault* fault = fault_named(id);
    record.fault_classes.emplace_back(fault != nullptr ? id_of(fault->fault_class) : std::string_view("nothing"));
  }
  if (!session.namings().empty()) {
    std::vector<std::string> named = session.namings().front().fault_ids;
    record.named = faults_in_words(named, words);
    std::sort(named.begin(), named.end());
    std::vector<std::string> sorted = hidden;
    std::sort(sorted.begin(), sorted.end());
    record.found = named == sorted;
  }
  if (const auto score = session.score()) {
    record.passed = score->passed;
    record.total = score->total;
    for (const ScoreLine& line : score->lines) record.parts.push_back({line.part, line.points, line.out_of});
  }
}

/// What one closed job adds to the class, worked out beside the others.
struct Closer {
  std::optional<DebriefContents> debrief;
  std::vector<Step> steps;
};

using DearTests = std::map<std::string, DearTest>;

void add_dear_tests(const Session& session, const std::vector<Step>& steps, const Wording& words, DearTests& dear) {
  const auto answers = answers_of(session.findings(), session.scenario());
  for (const Step& step : steps) {
    const auto finding = static_cast<std::size_t>(step.finding);
    const bool counts = step.kind == Step::Kind::test && !step.left_out && step.regret_minutes > 0.0;
    if (!counts || finding == 0 || !answers[finding - 1]) continue;
    const std::string test = question_in_words(answers[finding - 1]->question, words);
    DearTest& one = dear[test];
    one.test = test;
    ++one.times;
    one.minutes += step.regret_minutes;
  }
}

template <typename Value, typename Before>
std::vector<Value> ranked(const std::map<std::string, Value>& all, const Before& before) {
  std::vector<Value> list;
  list.reserve(all.size());
  for (const auto& [key, value] : all) list.push_back(value);
  std::stable_sort(list.begin(), list.end(), before);
  list.resize(std::min(list.size(), most_listed));
  return list;
}

void add_means(TallyContents& contents) {
  int counted = 0;
  for (const TallyRecord& record : contents.records) {
    if (!record.first_attempt_counts) continue;
    ++counted;
    contents.mean_parts.resize(record.parts.size());
    for (std::size_t i = 0; i < record.parts.size(); ++i) {
      contents.mean_parts[i].part = record.parts[i].part;
      contents.mean_parts[i].points += record.parts[i].points;
      contents.mean_parts[i].out_of += record.parts[i].out_of;
    }
  }
  for (TallyPart& part : contents.mean_parts) part.points /= counted, part.out_of /= counted;
}

void add_lists(TallyContents& contents) {
  std::set<std::string> pupils, jobs, classes, vehicles, counted_jobs;
  for (const TallyRecord& record : contents.records) {
    if (record.verdict == MarkVerdict::refused) continue;
    pupils.insert(record.pupil);
    jobs.insert(record.job);
    if (!record.first_attempt_counts) continue;
    counted_jobs.insert(record.job);
    classes.insert(record.fault_classes.begin(), record.fault_classes.end());
    vehicles.insert(record.vehicle_type);
  }
  contents.pupils.assign(pupils.begin(), pupils.end());
  contents.jobs.assign(jobs.begin(), jobs.end());
  contents.reach = {static_cast<int>(counted_jobs.size()), static_cast<int>(classes.size()),
                    static_cast<int>(vehicles.size())};
}

void add_wrong_calls(TallyContents& contents) {
  std::map<std::string, WrongCall> calls;
  for (const TallyRecord& record : contents.records) {
    if (!record.first_attempt_counts || record.found || record.named.empty()) continue;
    WrongCall& call = calls[record.named + "\n" + record.was];
    call.named = record.named;
    call.was = record.was;
    ++call.times;
  }
  contents.wrong_calls =
      ranked(calls, [](const WrongCall& one, const WrongCall& other) { return one.times > other.times; });
}

}  // namespace

TallyContents tally_contents(const std::vector<Marked>& marked, const Wording& words) {
  TallyContents contents;
  std::vector<const Marked*> in_order;
  in_order.reserve(marked.size());
  for (const Marked& one : marked) in_order.push_back(&one);
  std::stable_sort(in_order.begin(), in_order.end(), [](const Marked* one, const Marked* other) {
    return std::tie(one->pupil_code, one->job, one->attempt) < std::tie(other->pupil_code, other->job, other->attempt);
  });
  std::vector<Closer> closers(in_order.size());
  for (const Marked* one : in_order) {
    contents.records.push_back(told(*one));
    TallyRecord& record = contents.records.back();
    if (one->session) add_session(*one->session, words, record);
    record.first_attempt_counts = one->verdict == MarkVerdict::counted && one->closed && one->attempt == 1 &&
                                  one->session && one->session->score();
  }
  on_all_cores(in_order.size(), [&](std::size_t index) {
    if (!contents.records[index].first_attempt_counts) return;
    closers[index].debrief = debrief_contents(*in_order[index]->session, words);
    closers[index].steps = steps_of(in_order[index]->session->facts());
  });
  DearTests dear;
  for (std::size_t i = 0; i < in_order.size(); ++i) {
    if (!contents.records[i].first_attempt_counts) continue;
    contents.records[i].debrief = std::move(closers[i].debrief);
    add_dear_tests(*in_order[i]->session, closers[i].steps, words, dear);
    tally_concepts(*in_order[i]->session, contents.concepts);
  }
  contents.dear_tests =
      ranked(dear, [](const DearTest& one, const DearTest& other) { return one.minutes > other.minutes; });
  add_means(contents);
  add_lists(contents);
  add_wrong_calls(contents);
  return contents;
}

}  // namespace voltfall
