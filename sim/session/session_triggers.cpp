#include <algorithm>
#include <cmath>

#include "rig/heat.h"
#include "session/session.h"

// What makes intermittent faults come and go in the course of a job, and how long the parts were warmed.

namespace voltfall {

// The same job comes in the same way every time it is opened: drawn from what its author wrote.
std::uint64_t Session::seed() const {
  constexpr std::uint64_t offset = 14695981039346656037ULL, prime = 1099511628211ULL;  // FNV-1a
  std::uint64_t hash = offset;
  for (const char letter : scenario_.source_text) hash = (hash ^ static_cast<unsigned char>(letter)) * prime;
  return hash;
}

void Session::set_triggers(const Triggers& next) {
  if (next == triggers_) return;
  triggers_ = next;
  const auto left = still_hidden(scenario_.faults, repairs_done_);
  const bool some_come_and_go =
      std::any_of(left.begin(), left.end(), [](const HiddenFault& fault) { return fault.when != When::always; });
  if (some_come_and_go) rig_.refit(with_triggers(rig_.parameters(), scenario_.healthy, left, triggers_));
}

void Session::follow_heat() {
  const Readings& now = rig_.readings();
  set_triggers(after_heat(triggers_, std::max(now.winding_C, now.hottest_joint_C), rig_.parameters().ambient_C));
}

void Session::follow_wait(double waited_s) {
  follow_heat();
  cool_for(waited_s);
  set_triggers(after_wait(triggers_, std::max(waited_s, log_.minutes() * 60.0)));
}

void Session::cool_for(double span_s) {
  const double kept = std::exp(-span_s / joint_cooling_s);
  plain_cranked_s_ *= kept;
  other_cranked_s_ *= kept;
}

// While the starter is fed.
void Session::count_heat() {
  if (step_count_ == switched_at_step_) cranks_plainly_ = would_crank_plainly();
  const double share_of_usual = rig_.readings().loop_A / usual_cranking_A;
  (cranks_plainly_ ? plain_cranked_s_ : other_cranked_s_) += share_of_usual * share_of_usual * step_s;
}

bool Session::would_crank_plainly() const {
  const std::optional<Condition> condition = condition_of(new_finding(Finding::Kind::heard_or_seen), scenario_.healthy);
  return condition == Condition::cranking || condition == Condition::cranking_lamps ||
         condition == Condition::cranking_other_gear;
}

double Session::warmed_by_plain_cranking_s() const {
  constexpr double hardly_s = 1.0;
  return other_cranked_s_ < hardly_s ? plain_cranked_s_ : 0.0;
}

// A hand on the very part that moves.
void Session::shake(std::string_view component) {
  const auto left = still_hidden(scenario_.faults, repairs_done_);
  const bool moves = std::any_of(left.begin(), left.end(), [&](const HiddenFault& hidden) {
    return hidden.when == When::vibration && fault_named(hidden.id)->component == component;
  });
  if (moves) set_triggers(after_disturbance(triggers_));
}

// What eye and hand find is there whether the fault sleeps or not: a slack clamp is slack while it happens to conduct.
RigParameters Session::awake() const {
  return with_triggers(rig_.parameters(), scenario_.healthy, still_hidden(scenario_.faults, repairs_done_),
                       {.hot = true, .shaken = true, .damp = true});
}

bool Session::faults_are_there() const {
  return std::all_of(scenario_.faults.begin(), scenario_.faults.end(),
                     [&](const HiddenFault& fault) { return holds(fault.when, triggers_); });
}

}  // namespace voltfall
