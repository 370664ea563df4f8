#include <algorithm>
#include <cmath>

#include "debrief/debrief_parts.h"
#include "desktop/rail/rail_text.h"
#include "scoring/review.h"
#include "wording/filled.h"
#include "wording/question_words.h"

namespace voltfall {
namespace {

// Below this nobody would call one way dearer than the other.
constexpr double dearer_from_min = 0.5;

/// `7 and 7`; more than three shares are cut to the largest three.
std::string shares_text(const std::vector<int>& split) {
  constexpr std::size_t most = 3;
  std::vector<std::string> shares;
  for (std::size_t i = 0; i < std::min(split.size(), most); ++i) shares.push_back(std::to_string(split[i]));
  if (split.size() > most) shares.emplace_back("fewer");
  return enumerated(shares);
}

std::string could_tell(const Step& step, const Wording& words) {
  const auto count = fmt::arg("count", step.suspects_before);
  if (step.suspects_before == 0) return filled(words, "debrief.split_zero");
  if (step.suspects_before == 1) return filled(words, "debrief.split_one");
  if (step.split.empty()) return filled(words, "debrief.no_limit");
  if (step.split.back() == step.suspects_before) return filled(words, "debrief.split_none", count);
  return filled(words, "debrief.split", count, fmt::arg("shares", shares_text(step.split)));
}

std::string best_then(const Step& step, const Wording& words) {
  constexpr double as_good = 0.999, worth_asking_bits = 0.05;
  const bool taken = step.bits_per_min >= as_good * step.best_bits_per_min;
  if (!step.best || taken || step.best_bits < worth_asking_bits) return filled(words, "debrief.best_taken");
  const std::string_view path = step.best_split.size() > 1 ? "debrief.best" : "debrief.best_none";
  return filled(words, path, fmt::arg("shares", shares_text(step.best_split)),
                fmt::arg("test", question_in_words(*step.best, words)));
}

/// Says about a step what has to be said, bits and shares of belief left out.
std::vector<std::string> notes_on(const Step& step, const Wording& words) {
  std::vector<std::string> notes;
  if (step.kind == Step::Kind::repair) {
    notes.push_back(filled(words, "debrief.suspects_at_repair", fmt::arg("count", step.suspects_before)));
  } else {
    if (!step.able) notes.push_back(filled(words, "debrief.unable", fmt::arg("why", step.why_not)));
    if (step.repeated) notes.push_back(filled(words, "debrief.repeated"));
    notes.push_back(could_tell(step, words));
    if (step.suspects_before > 1) notes.push_back(best_then(step, words));
  }
  if (step.left_out) {
    notes.push_back(filled(words, "debrief.left_out"));
  } else if (step.regret_minutes >= dearer_from_min) {
    notes.push_back(filled(words, "debrief.dearer", fmt::arg("minutes", std::lround(step.regret_minutes))));
  }
  return notes;
}

bool makes(const LogEntry& entry, const Finding& finding) {
  using enum Finding::Kind;
  if (entry.at_minute != finding.job_minute) return false;
  switch (finding.kind) {
    case heard_or_seen:
      return entry.what == "observation";
    case looked:
      return entry.what == "look";
    case felt:
      return entry.what == "hands";
    case bench:
      return entry.what == "bench";
    default:
      return entry.what == "reading";
  }
}

/// Goes along the log and hands out findings and repairs as their entries come.
class Matching {
 public:
  Matching(const Session& session, std::vector<Step> steps) : session_(session), steps_(std::move(steps)) {}

  const Finding* finding_of(const LogEntry& entry) {
    const auto& findings = session_.findings();
    if (next_finding_ >= findings.size() || !makes(entry, findings[next_finding_])) return nullptr;
    return &findings[next_finding_++];
  }

  /// Null for what came after the repair that cured.
  const Step* step_of(const LogEntry& entry, const Finding* finding) {
    const bool repair = entry.what == "repair";
    if (!repair && finding == nullptr) return nullptr;
    const auto is_it = [&](const Step& step) {
      return repair
                 ? step.kind == Step::Kind::repair && step.at_minute == entry.at_minute && step.repair == entry.detail
                 : step.kind == Step::Kind::test && step.finding == finding->number;
    };
    const auto found = std::find_if(steps_.begin(), steps_.end(), is_it);
    return found == steps_.end() ? nullptr : &*found;
  }

 private:
  const Session& session_;
  std::vector<Step> steps_;
  std::size_t next_finding_ = 0;
};

std::string telling_text(const std::vector<Step>& steps, int finding, const Wording& words) {
  constexpr double half = 0.5;
  const auto told = std::find_if(steps.begin(), steps.end(), [&](const Step& step) { return step.finding == finding; });
  const bool told_it = told != steps.end() && told->truth_share_after >= half;
  return filled(words, told_it ? "debrief.telling" : "debrief.telling_least");
}

}  // namespace

std::string finding_text(const Finding& finding, const Wording& words) {
  std::string where = where_text(finding, words);
  if (where.ends_with('.')) where.pop_back();
  if (!has_figure(finding)) return where;
  if (finding.red && finding.black) {
    where += fmt::format(" {} to {}", words.point_short(*finding.red), words.point_short(*finding.black));
  }
  if (finding.is_reading()) where += fmt::format(", {}", words.state(finding.state));
  std::string figure = figure_text(finding);
  if (finding.kind == Finding::Kind::volts) figure += ", " + amps_text(finding.loop_A);
  return fmt::format("{}: {}", where, figure);
}

void add_timeline(const Session& session, const Wording& words, DebriefContents& contents) {
  const std::vector<Step> steps = steps_of(session.facts());
  const int telling = telling_finding(steps);
  Matching matching(session, steps);
  for (const LogEntry& entry : session.log().entries()) {
    const Finding* finding = matching.finding_of(entry);
    const Step* step = matching.step_of(entry, finding);
    DebriefStep shown{entry.at_minute, entry.minutes, entry.money, "", {}, false};
    shown.what = finding != nullptr ? finding_text(*finding, words) : log_text(entry, words);
    if (step != nullptr) shown.notes = notes_on(*step, words);
    shown.telling = finding != nullptr && finding->number == telling;
    if (shown.telling) shown.notes.insert(shown.notes.begin(), telling_text(steps, telling, words));
    contents.timeline.push_back(std::move(shown));
  }
  contents.timeline_sum =
      filled(words, "debrief.in_all", fmt::arg("minutes", fmt::format("{:.0f}", session.job_minutes())),
             fmt::arg("money", fmt::format("{:.0f}", session.money_spent())),
             fmt::arg("currency", session.scenario().currency));
}

}  // namespace voltfall
