#include "scoring/review.h"

#include <algorithm>
#include <limits>
#include <optional>

#include "faults/catalogue.h"

namespace voltfall {
namespace {

using decision::Situation;

bool is_battery_check(const Question& question) {
  using Kind = Finding::Kind;
  const auto is_post = [](std::optional<TestPoint> point) {
    return point == TestPoint::battery_positive_post || point == TestPoint::negative_post;
  };
  const bool posts = question.kind == Kind::volts && is_post(question.red) && is_post(question.black);
  return posts || question.kind == Kind::load_volts || question.kind == Kind::gravity ||
         question.kind == Kind::cold_amps;
}

bool is_repeat(const Finding& finding, const std::vector<Finding>& findings) {
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& earlier) {
    if (earlier.number >= finding.number || earlier.kind != finding.kind || earlier.state != finding.state)
      return false;
    if (earlier.headlamps != finding.headlamps || earlier.hold != finding.hold) return false;
    if (!(earlier.around == finding.around) || earlier.repairs_before != finding.repairs_before) return false;
    if (earlier.clamp != finding.clamp || earlier.cell != finding.cell) return false;
    if (earlier.component != finding.component || earlier.observation != finding.observation) return false;
    if (!finding.red || !finding.black) return earlier.red == finding.red;
    return earlier.is_between(*finding.red, *finding.black);
  });
}

enum class Effect { none, mends_a_part, mends_the_rest };

/// Walks through a job and keeps what the learner could know at every moment.
class Walk {
 public:
  explicit Walk(const JobFacts& facts)
      : facts_(facts),
        problem_(facts.diagnosis.problem()),
        now_(decision::at_start(problem_)),
        base_(now_.belief),
        answers_(answers_of(facts.findings, facts.scenario)) {}

  void test(const Finding& finding) {
    const auto& answered = answers_[static_cast<std::size_t>(finding.number - 1)];
    const int test = answered ? facts_.diagnosis.test_of(answered->question) : -1;
    Step step = begin();
    step.finding = finding.number;
    step.at_minute = finding.job_minute;
    const TestWorth worth = worth_of(finding, facts_.scenario);
    step.able = worth.able;
    step.why_not = worth.why;
    step.repeated = is_repeat(finding, facts_.findings);
    step.left_out = answered && (is_battery_check(answered->question) || proves_repair(answered->question));
    if (test >= 0) {
      weigh(step, test);
      if (finding.faults_there) learn(test, answered->answer);
    } else {
      step.minutes = answered ? minutes_for(answered->question) : 1.0;
      step.regret_minutes = step.minutes;
    }
    if (step.repeated && step.minutes > 0.0) step.regret_minutes = std::max(step.regret_minutes, 0.5);
    step.truth_share_after = decision::share_of(truth_group_, now_.belief);
    steps_.push_back(std::move(step));
  }

  /// @param what_it_did  to the vehicle as it stood
  void repair(const std::string& id, double at_minute, Effect what_it_did) {
    Step step = begin();
    step.kind = Step::Kind::repair;
    step.repair = id;
    step.at_minute = at_minute;
    const int repair = facts_.diagnosis.repair_of(id);
    if (repair >= 0) {
      step.minutes = decision::minutes_of(problem_, now_.opened, decision::repair_choice(repair));
      step.regret_minutes = regret_of(decision::repair_choice(likeliest_with(id, repair)), step.minutes);
      if (what_it_did == Effect::none) fail(repair);
      if (what_it_did == Effect::mends_a_part) change(id, repair);
    }
    step.truth_share_after = decision::share_of(truth_group_, now_.belief);
    steps_.push_back(std::move(step));
  }

  std::vector<Step> take() { return std::move(steps_); }

 private:
  /// The same until something is learnt or changed.
  Step begin() {
    if (!begun_) {
      begun_.emplace();
      begun_->suspects_before = static_cast<int>(decision::consistent_candidates(problem_, seen_).size());
      best_available(*begun_);
    }
    return *begun_;
  }

  std::vector<int> split_by(int test) const {
    std::vector<int> counts = decision::split(problem_, seen_, test);
    std::erase(counts, 0);
    std::sort(counts.rbegin(), counts.rend());
    return counts;
  }

  void best_available(Step& step) const {
    int best = -1;
    for (int test = 0; test < static_cast<int>(problem_.tests.size()); ++test) {
      if (now_.tests_done[static_cast<std::size_t>(test)]) continue;
      const double rate = decision::information_rate_bits_per_min(problem_, now_, test);
      if (rate > step.best_bits_per_min) best = test, step.best_bits_per_min = rate;
    }
    if (best < 0) return;
    step.best = facts_.diagnosis.questions()[static_cast<std::size_t>(best)];
    step.best_bits = decision::expected_information_bits(problem_, now_.belief, best);
    step.best_split = split_by(best);
  }

  void weigh(Step& step, int test) {
    const decision::Choice choice = decision::test_choice(test);
    step.minutes = decision::minutes_of(problem_, now_.opened, choice);
    if (now_.tests_done[static_cast<std::size_t>(test)]) {
      step.regret_minutes = step.minutes;
      return;
    }
    step.bits = decision::expected_information_bits(problem_, now_.belief, test);
    step.bits_per_min = decision::information_rate_bits_per_min(problem_, now_, test);
    step.split = split_by(test);
    step.left_out = step.left_out || confirms_cheaply(test, step.minutes);
    if (!step.left_out)
      step.regret_minutes = std::min(regret_of(choice, step.minutes), most_regret(test, step.minutes));
  }

  /// Looking ahead takes its time. Where economy is lost already, only what the choice took itself is counted on.
  double regret_of(decision::Choice choice, double minutes) {
    constexpr double lost_from_pars = 2.5;
    const bool lost = regret_so_far_ > lost_from_pars * facts_.par.minutes;
    const double regret = lost ? minutes : facts_.diagnosis.planner().regret_minutes(now_, choice);
    regret_so_far_ += regret;
    return regret;
  }

  /// One suspect is ahead, the test should show its own failing, and all such tests together cost less than a fifth of
  /// what mending it does.
  bool confirms_cheaply(int test, double minutes) {
    constexpr double cheap_share = 0.2;
    const int candidate = leading_candidate();
    if (candidate < 0 || !facts_.diagnosis.should_show(candidate, test, now_.belief)) return false;
    const auto cures = [&](const decision::Repair& repair) {
      return std::find(repair.cures.begin(), repair.cures.end(), candidate) != repair.cures.end();
    };
    const auto repair = std::find_if(problem_.repairs.begin(), problem_.repairs.end(), cures);
    if (repair == problem_.repairs.end() || confirming_minutes_ + minutes > cheap_share * repair->cost_minutes) {
      return false;
    }
    confirming_minutes_ += minutes;
    return true;
  }

  /// A naming asks for a failing of the thing itself: the first such test of whoever has one suspect ahead can cost no
  /// more than what the cheapest of them would have spared.
  double most_regret(int test, double minutes) const {
    constexpr double any = std::numeric_limits<double>::infinity();
    const int leading = leading_candidate();
    const auto shows = [&](int other) { return facts_.diagnosis.should_show(leading, other, now_.belief); };
    if (leading < 0 || !shows(test)) return any;
    const auto has_shown = [&](const decision::Seen& one) { return shows(one.test); };
    if (std::any_of(seen_.begin(), seen_.end(), has_shown)) return any;
    double least = minutes;
    for (int other = 0; other < static_cast<int>(problem_.tests.size()); ++other) {
      const double asked = decision::minutes_of(problem_, now_.opened, decision::test_choice(other));
      if (asked < least && shows(other)) least = asked;
    }
    return minutes - least;
  }

  /// -1 where none has half of the belief.
  int leading_candidate() const {
    constexpr double ahead_from = 0.5;
    const std::vector<double> shares = decision::candidate_shares(problem_, now_.belief);
    const auto leading = std::max_element(shares.begin(), shares.end());
    return *leading < ahead_from ? -1 : static_cast<int>(leading - shares.begin());
  }

  void learn(int test, int answer) {
    begun_.reset();
    facts_.diagnosis.add_to(seen_, {test, answer});
    Situation after = decision::after_test(problem_, now_, test, answer);
    after.belief = base_;
    for (const decision::Seen& one : seen_) {
      after.belief = decision::after_outcome(problem_, after.belief, one.test, one.outcome);
    }
    now_ = std::move(after);
  }

  /// Where a pair is likelier than the single thing, its first repair is half of the repair of both.
  int likeliest_with(const std::string& id, int repair) const {
    const std::vector<double> shares = decision::candidate_shares(problem_, now_.belief);
    const auto cured_by = [&](int index) {
      double share = 0.0;
      for (const int candidate : problem_.repairs[static_cast<std::size_t>(index)].cures) {
        share += shares[static_cast<std::size_t>(candidate)];
      }
      return share;
    };
    int likeliest = repair;
    for (int other = 0; other < static_cast<int>(problem_.repairs.size()); ++other) {
      const auto& ids = facts_.diagnosis.repairs()[static_cast<std::size_t>(other)];
      const bool holds_it = std::find(ids.begin(), ids.end(), id) != ids.end();
      if (holds_it && cured_by(other) > cured_by(likeliest)) likeliest = other;
    }
    return likeliest;
  }

  void fail(int repair) {
    begun_.reset();
    now_ = decision::after_repair_failed(problem_, std::move(now_), repair);
    base_ = decision::after_failed_repair(problem_, base_, repair);
  }

  /// From here on the vehicle is another: what was read before told of what is gone.
  void change(const std::string& id, int repair) {
    begun_.reset();
    const std::vector<int> left = facts_.diagnosis.left_after(id);
    now_ = decision::after_repair_changed(problem_, std::move(now_), repair, left);
    base_ = now_.belief;
    for (const decision::Seen& one : seen_) asked_before_.push_back(one.test);
    seen_.clear();
    truth_ = left[static_cast<std::size_t>(truth_)];
    truth_group_ = decision::group_of(problem_, truth_);
  }

  /// After a repair: the same reading again, and a crank to hear what it did.
  bool proves_repair(const Question& question) const {
    const int test = facts_.diagnosis.test_of(question);
    const bool again = std::find(asked_before_.begin(), asked_before_.end(), test) != asked_before_.end();
    const bool listens = question.kind == Finding::Kind::heard_or_seen && question.condition == Condition::cranking;
    return again || (listens && !asked_before_.empty());
  }

  const JobFacts& facts_;
  const decision::Problem& problem_;
  Situation now_;
  decision::Belief base_;             // before anything that was seen of the vehicle as it stands
  std::vector<decision::Seen> seen_;  // since the last repair that mended a part
  std::vector<int> asked_before_;     // tests, before it
  std::vector<std::optional<Answered>> answers_;
  int truth_ = facts_.diagnosis.truth();
  std::vector<int> truth_group_ = decision::group_of(problem_, truth_);
  double confirming_minutes_ = 0.0, regret_so_far_ = 0.0;
  std::optional<Step> begun_;
  std::vector<Step> steps_;
};

/// What the repair with that number did to a vehicle on which those before it had been done.
Effect effect_of(std::size_t repair, const JobFacts& facts) {
  const auto& done = facts.repairs_done;
  const std::size_t before = still_hidden(facts.scenario.faults, std::span(done).first(repair)).size();
  const std::size_t after = still_hidden(facts.scenario.faults, std::span(done).first(repair + 1)).size();
  if (after == before) return Effect::none;
  return after > 0 ? Effect::mends_a_part : Effect::mends_the_rest;
}

std::vector<double> repair_minutes(const JobLog& log) {
  std::vector<double> at;
  for (const LogEntry& entry : log.entries()) {
    if (entry.what == "repair") at.push_back(entry.at_minute);
  }
  return at;
}

}  // namespace

std::vector<Step> steps_of(const JobFacts& facts) {
  Walk walk(facts);
  const std::vector<double> repaired_at = repair_minutes(facts.log);
  std::size_t next_finding = 0;
  for (std::size_t repair = 0; repair <= facts.repairs_done.size(); ++repair) {
    while (next_finding < facts.findings.size() &&
           facts.findings[next_finding].repairs_before == static_cast<int>(repair)) {
      walk.test(facts.findings[next_finding++]);
    }
    if (repair == facts.repairs_done.size()) break;
    const Effect effect = effect_of(repair, facts);
    walk.repair(facts.repairs_done[repair], repaired_at[repair], effect);
    if (effect == Effect::mends_the_rest) break;
  }
  return walk.take();
}

int telling_finding(const std::vector<Step>& steps) {
  constexpr double half = 0.5;
  int telling = 0;
  double before = 0.0;
  for (const Step& step : steps) {
    if (step.kind != Step::Kind::test) continue;
    if (step.truth_share_after >= half && before < half) return step.finding;
    if (step.truth_share_after > before) telling = step.finding;
    before = step.truth_share_after;
  }
  return telling;
}

}  // namespace voltfall
